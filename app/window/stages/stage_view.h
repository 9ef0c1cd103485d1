#pragma once

#include <QObject>

#include "app/models/stages/stage_story.h"
#include "app/viewport/viewport.h"

namespace swingroom {

/// What a comparison of two stages shows in the 3D view: the surface in colours for how far it
/// moved, and the places that its lines are about.
class StageView : public QObject {
  Q_OBJECT

 public:
  StageView(Session& session, StageCompare& compare, Viewport& view, QObject* parent = nullptr);

  /// Brings it close, with a dimension line to where the other stage is, or the hole's outline.
  void showPlace(const StageLine& line);

 private:
  void clearPlace();

  Session& session_;
  StageCompare& compare_;
  Viewport& view_;
  bool placeShown_ = false;
};

}  // namespace swingroom
