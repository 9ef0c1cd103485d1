#include "app/panels/findings/pair_rule_form.h"

#include <QHBoxLayout>
#include <QLabel>
#include <cmath>

#include "app/edits/pair_edits.h"
#include "app/models/text.h"
#include "app/panels/elided_label.h"
#include "app/panels/way/way_axis.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

QPushButton* makeQuiet(const QString& text, const QString& tip, QWidget* parent) {
  auto* button = new QPushButton(text, parent);
  button->setProperty("look", QStringLiteral("quiet"));
  button->setProperty("narrow", true);
  button->setToolTip(tip);
  return button;
}

QDoubleSpinBox* makeGapBox(QWidget* parent) {
  auto* box = new QDoubleSpinBox(parent);
  box->setRange(0, 50);
  box->setDecimals(2);
  box->setSingleStep(0.05);
  box->setKeyboardTracking(false);
  box->setSuffix(PairRuleForm::tr(" mm"));
  box->setAccessibleName(PairRuleForm::tr("Required gap of the pair"));
  return box;
}

void addAll(std::vector<ReasonForm::Place>& places, const Scene& scene, const Sequence& way) {
  for (const Step& step : way.steps) places.push_back({{}, qt(step.name)});
  for (const Mode& mode : scene.loaded.modes) places.push_back({qt(mode.name), {}});
}

}  // namespace

PairRuleForm::PairRuleForm(Session& session, QWidget* parent) : QWidget(parent), session_(session) {
  build();
  connectEdits();
}

void PairRuleForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  auto* word = new QLabel(tr("Required"), this);
  required_ = makeGapBox(this);
  word->setBuddy(required_);
  usual_ = makeQuiet(tr("As all"), tr("Take the assembly's required gap again"), this);
  gapRow_ = new QWidget(this);
  auto* required = new QHBoxLayout(gapRow_);
  required->setContentsMargins(0, 0, 0, 0);
  required->addWidget(word);
  required->addWidget(required_);
  required->addWidget(usual_);
  required->addStretch(1);
  contacts_ = new QVBoxLayout;
  contacts_->setSpacing(0);
  allow_ = makeQuiet(
      QString(), tr("Take the pair out of the verdicts, with a reason; or back into them"), this);
  touch_ =
      makeQuiet(tr("May touch…"), tr("Let the two touch in a mode or a step, with a reason"), this);
  copy_ = makeQuiet(tr("Copy"), tr("Copy what the card says as text"), this);
  buttonRow_ = new QWidget(this);
  auto* buttons = new QHBoxLayout(buttonRow_);
  buttons->setContentsMargins(0, 0, 0, 0);
  buttons->setSpacing(0);
  buttons->addWidget(allow_);
  buttons->addWidget(touch_);
  buttons->addStretch(1);
  buttons->addWidget(copy_);
  form_ = new ReasonForm(this);
  column->addWidget(gapRow_);
  column->addLayout(contacts_);
  column->addWidget(buttonRow_);
  column->addWidget(form_);
}

void PairRuleForm::connectEdits() {
  connect(required_, &QDoubleSpinBox::valueChanged, this, [this] {
    if (!following_) takeRequired();
  });
  // Keys belong to the line again, undo to the document.
  connect(required_, &QDoubleSpinBox::editingFinished, required_, &QWidget::clearFocus);
  connect(usual_, &QPushButton::clicked, this, [this] { setRequired(std::nullopt); });
  connect(allow_, &QPushButton::clicked, this, &PairRuleForm::changeAllowance);
  connect(touch_, &QPushButton::clicked, this, &PairRuleForm::askContact);
  connect(copy_, &QPushButton::clicked, this, &PairRuleForm::copyWanted);
  connect(form_, &ReasonForm::allowanceGiven, this,
          [this](const QString& reason) { allow(reason.toStdString()); });
  connect(form_, &ReasonForm::contactGiven, this, &PairRuleForm::addContact);
  connect(form_, &ReasonForm::opened, this, &PairRuleForm::showRows);
  connect(form_, &ReasonForm::closed, this, &PairRuleForm::showRows);
}

/// While a reason is asked for, it has the foot to itself.
void PairRuleForm::showRows() {
  gapRow_->setVisible(!isAsking());
  buttonRow_->setVisible(!isAsking());
  Q_EMIT grown();
}

