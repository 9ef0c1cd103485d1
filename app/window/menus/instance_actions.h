#pragma once

#include <QObject>

#include "app/window/forms/place_form.h"
#include "app/window/forms/side_form.h"

class QAction;
class QMenu;

namespace swingroom {

/// What makes and takes out parts: one more of a part, its place in numbers, the other side, and
/// removing. The same actions in the menu bar and at a part.
class InstanceActions : public QObject {
  Q_OBJECT

 public:
  InstanceActions(Session& session, QWidget* window);

  void addTo(QMenu& menu) const;
  QList<QAction*> ofParts() const { return {place_, another_, remove_}; }
  QAction& otherSide() { return *side_; }
  SideForm& sideForm();
  PlaceForm& placeForm();

 Q_SIGNALS:
  void told(const QString& sentence);
  void refused(const Problem& problem);

 private:
  void openPlace(bool another);
  void removeChosen();

  Session& session_;
  QWidget* window_;
  QAction *place_, *another_, *remove_, *side_;
  SideForm* sideForm_ = nullptr;
  PlaceForm* placeForm_ = nullptr;
};

}  // namespace swingroom
