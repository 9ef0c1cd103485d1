#include "app/panels/findings/findings_panel.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QVBoxLayout>

#include "app/models/activity.h"
#include "app/models/kept_part.h"
#include "app/models/text.h"
#include "app/panels/findings/finding_delegate.h"
#include "app/panels/findings/findings_tools.h"
#include "app/panels/marks.h"

namespace swingroom {
namespace {

/// Below this the search waits behind its button: without a card, and with one.
constexpr int kRoomyPx = 440, kRoomyWithCardPx = 680;
constexpr int kLeastCardPx = 150;
/// What the list keeps of the height beside a card: its heading and more than one finding.
constexpr int kListKeepsPx = 132, kListAsidePx = 90;

QListView* makeList(FindingsFilter& filter, QWidget* parent) {
  auto* list = new QListView(parent);
  list->setModel(&filter);
  list->setItemDelegate(new FindingDelegate(list));
  list->setFrameShape(QFrame::NoFrame);
  list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  list->setResizeMode(QListView::Adjust);
  list->setMouseTracking(true);
  list->setProperty("cards", true);
  list->setAccessibleName(FindingsPanel::tr("Findings"));
  list->setMinimumHeight(40);
  list->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Ignored);
  return list;
}

}  // namespace

FindingsPanel::FindingsPanel(Session& session, QWidget* parent)
    : QWidget(parent), session_(session), filter_(model_) {
  // Before the list hears of it: that another row becomes the current one is then no wish.
  connect(&filter_, &QAbstractItemModel::rowsAboutToBeRemoved, this, [this] { following_ = true; });
  build();
  connect(&filter_, &QAbstractItemModel::rowsRemoved, this, [this] { following_ = false; });
  connectList();
  connect(&session, &Session::boardChanged, this, &FindingsPanel::showBoard);
  connect(&session, &Session::activityChanged, this, &FindingsPanel::showBoard);
  connect(&session.choice(), &Choice::changed, this, [this] {
    keepPart();
    showHeading();
    showChoice();
    if (list_->currentIndex().isValid()) list_->scrollTo(list_->currentIndex());
  });
  showBoard();
}

QLayout* FindingsPanel::buildTop() {
  auto* top = new QHBoxLayout;
  heading_ = new QLabel(this);
  heading_->setProperty("role", QStringLiteral("heading"));
  all_ = new QPushButton(tr("Show all"), this);
  find_ = new QPushButton(tr("Search"), this);
  find_->setCheckable(true);
  find_->setToolTip(tr("Search, sort and filter the findings"));
  for (QPushButton* button : {all_, find_}) button->setProperty("look", QStringLiteral("quiet"));
  top->addWidget(heading_, 1);
  top->addWidget(all_);
  top->addWidget(find_);
  return top;
}

void FindingsPanel::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 12, 12, 0);
  column->setSpacing(8);
  card_ = new PairCard(session_, this);
  // After the card's own layout has taken what is new.
  connect(card_, &PairCard::grown, this, &FindingsPanel::fit, Qt::QueuedConnection);
  column->addWidget(card_);
  column->addLayout(buildTop());
  tools_ = new FindingsTools(filter_, this);
  sentence_ = new QLabel(this);
  sentence_->setProperty("role", QStringLiteral("soft"));
  sentence_->setWordWrap(true);
  tightest_ = new QPushButton(tr("Show the tightest that passes"), this);
  tightest_->setProperty("look", QStringLiteral("quiet"));
  list_ = makeList(filter_, this);
  list_->installEventFilter(this);
  column->addWidget(tools_);
  column->addWidget(sentence_);
  column->addWidget(tightest_, 0, Qt::AlignLeft);
  column->addWidget(list_, 1);
  column->addStretch(0);  // Takes the room while there is no list.
}

void FindingsPanel::connectList() {
  connect(all_, &QPushButton::clicked, tools_, &FindingsTools::clear);
  connect(find_, &QPushButton::toggled, this, [this](bool on) {
    fit();
    if (on) tools_->search().setFocus(Qt::ShortcutFocusReason);
  });
  connect(tools_, &FindingsTools::changed, this, [this] {
    showHeading();
    showChoice();
  });
  connect(tools_, &FindingsTools::listWanted, this, [this] {
    list_->setFocus(Qt::TabFocusReason);
    if (!list_->currentIndex().isValid()) list_->setCurrentIndex(filter_.index(0, 0));
  });
  connect(tools_, &FindingsTools::firstWanted, this, [this] {
    takeChoice(filter_.index(0, 0));
    list_->setFocus(Qt::TabFocusReason);
  });
  connect(tightest_, &QPushButton::clicked, this, [this] {
    if (const auto tightest = tightestThatPasses(session_.board().report())) {
      const PairResult& pair = resultOf(session_.board().report(), *tightest);
      session_.goToWorst(pair.a, pair.b, tightest->way);
    }
  });
  connect(list_->selectionModel(), &QItemSelectionModel::currentChanged, this,
          [this](const QModelIndex& now) { takeChoice(now); });
  // Clicking the chosen one again, or Return on it, goes back to its worst place.
  connect(list_, &QListView::clicked, this, &FindingsPanel::takeChoice);
}

