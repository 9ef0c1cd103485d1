// The chosen step's table, and the menus of the page.
#include <QHBoxLayout>
#include <QHeaderView>
#include <QMenu>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/steps/motion_menus.h"
#include "app/panels/steps/motion_panel.h"

namespace swingroom {
namespace {

QPushButton* wordButton(const QString& text, const QString& tip, QWidget* parent) {
  auto* button = new QPushButton(text, parent);
  button->setProperty("look", QStringLiteral("quiet"));
  button->setProperty("scale", QStringLiteral("small"));
  button->setToolTip(tip);
  return button;
}

QTableView* makeTable(StepTable& model, QWidget* parent) {
  auto* table = new QTableView(parent);
  table->setModel(&model);
  table->setAccessibleName(MotionPanel::tr("Where the step's joints begin and end"));
  table->setFrameShape(QFrame::NoFrame);
  table->setShowGrid(false);
  table->verticalHeader()->hide();
  table->verticalHeader()->setDefaultSectionSize(24);
  table->horizontalHeader()->setHighlightSections(false);
  table->horizontalHeader()->setSectionResizeMode(StepTable::JointColumn, QHeaderView::Stretch);
  table->horizontalHeader()->setSectionResizeMode(StepTable::StartColumn,
                                                  QHeaderView::ResizeToContents);
  table->horizontalHeader()->setSectionResizeMode(StepTable::EndColumn,
                                                  QHeaderView::ResizeToContents);
  table->horizontalHeader()->setMinimumSectionSize(48);
  table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  table->setSelectionBehavior(QAbstractItemView::SelectItems);
  table->setSelectionMode(QAbstractItemView::SingleSelection);
  table->setTabKeyNavigation(false);
  table->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                         QAbstractItemView::AnyKeyPressed);
  table->setContextMenuPolicy(Qt::CustomContextMenu);
  table->setWordWrap(false);
  table->setTextElideMode(Qt::ElideMiddle);
  return table;
}

}  // namespace

QWidget* MotionPanel::buildTable() {
  tableArea_ = new QWidget(this);
  tableArea_->setProperty("ground", QStringLiteral("panel"));
  auto* line = new QFrame(tableArea_);
  line->setProperty("hairline", true);
  line->setFixedHeight(1);
  tableHeading_ = new QLabel(tableArea_);
  tableHeading_->setProperty("role", QStringLiteral("heading"));
  tableHeading_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
  table_ = makeTable(tableModel_, tableArea_);
  endHere_ = wordButton(tr("End here"), tr("The step ends where it stands now"), this);
  order_ =
      wordButton(tr("Together"),
                 tr("Whether its joints go together, or a hand may move them in any order"), this);
  other_ = wordButton(tr("Another joint…"), tr("Let one more joint move in this step"), this);
  auto* top = new QHBoxLayout;
  top->setContentsMargins(16, 4, 4, 0);
  top->addWidget(tableHeading_, 1);
  top->addWidget(endHere_);
  auto* tableRow = new QHBoxLayout;
  tableRow->setContentsMargins(12, 0, 8, 0);
  tableRow->addWidget(table_);
  auto* buttons = new QHBoxLayout;
  buttons->setContentsMargins(8, 2, 4, 6);
  buttons->setSpacing(0);
  buttons->addWidget(other_);
  buttons->addStretch(1);
  buttons->addWidget(order_);
  auto* column = new QVBoxLayout(tableArea_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(line);
  column->addLayout(top);
  column->addLayout(tableRow);
  column->addLayout(buttons);

  connect(endHere_, &QPushButton::clicked, this,
          [this] { editor_.setStepEndHere(editor_.step()); });
  connect(order_, &QPushButton::clicked, this, [this] {
    const DocumentSequence* way = editor_.way();
    const std::size_t step = editor_.step();
    if (!way) return;
    const bool isFree = step < way->steps.size() && way->steps[step].order == DocumentOrder::free;
    editor_.setStepOrder(step, isFree ? DocumentOrder::together : DocumentOrder::free);
  });
  connect(other_, &QPushButton::clicked, this, &MotionPanel::openOtherJoints);
  connect(table_, &QTableView::customContextMenuRequested, this, &MotionPanel::openJointMenu);
  return tableArea_;
}

void MotionPanel::openModeMenu(int row, const QPoint& global) {
  QMenu menu(this);
  fillModeMenu(menu, editor_, typing_, modeRows_.row(row).name.toStdString(),
               [this, row] { modes_->rename(row); });
  menu.exec(global);
}

void MotionPanel::openWayMenu(int row, const QPoint& global) {
  QMenu menu(this);
  fillWayMenu(menu, editor_, wayRows_.row(row).name.toStdString(),
              [this, row] { ways_->rename(row); });
  menu.exec(global);
}

void MotionPanel::openStepMenu(int row, const QPoint& global) {
  QMenu menu(this);
  fillStepMenu(menu, editor_, static_cast<std::size_t>(row), editor_.session().stand().instant(),
               [this, row] { steps_->rename(row); });
  menu.exec(global);
}

void MotionPanel::openJointMenu(const QPoint& place) {
  QModelIndex index = table_->indexAt(place);
  if (!index.isValid()) index = table_->currentIndex();
  const DocumentSequence* way = editor_.way();
  if (!index.isValid() || !way) return;
  const std::string joint = tableModel_.jointAt(index.row());
  const std::size_t step = editor_.step();
  QMenu menu(this);
  menu.addAction(tr("Change its end\tF2"), this,
                 [this, index] { table_->edit(index.siblingAtColumn(StepTable::EndColumn)); });
  QMenu* others = menu.addMenu(tr("Move it in another step"));
  for (int s = 0; s < stepRows_.rowCount(); ++s) {
    if (static_cast<std::size_t>(s) == step) continue;
    const QString name = QStringLiteral("%1 %2").arg(s + 1).arg(stepRows_.row(s).name);
    others
        ->addAction(name, this,
                    [this, step, joint, s] { editor_.giveMove(step, joint, std::size_t(s)); })
        ->setEnabled(std::size_t(s) < way->steps.size() && !way->steps[std::size_t(s)].replug);
  }
  others->setEnabled(!others->isEmpty());
  menu.addAction(tr("Do not move it in this step"), this,
                 [this, step, joint] { editor_.removeMove(step, joint); });
  menu.exec(table_->viewport()->mapToGlobal(place));
}

void MotionPanel::openOtherJoints() {
  QMenu menu(this);
  for (const QString& joint : tableModel_.otherJoints()) {
    menu.addAction(joint, this, [this, joint] { tableModel_.addJoint(joint); });
  }
  if (menu.isEmpty()) menu.addAction(tr("All of them move in it"))->setEnabled(false);
  menu.exec(other_->mapToGlobal(QPoint(0, other_->height())));
}

}  // namespace swingroom
