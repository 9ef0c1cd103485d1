#include "app/panels/steps/motion_panel.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QMenu>
#include <QScrollArea>
#include <QTimer>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "app/panels/steps/motion_menus.h"

namespace swingroom {
namespace {

QPushButton* smallButton(const QString& text, const QString& tip, QWidget* parent) {
  auto* button = quietButton(text, tip, parent);
  button->setProperty("scale", QStringLiteral("small"));
  return button;
}

/// A heading with what can be made at its end, and below it what is there.
QWidget* section(QLabel* heading, std::initializer_list<QWidget*> buttons,
                 std::initializer_list<QWidget*> below, QWidget* parent) {
  auto* area = new QWidget(parent);
  auto* column = new QVBoxLayout(area);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  auto* top = new QHBoxLayout;
  top->setContentsMargins(16, 0, 4, 0);
  top->setSpacing(0);
  heading->setMinimumHeight(28);
  heading->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
  top->addWidget(heading, 1);
  for (QWidget* button : buttons) top->addWidget(button);
  column->addLayout(top);
  for (QWidget* widget : below) column->addWidget(widget);
  return area;
}

}  // namespace

MotionPanel::MotionPanel(MotionEditor& editor, StepTyping& typing, QWidget* parent)
    : QWidget(parent), editor_(editor), typing_(typing), tableModel_(editor) {
  auto* page = new QWidget(this);
  page->setProperty("ground", QStringLiteral("panel"));
  scrolled_ = new QVBoxLayout(page);
  scrolled_->setContentsMargins(0, 4, 0, 8);
  scrolled_->setSpacing(4);
  scrolled_->addWidget(buildModes());
  scrolled_->addWidget(buildWays());
  scrolled_->addWidget(buildSteps());
  scrolled_->addStretch(1);
  scroll_ = new QScrollArea(this);
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setWidgetResizable(true);
  scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll_->setFocusPolicy(Qt::NoFocus);
  scroll_->setMinimumHeight(60);
  scroll_->setWidget(page);
  all_ = new QVBoxLayout(this);
  all_->setContentsMargins(0, 0, 0, 0);
  all_->setSpacing(0);
  all_->addWidget(scroll_, 1);
  stepLine_ = new StepLine(typing, this);
  all_->addWidget(stepLine_);
  all_->addWidget(buildTable());

  connect(&editor, &MotionEditor::changed, this, &MotionPanel::refresh);
  connect(&editor.session(), &Session::sceneChanged, this, &MotionPanel::refresh);
  connect(&editor.session().stand(), &Stand::moved, this, &MotionPanel::refreshModes);
  // The page may only just be coming into sight.
  const auto renameSoon = [this](RowsView* view, auto rowOf) {
    QTimer::singleShot(0, this, [view, rowOf] { view->rename(rowOf()); });
  };
  connect(&editor, &MotionEditor::modeAdded, this, [this, renameSoon](const QString& name) {
    renameSoon(modes_, [this, name] { return modeRows_.rowOf(name); });
  });
  connect(&editor, &MotionEditor::wayAdded, this, [this, renameSoon](const QString& name) {
    renameSoon(ways_, [this, name] { return wayRows_.rowOf(name); });
  });
  connect(&editor, &MotionEditor::stepAdded, this, [this, renameSoon](std::size_t step) {
    renameSoon(steps_, [step] { return static_cast<int>(step); });
  });
  refresh();
}

QWidget* MotionPanel::buildModes() {
  modes_ = new RowsView(modeRows_, tr("Modes"), this);
  modeRows_.onRename([this](int row, const QString& name) {
    editor_.renameMode(modeRows_.row(row).name.toStdString(), name.toStdString());
  });
  auto* fresh = smallButton(tr("New from here"), tr("A new mode of how it stands now"), this);
  connect(fresh, &QPushButton::clicked, &editor_, &MotionEditor::addModeHere);
  connect(modes_, &RowsView::chosen, this,
          [this](int row) { editor_.standIn(modeRows_.row(row).name.toStdString()); });
  connect(modes_, &RowsView::removeWanted, this,
          [this](int row) { editor_.removeMode(modeRows_.row(row).name.toStdString()); });
  connect(modes_, &RowsView::menuWanted, this, &MotionPanel::openModeMenu);
  return section(labelOf(tr("Modes"), "heading", this), {fresh}, {modes_}, this);
}

QWidget* MotionPanel::buildWays() {
  ways_ = new RowsView(wayRows_, tr("Ways"), this);
  wayRows_.onRename([this](int row, const QString& name) {
    editor_.renameWay(wayRows_.row(row).name.toStdString(), name.toStdString());
  });
  newWay_ = smallButton(tr("New…"), tr("A new way from one mode to another"), this);
  connect(newWay_, &QPushButton::clicked, this, [this] {
    QMenu menu(this);
    fillNewWayMenu(menu, editor_, typing_);
    menu.exec(newWay_->mapToGlobal(QPoint(0, newWay_->height())));
  });
  connect(ways_, &RowsView::chosen, this,
          [this](int row) { editor_.showWay(wayRows_.row(row).name.toStdString()); });
  connect(ways_, &RowsView::removeWanted, this,
          [this](int row) { editor_.removeWay(wayRows_.row(row).name.toStdString()); });
  connect(ways_, &RowsView::menuWanted, this, &MotionPanel::openWayMenu);
  return section(labelOf(tr("Ways"), "heading", this), {newWay_}, {ways_}, this);
}

QWidget* MotionPanel::buildSteps() {
  steps_ = new RowsView(stepRows_, tr("Steps"), this);
  stepRows_.onRename([this](int row, const QString& name) {
    editor_.renameStep(static_cast<std::size_t>(row), name.toStdString());
  });
  newStep_ =
      smallButton(tr("New from here"),
                  tr("A new step that goes to how it stands now, behind the chosen one"), this);
  connect(newStep_, &QPushButton::clicked, &editor_, &MotionEditor::addStepHere);
  connect(steps_, &RowsView::chosen, this,
          [this](int row) { editor_.chooseStep(static_cast<std::size_t>(row)); });
  connect(steps_, &RowsView::removeWanted, this,
          [this](int row) { editor_.removeStep(static_cast<std::size_t>(row)); });
  connect(steps_, &RowsView::menuWanted, this, &MotionPanel::openStepMenu);
  short_ = labelOf(QString(), "soft", this);
  short_->setWordWrap(true);
  short_->setContentsMargins(16, 4, 12, 0);
  finish_ = new QPushButton(tr("Finish the way"), this);
  finish_->setToolTip(tr("Add a step that goes where the last mode wants it"));
  connect(finish_, &QPushButton::clicked, this, [this] {
    if (editor_.way()) editor_.finishWay(std::string(editor_.way()->name));
  });
  auto* button = new QWidget(this);
  auto* row = new QHBoxLayout(button);
  row->setContentsMargins(16, 4, 12, 0);
  row->addWidget(finish_);
  row->addStretch(1);
  stepsHeading_ = labelOf(QString(), "heading", this);
  stepsArea_ = section(stepsHeading_, {newStep_}, {steps_, short_, button}, this);
  return stepsArea_;
}

void MotionPanel::placeTable() {
  constexpr int kRoomForBothPx = 330;
  QVBoxLayout* wanted = height() >= kRoomForBothPx ? all_ : scrolled_;
  QVBoxLayout* other = wanted == all_ ? scrolled_ : all_;
  if (other->indexOf(tableArea_) < 0) return;
  const bool isShown = !tableArea_->isHidden();
  other->removeWidget(tableArea_);
  if (wanted == all_) {
    all_->addWidget(tableArea_);
  } else {
    scrolled_->insertWidget(scrolled_->count() - 1, tableArea_);  // Before the stretch.
  }
  tableArea_->setVisible(isShown);
}

void MotionPanel::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  placeTable();
}

