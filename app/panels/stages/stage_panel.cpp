#include "app/panels/stages/stage_panel.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollArea>
#include <QScrollBar>
#include <QStyledItemDelegate>
#include <QTableView>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/elided_label.h"
#include "app/panels/marks.h"
#include "app/panels/plain_widgets.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kStageRowPx = 24;

/// A figure with its verdict's mark before it; pairs whose gap is the same are soft.
class StageGapDelegate : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const bool chosen = option.state & QStyle::State_Selected;
    if (chosen || option.state & QStyle::State_MouseOver) {
      painter->fillRect(option.rect, chosen ? theme().chosen : theme().hover);
    }
    painter->setFont(labelFont());
    const bool changed = index.data(StageGapsModel::ChangedRole).toBool();
    painter->setPen(changed ? theme().ink : theme().soft);
    const QRect room = option.rect.adjusted(4, 0, -4, 0);
    const QString text = index.data(Qt::DisplayRole).toString();
    const bool figure = index.column() != StageGapsModel::with;
    const QFontMetrics metrics(labelFont());
    if (figure) {
      const int width = metrics.horizontalAdvance(text);
      const QRectF mark(room.right() - width - 16, room.center().y() - 5, 10, 10);
      paintMark(*painter, mark, static_cast<Verdict>(index.data(StageGapsModel::VerdictRole).toInt()));
    }
    painter->drawText(room, (figure ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter,
                      metrics.elidedText(text, Qt::ElideMiddle, room.width()));
    painter->restore();
  }
};

QTableView* makeTable(StageGapsModel& model, QWidget* parent) {
  auto* table = new QTableView(parent);
  table->setModel(&model);
  table->setItemDelegate(new StageGapDelegate(table));
  table->setFrameShape(QFrame::NoFrame);
  table->setShowGrid(false);
  table->setSelectionBehavior(QAbstractItemView::SelectRows);
  table->setSelectionMode(QAbstractItemView::SingleSelection);
  table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  table->setTabKeyNavigation(false);
  table->setMouseTracking(true);
  table->verticalHeader()->hide();
  table->verticalHeader()->setDefaultSectionSize(kStageRowPx);
  QHeaderView* header = table->horizontalHeader();
  header->setSectionResizeMode(StageGapsModel::with, QHeaderView::Stretch);
  for (const int column : {StageGapsModel::inBlock, StageGapsModel::inDetail}) {
    header->setSectionResizeMode(column, QHeaderView::Fixed);
    header->resizeSection(column, 76);
  }
  header->setHighlightSections(false);
  header->setSectionsClickable(false);
  table->setAccessibleName(StagePanel::tr("Gaps with block and detail"));
  table->setAccessibleDescription(StagePanel::tr("A row a pair. Enter chooses the pair."));
  return table;
}

}  // namespace

StagePanel::StagePanel(Session& session, StageCompare& compare, QWidget* parent)
    : QWidget(parent), session_(session), compare_(compare) {
  setAccessibleName(tr("Comparison of block and detail"));
  build();
  connect(&compare, &StageCompare::changed, this, &StagePanel::show);
  show();
}

void StagePanel::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 12, 12, 0);
  column->setSpacing(6);
  auto* top = new QHBoxLayout;
  title_ = new ElidedLabel(this);
  title_->setProperty("role", QStringLiteral("strong"));
  close_ = quietButton(tr("Close"), tr("Ends the comparison and shows the findings again."), this);
  top->addWidget(title_, 1);
  top->addWidget(close_);
  switch_ = new QPushButton(this);
  doing_ = labelOf({}, "soft", this);
  scroll_ = scrolledColumn(nullptr, this, 48);
  gapsHeading_ = softText({}, this);
  table_ = makeTable(gapsModel_, this);
  table_->setMinimumHeight(72);  // In a low window the line of the way needs its room too.
  column->addLayout(top);
  column->addWidget(switch_, 0, Qt::AlignLeft);
  column->addWidget(doing_);
  column->addWidget(scroll_, 3);
  column->addWidget(gapsHeading_);
  column->addWidget(table_, 2);
  connect(close_, &QPushButton::clicked, this, &StagePanel::closeWanted);
  connect(switch_, &QPushButton::clicked, this, &StagePanel::switchWanted);
  const auto choose = [this](const QModelIndex& index) {
    if (!index.isValid()) return;
    const GapChange& gap = gapsModel_.gapAt(index.row());
    session_.choice().choosePair(gap.a, gap.b);
  };
  connect(table_, &QTableView::clicked, this, choose);
  connect(table_, &QTableView::activated, this, choose);
}

