// A part's room in the window: who hears of whom, and its menu.
#include <QMenu>
#include <QMenuBar>

#include "app/window/main_window.h"
#include "app/window/menus/told_action.h"
#include "core/files/formats/writing/write_mesh.h"

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
  connectGrowth();
  spaceSection_ = new SpaceSection(this);
  roomPanel_->addSection(spaceSection_);
  connect(&spaceSection_->fills(), &QPushButton::clicked, this,
          [this] { openSpaceForm(SpaceForm::Space::fills); });
  connect(&spaceSection_->sweeps(), &QPushButton::clicked, this,
          [this] { openSpaceForm(SpaceForm::Space::sweeps); });
  const auto showWhatCan = [this] {
    const ScenePtr& scene = session_.scene();
    const auto has = [&](const std::optional<PartId>& part) {
      return scene && part && part->index < scene->geometry.size() && scene->geometry[part->index];
    };
    roomAction_->setEnabled(has(session_.choice().part()));
    spaceSection_->setVisible(has(roomPanel_->part()));
  };
  connect(&session_.choice(), &Choice::changed, this, showWhatCan);
  connect(&session_, &Session::sceneChanged, this, showWhatCan);
  connect(roomBoard_, &RoomBoard::changed, this, showWhatCan);
  showWhatCan();
}

/// How far it may grow is looked at when its map is there: the map matters first.
void MainWindow::connectGrowth() {
  growth_ = new GrowthSection(session_, *growthBoard_, this);
  roomPanel_->addSection(growth_);
  const auto follow = [this] {
    const bool known = roomPanel_->showsMap() && !roomBoard_->isOld();
    growth_->showPart(known ? roomPanel_->part() : std::nullopt);
    if (known && roomBoard_->state() == RoomBoard::State::done && roomPanel_->isVisible())
      growth_->look();
  };
  connect(roomBoard_, &RoomBoard::changed, this, follow);
  connect(roomPanel_, &RoomPanel::shownChanged, this, follow);
  if (!roomView_) return;
  growth_->offerPicking(true);
  connect(growth_, &GrowthSection::stopWanted, this, [this](const GrowthStop& stop) {
    roomView_->showWhere(stop.part, stop.way, stop.instant, stop.place_P);
  });
  connect(growth_, &GrowthSection::pickWanted, roomView_, &RoomView::pickPoint);
  connect(roomView_, &RoomView::pointPicked, growth_, &GrowthSection::setPoint);
}

void MainWindow::openSpaceForm(SpaceForm::Space space) {
  const auto part = roomPanel_->part();
  if (!part || !session_.scene() || !session_.scene()->geometry[part->index]) return;
  const auto write = [](const TriangleMesh& mesh, const std::filesystem::path& file) {
    return writeMesh(file, mesh, file.stem().string());
  };
  auto* form = new SpaceForm(session_.scene(), *part, space,
                             session_.document().file().parent_path(), write, this);
  form->setAttribute(Qt::WA_DeleteOnClose);
  form->show();
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
  menu->addSeparator();
  QAction* fills = menu->addAction(tr("Save the space it may &fill…"), this,
                                   [this] { openSpaceForm(SpaceForm::Space::fills); });
  fills->setToolTip(spaceSection_->fills().toolTip());
  QAction* sweeps = menu->addAction(tr("Save the space it s&weeps…"), this,
                                    [this] { openSpaceForm(SpaceForm::Space::sweeps); });
  sweeps->setToolTip(spaceSection_->sweeps().toolTip());
  const auto showWhatCan = [this, stop, least, fills, sweeps] {
    stop->setEnabled(roomBoard_->state() == RoomBoard::State::looking);
    least->setEnabled(roomPanel_->showsMap() && roomPanel_->placeButton().isVisibleTo(roomPanel_) &&
                      roomPanel_->placeButton().isEnabled());
    for (QAction* save : {fills, sweeps}) save->setEnabled(roomPanel_->part().has_value());
  };
  connect(menu, &QMenu::aboutToShow, this, showWhatCan);
  showWhatCan();
}

}  // namespace swingroom
