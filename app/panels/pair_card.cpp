#include "app/panels/pair_card.h"

#include <QHBoxLayout>
#include <QInputDialog>
#include <QVBoxLayout>

#include "app/models/ribbon.h"
#include "app/models/text.h"
#include "app/panels/elided_label.h"
#include "app/panels/mark_view.h"
#include "app/session/edits.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

QLabel* addLabel(QVBoxLayout& column, const char* role, QWidget* parent) {
  auto* label = new QLabel(parent);
  label->setProperty("role", QString::fromLatin1(role));
  label->setWordWrap(true);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  column.addWidget(label);
  return label;
}

QPushButton* makeButton(const QString& text, const char* look, QWidget* parent) {
  auto* button = new QPushButton(text, parent);
  button->setProperty("look", QString::fromLatin1(look));
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
  connect(required_, &QDoubleSpinBox::valueChanged, this, [this] {
    if (!following_) takeRequired();
  });
  // Keys belong to the line again, undo to the document.
  connect(required_, &QDoubleSpinBox::editingFinished, required_, &QWidget::clearFocus);
  connect(usual_, &QPushButton::clicked, this, [this] { setRequired(std::nullopt); });
  connect(worst_, &QPushButton::clicked, this, [this] {
    if (const auto& pair = session_.choice().pair()) session_.goToWorst(pair->first, pair->second);
  });
  connect(allow_, &QPushButton::clicked, this, &PairCard::changeAllowance);
  show();
}

void PairCard::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 10, 12, 10);
  column->setSpacing(4);
  auto* top = new QHBoxLayout;
  top->setSpacing(8);
  mark_ = new MarkView(this);
  names_ = new ElidedLabel(this);
  names_->setProperty("role", QStringLiteral("strong"));
  top->addWidget(mark_, 0, Qt::AlignTop);
  top->addWidget(names_, 1);
  column->addLayout(top);
  auto* figures = new QHBoxLayout;
  figure_ = new QLabel(this);
  figure_->setProperty("role", QStringLiteral("figure"));
  now_ = new QLabel(this);
  now_->setProperty("role", QStringLiteral("soft"));
  figures->addWidget(figure_, 1);
  figures->addWidget(now_, 0, Qt::AlignBottom);
  column->addLayout(figures);
  worst_ = makeButton(QString(), "link", this);
  worst_->setToolTip(tr("Stand at the worst place"));
  column->addWidget(worst_, 0, Qt::AlignLeft);
  curve_ = new GapCurveView(this);
  curve_->setFixedHeight(88);
  column->addWidget(curve_);
  facts_ = addLabel(*column, "small", this);
  advice_ = addLabel(*column, "plain", this);
  adviceMore_ = addLabel(*column, "label", this);
  for (QLabel* label : {advice_, adviceMore_, now_, figure_}) label->setTextFormat(Qt::PlainText);
  facts_->setTextFormat(Qt::RichText);
  auto* required = new QHBoxLayout;
  auto* word = new QLabel(tr("Required"), this);
  required_ = new QDoubleSpinBox(this);
  required_->setRange(0, 50);
  required_->setDecimals(2);
  required_->setSingleStep(0.05);
  required_->setKeyboardTracking(false);
  required_->setSuffix(tr(" mm"));
  required_->setAccessibleName(tr("Required gap of the pair"));
  word->setBuddy(required_);
  usual_ = makeButton(tr("As all"), "quiet", this);
  usual_->setToolTip(tr("Take the assembly's required gap again"));
  required->addWidget(word);
  required->addWidget(required_);
  required->addWidget(usual_);
  required->addStretch(1);
  allow_ = makeButton(QString(), "quiet", this);
  allow_->setToolTip(tr("Take the pair out of the verdicts, with a reason; or back into them"));
  required->addWidget(allow_);
  column->addLayout(required);
}

void PairCard::show() {
  const auto& pair = session_.choice().pair();
  const auto index = pair && session_.scene()
                         ? session_.board().pairIndex(pair->first, pair->second)
                         : std::nullopt;
  setVisible(index.has_value());
  if (index) showStory(session_.stand().way(), *index);
}