void FindingsPanel::resizeEvent(QResizeEvent* event) {
  fit();
  QWidget::resizeEvent(event);
}

/// Shares the height between the card and the list.
void FindingsPanel::fit() {
  const bool hasCard = !card_->isHidden();
  card_->setCompact(height() < kRoomyPx);
  const bool toolsFit = height() >= (hasCard ? kRoomyWithCardPx : kRoomyPx);
  find_->setVisible(!toolsFit);
  tools_->setVisible(toolsFit || find_->isChecked());
  if (!hasCard) return;
  const int tools = tools_->isHidden() ? 0 : tools_->sizeHint().height() + 8;
  // While a reason is asked for, that comes first.
  int list = card_->rules().isAsking() ? kListAsidePx : kListKeepsPx;
  if (list_->isHidden()) {
    constexpr int kHeadingPx = 66;  // With the margins and what lies between.
    list = kHeadingPx + sentence_->heightForWidth(width() - 24) + 8;
    if (!tightest_->isHidden()) list += tightest_->sizeHint().height() + 8;
  }
  const int most = std::max(kLeastCardPx, height() - list - tools);
  card_->setGivenHeight(std::clamp(card_->wantedHeight(), kLeastCardPx, most));
}

void FindingsPanel::showBoard() {
  following_ = true;
  model_.show(session_.board());
  following_ = false;
  tools_->showFilter();
  keepPart();
  showHeading();
  const QString sentence = findingsSentence(session_);
  sentence_->setText(sentence);
  sentence_->setVisible(!sentence.isEmpty());
  const bool passes = !sentence.isEmpty() && session_.board().isComplete() &&
                      tightestThatPasses(session_.board().report());
  tightest_->setVisible(passes);
  list_->setVisible(sentence.isEmpty() || filter_.rowCount() > 0);
  showChoice();
  fit();
}

void FindingsPanel::showHeading() {
  const auto shown = static_cast<std::size_t>(filter_.rowCount());
  const std::size_t all = filter_.countOf({});
  QString text;
  if (filter_.isNarrowed()) {
    text = filter_.listed().kind == FindingKind::finding
               ? tr("%1 of %2 findings").arg(shown).arg(all)
           : shown == 1 ? tr("1 pair that is no finding")
                        : tr("%1 pairs that are no findings").arg(shown);
  } else {
    text = all == 0 ? tr("Findings") : all == 1 ? tr("1 finding") : tr("%1 findings").arg(all);
  }
  heading_->setText(text);
  all_->setVisible(filter_.isNarrowed());
}

void FindingsPanel::keepPart() {
  const ScenePtr& scene = session_.scene();
  keptPart_ = scene ? keptPart(keptPart_, session_.choice()) : std::nullopt;
  following_ = true;
  tools_->setPart(keptPart_, keptPart_ ? qt(scene->assembly().part(*keptPart_).name) : QString());
  following_ = false;
}

void FindingsPanel::showChoice() {
  following_ = true;
  const auto& pair = session_.choice().pair();
  const QModelIndex at = pair ? filter_.indexOf(*pair) : QModelIndex();
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
  const FindingRow& row = filter_.row(chosen);
  // What is no finding is nearest in its own way.
  const bool isFinding = row.kind == FindingKind::finding;
  session_.goToWorst(row.pair.first, row.pair.second,
                     isFinding ? std::nullopt : std::optional(row.way));
}

void FindingsPanel::toggleOnly(Verdict verdict) {
  FindingsFilter::Listed wanted{FindingKind::finding, verdict};
  if (verdict == Verdict::clear) return;
  if (verdict == Verdict::allowed) wanted = {FindingKind::allowed, std::nullopt};
  following_ = true;
  filter_.setListed(filter_.listed() == wanted ? FindingsFilter::Listed() : wanted);
  following_ = false;
  showBoard();
}

void FindingsPanel::startSearch() {
  if (!find_->isHidden()) find_->setChecked(true);
  tools_->search().setFocus(Qt::ShortcutFocusReason);
  tools_->search().selectAll();
}

void FindingsPanel::goToNeighbour(int direction) {
  const int rows = filter_.rowCount();
  if (rows == 0) return;
  const auto& pair = session_.choice().pair();
  const QModelIndex at = pair ? filter_.indexOf(*pair) : QModelIndex();
  const int start = at.isValid() ? at.row() + direction : direction > 0 ? 0 : rows - 1;
  takeChoice(filter_.index((start + rows) % rows, 0));
}

bool FindingsPanel::eventFilter(QObject* watched, QEvent* event) {
  if (watched == list_ && event->type() == QEvent::KeyPress) {
    const auto* key = static_cast<QKeyEvent*>(event);
    if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
      takeChoice(list_->currentIndex());
      return true;
    }
    if (key->matches(QKeySequence::Copy)) {
      card_->copy();
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
}

}  // namespace swingroom
