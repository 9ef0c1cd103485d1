#include "app/panels/history/history_panel.h"

#include <QFrame>
#include <QScrollBar>
#include <QVBoxLayout>
#include <algorithm>

#include "app/models/history/go_to_line.h"
#include "app/panels/history/history_delegates.h"

namespace swingroom {
namespace {

QLabel* wordsIn(const char* role, QWidget* parent) {
  auto* label = new QLabel(parent);
  label->setProperty("role", QString::fromLatin1(role));
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

}  // namespace

HistoryPanel::HistoryPanel(Session& session, CheckHistory& history, QWidget* parent)
    : QWidget(parent), session_(session), history_(history) {
  build();
  connect(&history, &CheckHistory::changed, this, &HistoryPanel::showChecks);
  connect(checks_->selectionModel(), &QItemSelectionModel::selectionChanged, this, [this] {
    if (!filling_) compareChosen();
  });
  const auto go = [this](const QModelIndex& index) {
    if (index.isValid()) goToLine(session_, turnsModel_.line(index.row()));
  };
  connect(turns_, &QListView::clicked, this, go);
  connect(turns_, &QListView::activated, this, go);
  showChecks();
}

QListView* HistoryPanel::makeList(QAbstractItemModel& model, const QString& name) {
  auto* list = new QListView(this);
  list->setModel(&model);
  list->setFrameShape(QFrame::NoFrame);
  list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  list->setResizeMode(QListView::Adjust);
  list->setMouseTracking(true);
  list->setAccessibleName(name);
  list->setMinimumHeight(44);
  list->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Ignored);
  return list;
}

void HistoryPanel::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 8, 12, 8);
  column->setSpacing(4);
  about_ = wordsIn("soft", this);
  column->addWidget(about_);
  checks_ = makeList(checksModel_, tr("Earlier checks"));
  checks_->setItemDelegate(new CheckDelegate(checks_));
  checks_->setSelectionMode(QAbstractItemView::ExtendedSelection);
  checks_->setToolTip(tr("A click holds now against that check; with Ctrl a second one is chosen"));
  column->addWidget(checks_, 2);
  line_ = new QFrame(this);
  line_->setProperty("hairline", true);
  line_->setFixedHeight(1);
  column->addWidget(line_);
  column->addSpacing(4);
  heading_ = wordsIn("heading", this);
  summary_ = wordsIn("soft", this);
  column->addWidget(heading_);
  column->addWidget(summary_);
  turns_ = makeList(turnsModel_, tr("What has turned"));
  turns_->setItemDelegate(new TurnDelegate(turns_));
  turns_->setToolTip(tr("A click stands where it is"));
  column->addWidget(turns_, 3);
}

void HistoryPanel::showChecks() {
  filling_ = true;
  checksModel_.show(history_.checks());
  filling_ = false;
  const int count = checksModel_.rowCount();
  about_->setText(!history_.log()    ? tr("No log of checks is kept.")
                  : !history_.isOn() ? tr("No log of checks is kept: see the preferences.")
                  : count == 0
                      ? tr("Each check of this assembly will stand here, with what it turned.")
                      : QString());
  about_->setVisible(!about_->text().isEmpty());
  line_->setVisible(count > 0);
  showNewest();
}

void HistoryPanel::showNewest() {
  filling_ = true;
  checks_->clearSelection();
  checks_->setCurrentIndex({});
  if (checksModel_.rowCount() > 1) {
    const QModelIndex before = checksModel_.index(1);
    checks_->selectionModel()->setCurrentIndex(before, QItemSelectionModel::ClearAndSelect);
  }
  checks_->scrollToTop();
  filling_ = false;
  compareChosen();
}

std::vector<int> HistoryPanel::chosenRows() const {
  std::vector<int> rows;
  for (const QModelIndex& index : checks_->selectionModel()->selectedIndexes()) {
    rows.push_back(index.row());
  }
  std::sort(rows.begin(), rows.end());
  return rows;
}

void HistoryPanel::compareChosen() {
  std::vector<int> rows = chosenRows();
  if (rows.size() == 1 && rows.front() > 0) rows.insert(rows.begin(), 0);
  if (rows.size() < 2) {
    heading_->clear();
    summary_->setText(checksModel_.rowCount() > 1
                          ? tr("Choose an earlier check to hold this one against.")
                          : QString());
    heading_->hide();
    turnsModel_.clear();
    return;
  }
  // Of more than two the ends.
  const LoggedCheck& now = checksModel_.check(rows.front());
  const LoggedCheck& before = checksModel_.check(rows.back());
  const auto when = [&](int row) { return checksModel_.index(row).data().toString(); };
  heading_->setText(
      rows.front() == 0
          ? tr("Now against the check %1").arg(when(rows.back()))
          : tr("The check %1 against that %2").arg(when(rows.front()), when(rows.back())));
  heading_->show();
  const Comparison comparison = compare(before.whole(), now.whole());
  QString summary = summaryOf(comparison);
  if (comparison.notToldApart > 0) {
    summary += tr("; not told apart: %1").arg(comparison.notToldApart);
  }
  summary_->setText(summary);
  turnsModel_.show(comparison);
  turns_->scrollToTop();
}

}  // namespace swingroom
