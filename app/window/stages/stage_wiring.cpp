// Block and detail in the window: who hears of whom.
#include <QStatusBar>
#include <QTimer>

#include "app/models/text.h"
#include "app/window/main_window.h"
#include "app/window/stages/stage_actions.h"
#include "app/window/stages/stage_view.h"

namespace swingroom {
namespace {

constexpr int kStageToldMs = 8000;

}  // namespace

void MainWindow::connectStages() {
  stageCompare_ = new StageCompare(session_, MeshReader::besideThisProgram(), results_, this);
  stagePanel_ = new StagePanel(session_, *stageCompare_, this);
  right_->addComparison(stagePanel_);
  StageView* view = view_ ? new StageView(session_, *stageCompare_, *view_, this) : nullptr;
  connect(stages_, &StageActions::compareWanted, this, [this](const std::string& part) {
    // The view shows one map at a time.
    if (left_->page() == LeftColumn::room) left_->showPage(LeftColumn::parts);
    stageCompare_->compare(part);
    right_->setComparing(true);
    right_->showPage(RightColumn::comparison);
    stagePanel_->closeButton().setFocus(Qt::OtherFocusReason);
  });
  connect(stagePanel_, &StagePanel::closeWanted, stageCompare_, &StageCompare::close);
  connect(stagePanel_, &StagePanel::switchWanted, this,
          [this] { stages_->switchStage(stageCompare_->part()); });
  if (view) {
    connect(stagePanel_, &StagePanel::placeWanted, view, &StageView::showPlace);
    connect(&preferences_, &Preferences::lookChanged, view, &StageView::showTheme);
  }
  connect(stageCompare_, &StageCompare::changed, this, [this] {
    if (stageCompare_->state() == StageCompare::State::none) right_->setComparing(false);
  });
  connect(roomPanel_, &RoomPanel::shownChanged, this, [this] {
    const bool comparing = stageCompare_->state() != StageCompare::State::none;
    if (comparing && roomPanel_->isVisible() && roomPanel_->showsMap()) stageCompare_->close();
  });
  // What leads to a finding leads to its card.
  connect(&session_, &Session::wentToWorst, this, [this] {
    // Who goes from line to line of the history, or of the print's findings, stays there.
    const bool stays = right_->page() == RightColumn::history || printView_->isShowing();
    if (!stays) showFindings();
  });
  connect(stages_, &StageActions::told, this,
          [this](const QString& sentence) { statusBar()->showMessage(sentence, kStageToldMs); });
  connect(stages_, &StageActions::refused, this, [this](const Problem& problem) {
    problems_->show(tr("That cannot be done"), {problem});
  });
  // Told once, before the gaps say the same in many sentences.
  connect(&session_.stageFits(), &StageFits::changed, this, [this] {
    const Problems now = session_.stageFits().notes();
    const bool isNew = std::any_of(now.begin(), now.end(), [this](const Problem& note) {
      return std::find(stageNotesTold_.begin(), stageNotesTold_.end(), note) == stageNotesTold_.end();
    });
    const bool shown = problems_->isVisible() && problems_->text() == stageNotesShown_;
    const bool fewer = now.size() < stageNotesTold_.size();
    stageNotesTold_ = now;
    if (shown && now.empty()) return problems_->hide();
    if ((isNew || (shown && fewer)) && session_.problems().empty()) {
      problems_->showFound(tr("Detail meshes against their blocks"), now);
      stageNotesShown_ = problems_->text();
    }
  });
}

void MainWindow::showFindings() {
  right_->showPage(RightColumn::findings);
}

/// A mesh file that is let go over a part becomes its detail. @returns False: it was none.
bool MainWindow::takeStageDrop(const QPoint& place, const QStringList& files) {
  const ScenePtr& scene = session_.scene();
  if (!scene || files.size() != 1 || !MeshReader::knows(files.front().toStdString())) return false;
  std::optional<PartId> part;
  if (view_ && view_->isVisible() && view_->rect().contains(view_->mapFrom(this, place))) {
    if (const auto pick = view_->pick(view_->mapFrom(this, place))) part = pick->part;
  }
  QWidget* rows = parts_->tree().viewport();
  if (!part && rows->isVisible() && rows->rect().contains(rows->mapFrom(this, place))) {
    part = parts_->model().partAt(parts_->tree().indexAt(rows->mapFrom(this, place)));
  }
  if (!part) return false;
  session_.choice().choosePart(*part);
  const std::string name = scene->assembly().part(*part).name;
  QTimer::singleShot(0, this, [this, name, file = files.front()] { stages_->giveDetail(name, file); });
  return true;
}

}  // namespace swingroom
