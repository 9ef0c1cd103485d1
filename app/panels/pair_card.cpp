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
  connect(curve_, &GapCurveView::instantWanted, &session.stand(), &Stand::moveTo);
  connect(required_, &QDoubleSpinBox::editingFinished, this, &PairCard::takeRequired);
  connect(usual_, &QPushButton::clicked, this, [this] {
    session_.document().edit(
        tr("required gap of %1").arg(story_.names),
        edits::requiredGap(session_.document().document(),
                           session_.scene()->assembly().part(session_.choice().pair()->first).name,
                           session_.scene()->assembly().part(session_.choice().pair()->second).name,
                           std::nullopt));
  });
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
  column->addWidget(curve_);
  facts_ = addLabel(*column, "small", this);
  advice_ = addLabel(*column, "plain", this);
  auto* required = new QHBoxLayout;
  auto* word = new QLabel(tr("Required"), this);
  required_ = new QDoubleSpinBox(this);
  required_->setRange(0, 50);
  required_->setDecimals(2);
  required_->setSingleStep(0.05);
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
  story_ = story;
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
  if (!required_->hasFocus() || other) required_->setValue(story.requiredMm);
  usual_->setVisible(story.hasOwnRequired);
  worst_->setEnabled(story.verdict.has_value());
  allow_->setText(story.allowedBecause.isEmpty() ? tr("Allow…") : tr("Judge again"));
}

void PairCard::showFacts() {
  QStringList lines;
  if (!story_.allowedBecause.isEmpty()) {
    lines += tr("Allowed, because: %1").arg(story_.allowedBecause.toHtmlEscaped());
  }
  constexpr qsizetype kMostFacts = 4;
  const auto facts = static_cast<qsizetype>(story_.facts.size());
  for (qsizetype i = 0; i < std::min(facts, kMostFacts); ++i) {
    const auto& fact = story_.facts[static_cast<std::size_t>(i)];
    lines +=
        QStringLiteral("<b>%1</b> %2").arg(fact.name.toHtmlEscaped(), fact.value.toHtmlEscaped());
  }
  if (facts > kMostFacts) lines += tr("and %1 more in the report").arg(facts - kMostFacts);
  facts_->setText(lines.join(QStringLiteral("<br>")));
  facts_->setVisible(!lines.isEmpty());
  advice_->setText(story_.advice);
  advice_->setToolTip(story_.adviceMore);
  advice_->setVisible(!story_.advice.isEmpty());
}

void PairCard::showNow(const PairNow& now) {
  if (session_.choice().pair() == now.pair) now_->setText(nowText(now));
}

void PairCard::takeRequired() {
  const auto& pair = session_.choice().pair();
  if (!pair || !session_.scene()) return;
  required_->clearFocus();  // Keys belong to the line again, undo to the document.
  // As many decimals as the box shows: 0.3 read back must not become an edit.
  if (words::fixed(required_->value(), 2) == words::fixed(story_.requiredMm, 2)) return;
  const Assembly& assembly = session_.scene()->assembly();
  const double wanted = std::round(required_->value() * 100) / 100;
  session_.document().edit(
      tr("required gap of %1").arg(story_.names),
      edits::requiredGap(session_.document().document(), assembly.part(pair->first).name,
                         assembly.part(pair->second).name, wanted));
}

void PairCard::changeAllowance() {
  const auto& pair = session_.choice().pair();
  if (!pair || !session_.scene()) return;
  const Assembly& assembly = session_.scene()->assembly();
  std::optional<std::string> reason;
  if (story_.allowedBecause.isEmpty()) {
    bool said = false;
    const QString text =
        QInputDialog::getText(window(), tr("Allow this pair"),
                              tr("%1 leave the verdicts, because:").arg(story_.names),
                              QLineEdit::Normal, QString(), &said)
            .trimmed();
    if (!said || text.isEmpty()) return;
    reason = text.toStdString();
  }
  session_.document().edit(
      reason ? tr("allowing %1").arg(story_.names) : tr("judging %1 again").arg(story_.names),
      edits::allowance(session_.document().document(), assembly.part(pair->first).name,
                       assembly.part(pair->second).name, reason));
}

}  // namespace swingroom