/// Where the needle has gone into another step; what is in sight already stays where it is.
void MotionPanel::bringStepIntoSight() {
  if (seenStep_ == editor_.step() || !steps_->isVisible()) return;
  seenStep_ = editor_.step();
  const QRect row = steps_->visualRect(stepRows_.index(static_cast<int>(seenStep_)));
  const QPoint place = steps_->mapTo(scroll_->widget(), row.center());
  scroll_->ensureVisible(0, place.y(), 0, row.height());
}

void MotionPanel::refreshModes() {
  modeRows_.setRows(modeRows(editor_));
}

void MotionPanel::refresh() {
  if (refreshing_) return;
  refreshing_ = true;
  refreshModes();
  wayRows_.setRows(wayRows(editor_));
  stepRows_.setRows(stepRows(editor_));
  tableModel_.refresh();
  refreshing_ = false;
  const DocumentSequence* way = editor_.way();
  newWay_->setEnabled(!editor_.document().modes.empty());
  stepLine_->setVisible(!editor_.document().joints.empty());
  stepsArea_->setVisible(way != nullptr);
  tableArea_->setVisible(way != nullptr);
  if (!way) return;
  stepsHeading_->setText(tr("Steps of %1").arg(qt(way->name)));
  stepsHeading_->setToolTip(stepsHeading_->text());
  const auto missing = editor_.shortBy(way->name);
  QStringList clauses;
  for (const std::string& clause : missing) clauses += qt(clause);
  short_->setText(
      tr("Does not reach %1: %2.").arg(qt(way->to), clauses.join(QStringLiteral("; "))));
  short_->setVisible(!missing.empty());
  finish_->parentWidget()->setVisible(!missing.empty());
  const std::size_t step = editor_.step();
  const bool isWritten = step < way->steps.size();
  const bool byHand = isWritten && way->steps[step].replug;
  const bool isFree = isWritten && way->steps[step].order == DocumentOrder::free;
  const QString name = stepRows_.rowCount() > int(step) ? stepRows_.row(int(step)).name : QString();
  tableHeading_->setText(tr("Step %1, %2").arg(step + 1).arg(name));
  tableHeading_->setToolTip(tableHeading_->text());
  order_->setText(isFree ? tr("Any order") : tr("Together"));
  order_->setVisible(!byHand);
  endHere_->setVisible(!byHand);
  other_->setVisible(!byHand);
  table_->setVisible(tableModel_.rowCount() > 0);
  constexpr int kMostRows = 5;
  const int rows = std::min(tableModel_.rowCount(), kMostRows);
  bringStepIntoSight();
  table_->setFixedHeight(table_->horizontalHeader()->sizeHint().height() + 24 * rows + 2);
}

}  // namespace swingroom
