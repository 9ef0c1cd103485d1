#include "app/panels/findings/pair_card.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QScrollArea>
#include <QVBoxLayout>

#include "app/models/pair_text.h"
#include "app/models/print/printed_facts.h"
#include "app/models/ribbon.h"
#include "app/panels/elided_label.h"
#include "app/panels/mark_view.h"

namespace swingroom {
namespace {

constexpr int kCardSidePx = 12, kCardTopPx = 10, kCardBetweenPx = 4;
constexpr int kCurvePx = 88, kLowCurvePx = 74;

QLabel* addLabel(QVBoxLayout& column, const char* role, QWidget* parent) {
  auto* label = new QLabel(parent);
  label->setProperty("role", QString::fromLatin1(role));
  label->setWordWrap(true);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  column.addWidget(label);
  return label;
}

QPushButton* makeLink(const QString& tip, QWidget* parent) {
  auto* button = new QPushButton(parent);
  button->setProperty("look", QStringLiteral("link"));
  button->setToolTip(tip);
  return button;
}

}  // namespace

PairCard::PairCard(Session& session, QWidget* parent) : QFrame(parent), session_(session) {
  setProperty("card", QStringLiteral("chosen"));
  build();
  connect(&session.choice(), &Choice::changed, this, &PairCard::show);
  connect(&session, &Session::boardChanged, this, &PairCard::show);
  connect(&session.stand(), &Stand::wayChanged, this, &PairCard::show);
  connect(&session.stand(), &Stand::moved, this,
          [this] { curve_->setInstant(session_.stand().instant()); });
  connect(&session.liveGaps(), &LiveGaps::pairMeasured, this, &PairCard::showNow);
  connect(curve_, &GapCurveView::instantWanted, this, [this](double instant) {
    session_.stand().setRunning(false);
    session_.stand().moveTo(instant);
  });
  connect(worst_, &QPushButton::clicked, this, [this] {
    if (const auto& pair = session_.choice().pair()) session_.goToWorst(pair->first, pair->second);
  });
  connect(more_, &QPushButton::toggled, this, &PairCard::showFacts);
  connect(rules_, &PairRuleForm::copyWanted, this, &PairCard::copy);
  connect(rules_, &PairRuleForm::grown, this, &PairCard::grown);
  show();
}

void PairCard::build() {
  setFocusPolicy(Qt::ClickFocus);
  setAccessibleName(tr("The chosen pair"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(kCardSidePx, kCardTopPx, kCardSidePx, kCardTopPx);
  column->setSpacing(kCardBetweenPx);
  buildHead();
  buildBody();
  area_ = new QScrollArea(this);
  area_->setWidget(body_);
  area_->setWidgetResizable(true);
  area_->setFrameShape(QFrame::NoFrame);
  area_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  area_->setFocusPolicy(Qt::NoFocus);
  area_->setMinimumHeight(24);
  area_->viewport()->setAutoFillBackground(false);
  body_->setAutoFillBackground(false);
  rules_ = new PairRuleForm(session_, this);
  column->addWidget(head_);
  column->addWidget(area_, 1);
  column->addWidget(rules_);
}

void PairCard::buildHead() {
  head_ = new QWidget(this);
  auto* column = new QVBoxLayout(head_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kCardBetweenPx);
  auto* top = new QHBoxLayout;
  top->setSpacing(8);
  mark_ = new MarkView(head_);
  names_ = new ElidedLabel(head_);
  names_->setProperty("role", QStringLiteral("strong"));
  top->addWidget(mark_, 0, Qt::AlignTop);
  top->addWidget(names_, 1);
  column->addLayout(top);
  auto* figures = new QHBoxLayout;
  figure_ = new ElidedLabel(head_);
  figure_->setProperty("role", QStringLiteral("figure"));
  now_ = new QLabel(head_);
  now_->setProperty("role", QStringLiteral("soft"));
  now_->setTextFormat(Qt::PlainText);
  figures->addWidget(figure_, 1);
  figures->addWidget(now_, 0, Qt::AlignBottom);
  column->addLayout(figures);
  worst_ = makeLink(tr("Stand at the worst place"), head_);
  column->addWidget(worst_, 0, Qt::AlignLeft);
}

void PairCard::buildBody() {
  body_ = new QWidget(this);
  auto* column = new QVBoxLayout(body_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kCardBetweenPx);
  curve_ = new GapCurveView(body_);
  curve_->setFixedHeight(kCurvePx);
  column->addWidget(curve_);
  advice_ = addLabel(*column, "plain", body_);
  adviceMore_ = addLabel(*column, "label", body_);
  more_ = makeLink(tr("Bounds, joint values, points and who moves"), body_);
  more_->setCheckable(true);
  more_->setChecked(true);
  column->addWidget(more_, 0, Qt::AlignLeft);
  facts_ = addLabel(*column, "small", body_);
  column->addStretch(1);
  for (QLabel* label : {advice_, adviceMore_}) label->setTextFormat(Qt::PlainText);
  facts_->setTextFormat(Qt::RichText);
}

int PairCard::wantedHeight() const {
  constexpr int kBorderPx = 2;
  const int inside = width() - 2 * (kCardSidePx + kBorderPx);
  const QLayout* body = body_->layout();
  const int bodyHigh =
      body->hasHeightForWidth() ? body->heightForWidth(inside) : body->sizeHint().height();
  return head_->sizeHint().height() + bodyHigh + rules_->sizeHint().height() +
         2 * (kCardTopPx + kBorderPx + kCardBetweenPx);
}

void PairCard::setGivenHeight(int height) {
  if (height == givenHeight_) return;
  givenHeight_ = height;
  setMaximumHeight(height);
  updateGeometry();
}

void PairCard::resizeEvent(QResizeEvent* event) {
  QFrame::resizeEvent(event);
  fitNow();
}

void PairCard::setPrints(const PrintBoard& prints) {
  prints_ = &prints;
  connect(&prints, &PrintBoard::changed, this, &PairCard::show);
}

void PairCard::show() {
  const auto& pair = session_.choice().pair();
  const auto index = pair && session_.scene()
                         ? session_.board().pairIndex(pair->first, pair->second)
                         : std::nullopt;
  setVisible(index.has_value());
  if (index) showStory(session_.stand().way(), *index);
  Q_EMIT grown();
}

void PairCard::showStory(std::size_t way, std::size_t pair) {
  PairStory story = storyOf(session_.board(), way, pair);
  if (prints_) story.printed = printedFacts(*prints_, *session_.choice().pair());
  const bool other = story.names != story_.names;
  story_ = story;
  mark_->setVerdict(story.verdict);
  names_->setText(story.verdict
                      ? QStringLiteral("%1 · %2").arg(verdictWord(*story.verdict), story.names)
                      : story.names);
  figure_->setText(story.figure);
  worst_->setText(story.where);
  worst_->setEnabled(story.verdict.has_value());
  if (other) now_->clear();
  fitNow();
  const CurveDrawing drawing = curveOf(session_.board(), way, pair);
  curve_->setDrawing(drawing);
  curve_->setInstant(session_.stand().instant());
  curve_->setVisible(!drawing.samples.empty() || !story.verdict);
  showFacts();
  const auto [a, b] = *session_.choice().pair();
  const Assembly& assembly = session_.scene()->assembly();
  rules_->show(story, {assembly.part(a).name, assembly.part(b).name});
}

void PairCard::showFacts() {
  QStringList lines;
  if (!story_.allowedBecause.isEmpty()) {
    lines += tr("Allowed, because: %1").arg(story_.allowedBecause.toHtmlEscaped());
  }
  constexpr qsizetype kMostFacts = 5;
  const auto line = [&](const PairStory::Fact& fact) {
    lines +=
        QStringLiteral("<b>%1</b> %2").arg(fact.name.toHtmlEscaped(), fact.value.toHtmlEscaped());
  };
  for (const PairStory::Fact& fact : story_.printed) line(fact);
  const auto facts = static_cast<qsizetype>(story_.facts.size());
  for (qsizetype i = 0; i < std::min(facts, kMostFacts); ++i) {
    line(story_.facts[static_cast<std::size_t>(i)]);
  }
  if (facts > kMostFacts) lines += tr("and %1 more in the report").arg(facts - kMostFacts);
  for (const PairStory::Fact& fact : story_.atWorst) line(fact);
  facts_->setText(lines.join(QStringLiteral("<br>")));
  more_->setVisible(!lines.isEmpty());
  more_->setText(more_->isChecked() ? tr("Fold the numbers") : tr("All numbers"));
  facts_->setVisible(!lines.isEmpty() && more_->isChecked());
  advice_->setText(story_.advice);
  advice_->setVisible(!story_.advice.isEmpty());
  adviceMore_->setText(story_.adviceMore);
  adviceMore_->setVisible(!story_.adviceMore.isEmpty() && more_->isChecked());
  Q_EMIT grown();
}

void PairCard::setCompact(bool compact) {
  if (compact == compact_) return;
  compact_ = compact;
  curve_->setFixedHeight(compact ? kLowCurvePx : kCurvePx);
  more_->setChecked(!compact);
}

void PairCard::showNow(const PairNow& now) {
  if (session_.choice().pair() != now.pair) return;
  now_->setText(nowText(now));
  fitNow();
}

/// Beside the figure that matters if both find room; the ribbon's row says it too.
void PairCard::fitNow() {
  const int room = head_->width() - 12;
  const int wanted = figure_->sizeHint().width() + now_->sizeHint().width();
  now_->setVisible(wanted <= room);
  figure_->setToolTip(now_->text());
}

void PairCard::copy() {
  const ScenePtr& scene = session_.scene();
  if (!scene || !session_.choice().pair()) return;
  QGuiApplication::clipboard()->setText(textOf(story_, wayTitle(*scene, session_.stand().way())));
}

void PairCard::keyPressEvent(QKeyEvent* event) {
  if (event->matches(QKeySequence::Copy)) return copy();
  QFrame::keyPressEvent(event);
}

}  // namespace swingroom
