#pragma once

#include <QObject>

#include "app/models/stages/stage_story.h"
#include "app/viewport/viewport.h"
#include "app/window/paint/paint_legend.h"

namespace swingroom {

/// What a comparison of two stages shows in the 3D view: the surface in colours for how far it
/// moved, and the places that its lines are about.
class StageView : public QObject {
  Q_OBJECT

 public:
  StageView(Session& session, StageCompare& compare, Viewport& view, QObject* parent = nullptr);

  /// Brings it close, with a dimension line to where the other stage is, or the hole's outline.
  void showPlace(const StageLine& line);
  /// Colours of the theme that is applied now.
  void showTheme() { showPaint(); }

 private:
  void showPaint();
  void hover(const std::optional<PaintPick>& pick);
  void clearPlace();

  Session& session_;
  StageCompare& compare_;
  Viewport& view_;
  PaintLegend* legend_;
  std::shared_ptr<const ComparedStages> painted_;
  bool paintedDetail_ = false;
  std::shared_ptr<const PaintedSurface> surface_;
  bool placeShown_ = false;
};

}  // namespace swingroom
