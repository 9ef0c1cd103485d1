#include "app/panels/findings_panel.h"

#include <QHBoxLayout>
#include <QVBoxLayout>

#include "app/models/activity.h"
#include "app/panels/finding_delegate.h"
#include "app/panels/marks.h"

namespace swingroom {
namespace {

QListView* makeList(FindingsModel& model, QWidget* parent) {
  auto* list = new QListView(parent);
  list->setModel(&model);
  list->setItemDelegate(new FindingDelegate(list));
  list->setFrameShape(QFrame::NoFrame);
  list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  list->setResizeMode(QListView::Adjust);
  list->setMouseTracking(true);
  list->setProperty("cards", true);
  list->setAccessibleName(FindingsPanel::tr("Findings, worst first"));
  return list;
}

}  // namespace

FindingsPanel::FindingsPanel(Session& session, QWidget* parent)
    : QWidget(parent), session_(session) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 12, 12, 0);
  column->setSpacing(8);
  auto* top = new QHBoxLayout;
  heading_ = new QLabel(this);
  heading_->setProperty("role", QStringLiteral("heading"));
  all_ = new QPushButton(tr("Show all"), this);
  all_->setProperty("look", QStringLiteral("quiet"));
  top->addWidget(heading_, 1);
  top->addWidget(all_);
  sentence_ = new QLabel(this);
  sentence_->setProperty("role", QStringLiteral("soft"));
  sentence_->setWordWrap(true);
  tightest_ = new QPushButton(this);
  tightest_->setProperty("look", QStringLiteral("quiet"));
  card_ = new PairCard(session, this);
  list_ = makeList(model_, this);
  column->addWidget(card_);
  column->addLayout(top);
  column->addWidget(sentence_);
  column->addWidget(tightest_, 0, Qt::AlignLeft);
  column->addWidget(list_, 1);

  connect(all_, &QPushButton::clicked, this, [this] {
    model_.showOnly(std::nullopt);
    showBoard();
  });
  connect(tightest_, &QPushButton::clicked, this, [this] {
    if (const auto tightest = tightestThatPasses(session_.board().report())) {
      const PairResult& pair = resultOf(session_.board().report(), *tightest);
      session_.goToWorst(pair.a, pair.b, tightest->way);
    }
  });
  connect(&session, &Session::boardChanged, this, &FindingsPanel::showBoard);
  connect(&session, &Session::activityChanged, this, &FindingsPanel::showBoard);
  connect(&session.choice(), &Choice::changed, this, [this] {
    showChoice();
    if (list_->currentIndex().isValid()) list_->scrollTo(list_->currentIndex());
  });
  connect(list_->selectionModel(), &QItemSelectionModel::currentChanged, this,
          [this](const QModelIndex& now) { takeChoice(now); });
  // Clicking the chosen one again goes back to its worst place.
  connect(list_, &QListView::clicked, this, &FindingsPanel::takeChoice);
  showBoard();
}

void FindingsPanel::resizeEvent(QResizeEvent* event) {
  constexpr int kRoomForAllPx = 440;
  card_->setCompact(height() < kRoomForAllPx);
  QWidget::resizeEvent(event);
}

void FindingsPanel::showBoard() {
  following_ = true;
  model_.show(session_.board());
  following_ = false;
  const auto only = model_.shownOnly();
  heading_->setText(only ? tr("Findings: %1 only").arg(verdictWord(*only))
                         : tr("Findings, worst first"));
  all_->setVisible(only.has_value());
  const QString sentence = findingsSentence(session_);
  sentence_->setText(sentence);
  sentence_->setVisible(!sentence.isEmpty());
  const bool passes = !sentence.isEmpty() && session_.board().isComplete() &&
                      tightestThatPasses(session_.board().report());
  tightest_->setText(tr("Show the tightest that passes"));
  tightest_->setVisible(passes);
  showChoice();
}

void FindingsPanel::showChoice() {
  following_ = true;
  const auto& pair = session_.choice().pair();
  const QModelIndex at = pair ? model_.indexOf(*pair) : QModelIndex();
  if (at.isValid()) {
    // A list that fills up while somebody scrolls must not jump back.
    list_->setAutoScroll(false);
    list_->setCurrentIndex(at);
  } else {
    list_->selectionModel()->clear();
  }
  following_ = false;
}

void FindingsPanel::takeChoice(const QModelIndex& chosen) {
  if (following_ || !chosen.isValid()) return;
  const auto [a, b] = model_.row(chosen).pair;
  session_.goToWorst(a, b);
}

void FindingsPanel::toggleOnly(Verdict verdict) {
  if (verdict >= Verdict::clear) return;
  following_ = true;
  model_.showOnly(model_.shownOnly() == verdict ? std::nullopt : std::optional(verdict));
  following_ = false;
  showBoard();
}

}  // namespace swingroom