void PairCard::showStory(std::size_t way, std::size_t pair) {
  const PairStory story = storyOf(session_.board(), way, pair);
  const bool other = story.names != story_.names;
  if (other) required_->interpretText();  // What was typed is of the pair before.
  story_ = story;
  const auto [a, b] = *session_.choice().pair();
  parts_ = {session_.scene()->assembly().part(a).name, session_.scene()->assembly().part(b).name};
  mark_->setVerdict(story.verdict);
  const QString names =
      story.verdict ? QStringLiteral("%1 · %2").arg(verdictWord(*story.verdict), story.names)
                    : story.names;
  names_->setText(names);
  figure_->setText(story.figure);
  worst_->setText(story.where);
  if (other) now_->clear();
  const CurveDrawing drawing = curveOf(session_.board(), way, pair);
  curve_->setDrawing(drawing);
  curve_->setInstant(session_.stand().instant());
  curve_->setVisible(!drawing.samples.empty() || !story.verdict);
  showFacts();
  following_ = true;
  required_->setMaximum(std::max(50.0, story.requiredMm));
  if (!required_->hasFocus() || other) required_->setValue(story.requiredMm);
  following_ = false;
  usual_->setVisible(story.hasOwnRequired);
  worst_->setEnabled(story.verdict.has_value());
  allow_->setText(story.allowedBecause.isEmpty() ? tr("Allow…") : tr("Judge again"));
}

void PairCard::showFacts() {
  QStringList lines;
  if (!story_.allowedBecause.isEmpty()) {
    lines += tr("Allowed, because: %1").arg(story_.allowedBecause.toHtmlEscaped());
  }
  constexpr qsizetype kMostFacts = 3;
  const auto facts = static_cast<qsizetype>(story_.facts.size());
  for (qsizetype i = 0; i < std::min(facts, kMostFacts); ++i) {
    const auto& fact = story_.facts[static_cast<std::size_t>(i)];
    lines +=
        QStringLiteral("<b>%1</b> %2").arg(fact.name.toHtmlEscaped(), fact.value.toHtmlEscaped());
  }
  if (facts > kMostFacts) lines += tr("and %1 more in the report").arg(facts - kMostFacts);
  facts_->setText(lines.join(QStringLiteral("<br>")));
  facts_->setVisible(!lines.isEmpty() && !compact_);
  advice_->setText(story_.advice);
  advice_->setVisible(!story_.advice.isEmpty());
  adviceMore_->setText(story_.adviceMore);
  adviceMore_->setVisible(!story_.adviceMore.isEmpty() && !compact_);
  advice_->setToolTip(compact_ ? story_.adviceMore : QString());
}

void PairCard::setCompact(bool compact) {
  if (compact == compact_) return;
  compact_ = compact;
  showFacts();
}

void PairCard::showNow(const PairNow& now) {
  if (session_.choice().pair() == now.pair) now_->setText(nowText(now));
}

void PairCard::takeRequired() {
  if (parts_[0].empty()) return;
  // As many decimals as the box shows: 0.3 read back must not become an edit.
  if (words::fixed(required_->value(), 2) == words::fixed(story_.requiredMm, 2)) return;
  setRequired(std::round(required_->value() * 100) / 100);
}

void PairCard::setRequired(std::optional<double> gapMm) {
  session_.document().edit(
      tr("required gap of %1").arg(story_.names),
      edits::requiredGap(session_.document().document(), parts_[0], parts_[1], gapMm));
}

void PairCard::changeAllowance() {
  if (!session_.choice().pair() || parts_[0].empty()) return;
  const auto parts = parts_;  // Another scene may come while the question is open.
  const QString names = story_.names;
  std::optional<std::string> reason;
  if (story_.allowedBecause.isEmpty()) {
    bool said = false;
    const QString text = QInputDialog::getText(window(), tr("Allow this pair"),
                                               tr("%1 leave the verdicts, because:").arg(names),
                                               QLineEdit::Normal, QString(), &said)
                             .trimmed();
    if (!said || text.isEmpty()) return;
    reason = text.toStdString();
  }
  session_.document().edit(
      reason ? tr("allowing %1").arg(names) : tr("judging %1 again").arg(names),
      edits::allowance(session_.document().document(), parts[0], parts[1], reason));
}

}  // namespace swingroom
