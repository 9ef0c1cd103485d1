#pragma once

#include <QList>
#include <QObject>
#include <optional>
#include <vector>

#include "app/session/session.h"

class QAction;
class QMenu;
class QWidget;

namespace swingroom {

class PartsPanel;
class ViewBridge;

/// What can be done to the chosen parts' look: the same actions in the menu bar, in the tree and in
/// the view.
class PartActions : public QObject {
  Q_OBJECT

 public:
  /// @param bridge  Null without a 3D view.
  PartActions(Session& session, PartsPanel& panel, ViewBridge* bridge, QWidget* window);

  void addTo(QMenu& menu) const;
  /// Of others, at the end of the menu at a part.
  void addMore(const QList<QAction*>& actions) { more_ = actions; }
  /// The menu at a part that was right-clicked; it is chosen first unless it is among those that
  /// are. None: beside all.
  void openMenu(std::optional<PartId> part, const QPoint& onScreen);

  /// Of the part that was chosen last; opened by the window.
  QAction& properties() { return *properties_; }
  QAction& hide() { return *hide_; }
  QAction& ghost() { return *ghost_; }
  QAction& close() { return *close_; }  ///< With a 3D view only.

 private:
  void showWhatCan();
  /// Whether that holds for all chosen parts: then the action takes it back.
  template <typename Test>
  bool allChosen(Test test) const;

  Session& session_;
  QWidget* window_;
  QAction *hide_, *ghost_, *only_, *all_, *colour_, *properties_;
  QAction* close_ = nullptr;
  QList<QAction*> more_;
};

}  // namespace swingroom