std::vector<QPushButton*> StagePanel::placeButtons() const {
  const auto found = lines_->findChildren<QPushButton*>(QStringLiteral("place"));
  return {found.begin(), found.end()};
}

void StagePanel::addHeading(const QString& words) {
  column_->addSpacing(column_->count() > 0 ? 6 : 0);
  column_->addWidget(labelOf(words, "heading", lines_));
}

void StagePanel::addLine(const StageLine& line, const char* role) {
  auto* row = new QHBoxLayout;
  row->setSpacing(8);
  QLabel* words = labelOf(line.words, role, lines_);
  words->setWordWrap(true);
  words->setTextInteractionFlags(Qt::TextSelectableByMouse);
  words->setToolTip(line.more);
  row->addWidget(words, 1);
  if (line.place_P) {
    auto* show = quietButton(tr("Show where"), tr("Brings the place into the view."), lines_);
    show->setObjectName(QStringLiteral("place"));
    show->setAccessibleName(tr("Show where: %1").arg(line.words));
    connect(show, &QPushButton::clicked, this, [this, line] { Q_EMIT placeWanted(line); });
    row->addWidget(show, 0, Qt::AlignTop);
  }
  column_->addLayout(row);
}

void StagePanel::show() {
  const StageStory story = stageStoryOf(compare_);
  switch_->setText(compare_.showsDetail() ? tr("Use the block") : tr("Use the detail"));
  switch_->setToolTip(compare_.showsDetail()
                          ? tr("The detail is in use: the view and the check have it.")
                          : tr("The block is in use: the view and the check have it."));
  story_ = story;
  title_->setText(story.title);
  doing_->setText(story.doing);
  doing_->setVisible(!story.doing.isEmpty());
  lines_ = new QWidget;
  lines_->setProperty("ground", QStringLiteral("panel"));
  column_ = new QVBoxLayout(lines_);
  column_->setContentsMargins(0, 0, 8, 0);
  column_->setSpacing(4);
  if (!story.notes.empty()) addHeading(tr("Before all else"));
  for (const StageLine& line : story.notes) {
    addLine(line, "strong");
    if (!line.more.isEmpty()) addLine({line.more, {}, {}, {}, {}}, "soft");
  }
  if (!story.surface.empty()) addHeading(tr("Surface"));
  for (const StageLine& line : story.surface) addLine(line, "");
  if (!story.rounds.empty() || !story.roundsElse.isEmpty()) addHeading(tr("Holes, pins, balls and sockets"));
  for (const StageLine& line : story.rounds) addLine(line, "");
  if (!story.roundsElse.isEmpty()) addLine({story.roundsElse, {}, {}, {}, {}}, "soft");
  column_->addStretch(1);
  scroll_->setWidget(lines_);
  gapsHeading_->setText(story.gaps);
  gapsHeading_->setVisible(!story.gaps.isEmpty());
  gapsModel_.show(compare_.gaps(), session_.scene(), compare_.part());
  table_->setVisible(gapsModel_.rowCount() > 0);
}

void StagePanel::keyPressEvent(QKeyEvent* event) {
  if (event->matches(QKeySequence::Cancel)) {
    Q_EMIT closeWanted();
    return;
  }
  QWidget::keyPressEvent(event);
}

}  // namespace swingroom
