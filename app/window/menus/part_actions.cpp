#include "app/window/menus/part_actions.h"

#include <QAction>
#include <QMenu>
#include <algorithm>

#include "app/panels/parts/parts_panel.h"
#include "app/window/menus/told_action.h"
#include "app/window/view/view_bridge.h"

namespace swingroom {

PartActions::PartActions(Session& session, PartsPanel& panel, ViewBridge* bridge, QWidget* window)
    : QObject(window), session_(session), window_(window) {
  const auto make = [&](const QString& text, const QKeySequence& key, const QString& tip) {
    return toldAction(text, key, tip, this);
  };
  hide_ = make(tr("&Hide"), Qt::Key_V,
               tr("Takes the chosen parts out of the view. The check still looks at them."));
  ghost_ =
      make(tr("&Ghost"), Qt::Key_H, tr("Shows the chosen parts pale, and clicks go through them."));
  only_ = make(tr("Show &only what is chosen"), Qt::Key_O, tr("Hides all other parts."));
  all_ = make(tr("Show &all parts"), Qt::SHIFT | Qt::Key_O, tr("Nothing is hidden or a ghost."));
  colour_ = make(tr("&Colour…"), {}, tr("Another colour for the part that was chosen last."));
  properties_ = make(tr("&Properties…"), Qt::ALT | Qt::Key_Return,
                     tr("Name, material, kind, count and mesh of the part chosen last."));
  Choice& choice = session.choice();
  Visibility& visibility = session.visibility();
  connect(hide_, &QAction::triggered, this, [this, &choice, &visibility] {
    const bool hidden = allChosen([&](PartId part) { return visibility.isHidden(part); });
    visibility.setHidden(choice.parts(), !hidden);
  });
  connect(ghost_, &QAction::triggered, this, [this, &choice, &visibility] {
    const bool ghosts = allChosen([&](PartId part) { return visibility.isGhost(part); });
    visibility.setGhost(choice.parts(), !ghosts);
  });
  connect(only_, &QAction::triggered, &panel, &PartsPanel::showOnlyChosen);
  connect(all_, &QAction::triggered, &visibility, &Visibility::showAll);
  connect(colour_, &QAction::triggered, &panel, &PartsPanel::changeColour);
  if (bridge != nullptr) {
    close_ = make(tr("&Close to what is chosen"), Qt::Key_C,
                  tr("Brings the chosen parts, or the gap of a pair, into the view."));
    connect(close_, &QAction::triggered, bridge, &ViewBridge::bringChosen);
  }
  connect(&panel, &PartsPanel::menuWanted, this, &PartActions::openMenu);
  connect(&choice, &Choice::changed, this, &PartActions::showWhatCan);
  connect(&visibility, &Visibility::changed, this, &PartActions::showWhatCan);
  showWhatCan();
}

template <typename Test>
bool PartActions::allChosen(Test test) const {
  const auto& parts = session_.choice().parts();
  return !parts.empty() && std::all_of(parts.begin(), parts.end(), test);
}

void PartActions::showWhatCan() {
  const Visibility& visibility = session_.visibility();
  const bool some = !session_.choice().parts().empty();
  for (QAction* action : {hide_, ghost_, only_, colour_, properties_}) {
    action->setEnabled(some);
  };
  all_->setEnabled(visibility.anyHidden());
  const bool hidden = allChosen([&](PartId part) { return visibility.isHidden(part); });
  const bool ghosts = allChosen([&](PartId part) { return visibility.isGhost(part); });
  hide_->setText(hidden ? tr("S&how again") : tr("&Hide"));
  ghost_->setText(ghosts ? tr("Full colour a&gain") : tr("&Ghost"));
}

void PartActions::addTo(QMenu& menu) const {
  menu.addActions({hide_, ghost_, only_, all_});
}

void PartActions::openMenu(std::optional<PartId> part, const QPoint& onScreen) {
  if (!session_.scene()) return;
  if (part && !session_.choice().isChosen(*part)) session_.choice().choosePart(*part);
  QMenu menu(window_);
  if (close_ != nullptr) menu.addAction(close_);
  addTo(menu);
  menu.addSeparator();
  menu.addActions({colour_, properties_});
  menu.addActions(more_);
  menu.exec(onScreen);
}

}  // namespace swingroom
