// A part's room in the window: who hears of whom, and its menu.
#include <QMenu>
#include <QMenuBar>

#include "app/window/main_window.h"
#include "app/window/menus/told_action.h"

namespace swingroom {

void MainWindow::connectRoom() {
  if (view_) roomView_ = new RoomView(session_, *roomBoard_, *roomPanel_, *view_, this);
  roomAction_ = toldAction(tr("&Room of what is chosen"), Qt::Key_R,
                           tr("How far each place of the part chosen last may grow, in every mode "
                              "and on every way."),
                           this);
  connect(roomAction_, &QAction::triggered, this, [this] {
    left_->showPage(LeftColumn::room);
    if (!roomPanel_->showsMap() || roomBoard_->isOld()) roomPanel_->look();
  });
  const auto showWhatCan = [this] {
    const auto& part = session_.choice().part();
    const ScenePtr& scene = session_.scene();
    roomAction_->setEnabled(scene && part && part->index < scene->geometry.size() &&
                            scene->geometry[part->index]);
  };
  connect(&session_.choice(), &Choice::changed, this, showWhatCan);
  connect(&session_, &Session::sceneChanged, this, showWhatCan);
  showWhatCan();
}

void MainWindow::buildRoomMenu() {
  QMenu* menu = menuBar()->addMenu(tr("R&oom"));
  menu->setToolTipsVisible(true);
  menu->addAction(roomAction_);
  QAction* stop = menu->addAction(tr("&Stop looking"), roomBoard_, &RoomBoard::stop);
  stop->setToolTip(tr("What is known of the part's room so far stays."));
  QAction* least = menu->addAction(tr("Stand where it has &least"), &roomPanel_->placeButton(),
                                   &QPushButton::click);
  least->setToolTip(tr("At the instant when the part has least room, with the pair chosen."));
  const auto showWhatCan = [this, stop, least] {
    stop->setEnabled(roomBoard_->state() == RoomBoard::State::looking);
    least->setEnabled(roomPanel_->showsMap() && roomPanel_->placeButton().isVisibleTo(roomPanel_) &&
                      roomPanel_->placeButton().isEnabled());
  };
  connect(menu, &QMenu::aboutToShow, this, showWhatCan);
  showWhatCan();
}

}  // namespace swingroom