void PairRuleForm::show(const PairStory& story, const std::array<std::string, 2>& parts) {
  const bool other = parts != parts_;
  if (other) {
    required_->interpretText();  // What was typed is of the pair before.
    form_->close();
  }
  story_ = story;
  parts_ = parts;
  following_ = true;
  required_->setMaximum(std::max(50.0, story.requiredMm));
  if (!required_->hasFocus() || other) required_->setValue(story.requiredMm);
  following_ = false;
  usual_->setVisible(story.hasOwnRequired);
  allow_->setText(story.allowedBecause.isEmpty() ? tr("Allow…") : tr("Judge again"));
  touch_->setVisible(story.allowedBecause.isEmpty());
  showContacts();
}

/// Where it may touch by now, each with what takes that back.
void PairRuleForm::showContacts() {
  while (QLayoutItem* item = contacts_->takeAt(0)) {
    delete item->widget();
    delete item;
  }
  for (std::size_t c = 0; c < story_.contacts.size(); ++c) {
    auto* line = new QWidget(this);
    auto* row = new QHBoxLayout(line);
    row->setContentsMargins(0, 0, 0, 0);
    auto* words = new ElidedLabel(line);
    words->setProperty("role", QStringLiteral("small"));
    words->setText(story_.contacts[c]);
    QPushButton* back = makeQuiet(tr("Take back"), tr("Judge the two there again"), line);
    back->setAccessibleName(tr("Take back: %1").arg(story_.contacts[c]));
    connect(back, &QPushButton::clicked, this, [this, c] { removeContact(c); });
    row->addWidget(words, 1);
    row->addWidget(back);
    contacts_->addWidget(line);
  }
}

void PairRuleForm::takeRequired() {
  if (parts_[0].empty()) return;
  // As many decimals as the box shows: 0.3 read back must not become an edit.
  if (words::fixed(required_->value(), 2) == words::fixed(story_.requiredMm, 2)) return;
  setRequired(std::round(required_->value() * 100) / 100);
}

void PairRuleForm::setRequired(std::optional<double> gapMm) {
  session_.document().edit(
      tr("required gap of %1").arg(story_.names),
      edits::requiredGap(session_.document().document(), parts_[0], parts_[1], gapMm));
}

void PairRuleForm::changeAllowance() {
  if (!session_.choice().pair() || parts_[0].empty()) return;
  if (!story_.allowedBecause.isEmpty()) return allow(std::nullopt);
  form_->askAllowance();
}

void PairRuleForm::allow(const std::optional<std::string>& reason) {
  session_.document().edit(
      reason ? tr("allowing %1").arg(story_.names) : tr("judging %1 again").arg(story_.names),
      edits::allowance(session_.document().document(), parts_[0], parts_[1], reason));
}

/// Suggested is where it stands: in a mode at the way's ends, else in the step.
void PairRuleForm::askContact() {
  const ScenePtr& scene = session_.scene();
  if (!scene || parts_[0].empty()) return;
  const Stand& stand = session_.stand();
  const Sequence& way = scene->ways[stand.way()];
  std::vector<ReasonForm::Place> places;
  addAll(places, *scene, way);
  std::size_t nearest = stepAt(stand.instant(), way.steps.size());
  if (stand.instant() <= 0 || way.steps.empty()) nearest = way.steps.size() + way.from.index;
  if (stand.instant() >= 1) nearest = way.steps.size() + way.to.index;
  form_->askContact(places, nearest);
}

void PairRuleForm::addContact(ContactKind kind, const ReasonForm::Place& place,
                              const QString& reason) {
  DocumentContact contact;
  contact.kind = kind;
  if (place.mode.isEmpty()) {
    contact.steps = {place.step.toStdString()};
  } else {
    contact.modes = {place.mode.toStdString()};
  }
  contact.reason = reason.toStdString();
  session_.document().edit(
      tr("letting %1 touch").arg(story_.names),
      edits::contact(session_.document().document(), parts_[0], parts_[1], contact));
}

void PairRuleForm::removeContact(std::size_t index) {
  session_.document().edit(
      tr("judging %1 again").arg(story_.names),
      edits::withoutContact(session_.document().document(), parts_[0], parts_[1], index));
}

}  // namespace swingroom
