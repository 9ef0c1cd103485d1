#include "app/panels/findings/reason_form.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QVBoxLayout>

#include "app/models/contact_word.h"

namespace swingroom {

ReasonForm::ReasonForm(QWidget* parent) : QWidget(parent) {
  build();
  connect(kind_, &QComboBox::currentIndexChanged, this, &ReasonForm::fillPlaces);
  connect(reason_, &QLineEdit::textChanged, this, [this](const QString& text) {
    accept_->setEnabled(!text.trimmed().isEmpty() && (place_->isHidden() || place_->count() > 0));
  });
  connect(reason_, &QLineEdit::returnPressed, this, &ReasonForm::take);
  connect(accept_, &QPushButton::clicked, this, &ReasonForm::take);
  connect(leave_, &QPushButton::clicked, this, &ReasonForm::close);
  hide();
}

void ReasonForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 4, 0, 0);
  column->setSpacing(6);
  question_ = new QLabel(this);
  question_->setWordWrap(true);
  question_->setProperty("role", QStringLiteral("small"));
  kind_ = new QComboBox(this);
  kind_->setAccessibleName(tr("Kind of contact"));
  const std::pair<ContactKind, QString> kinds[] = {
      {ContactKind::rest, tr("a stop, a sole, a flush panel: may touch")},
      {ContactKind::grip, tr("must hold in this mode")},
      {ContactKind::snap, tr("may overlap while it passes in this step")}};
  for (const auto& [kind, words] : kinds) {
    kind_->addItem(contactWord(kind), static_cast<int>(kind));
    kind_->setItemData(kind_->count() - 1, words, Qt::ToolTipRole);
  }
  place_ = new QComboBox(this);
  place_->setAccessibleName(tr("Where they may touch"));
  place_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
  reason_ = new QLineEdit(this);
  reason_->setPlaceholderText(tr("because…"));
  reason_->setAccessibleName(tr("The reason"));
  accept_ = new QPushButton(tr("Allow"), this);
  accept_->setProperty("look", QStringLiteral("main"));
  leave_ = new QPushButton(tr("Leave it"), this);
  leave_->setProperty("look", QStringLiteral("quiet"));
  auto* where = new QHBoxLayout;
  where->addWidget(kind_);
  where->addWidget(place_, 1);
  auto* buttons = new QHBoxLayout;
  buttons->addWidget(accept_);
  buttons->addWidget(leave_);
  buttons->addStretch(1);
  column->addWidget(question_);
  column->addLayout(where);
  column->addWidget(reason_);
  column->addLayout(buttons);
}

void ReasonForm::open() {
  reason_->clear();
  accept_->setEnabled(false);
  show();
  reason_->setFocus(Qt::OtherFocusReason);
  Q_EMIT opened();
}

void ReasonForm::askAllowance() {
  question_->setText(tr("The pair leaves the verdicts; the reason stays in every report."));
  accept_->setText(tr("Allow"));
  kind_->hide();
  place_->hide();
  open();
}

void ReasonForm::askContact(const std::vector<Place>& places, std::size_t nearest) {
  places_ = places;
  nearest_ = nearest;
  question_->setText(tr("The two may touch there; elsewhere they are judged as before."));
  accept_->setText(tr("Let touch"));
  kind_->show();
  place_->show();
  fillPlaces();
  open();
}

/// A part grips in a mode and snaps past in a step; it may rest in either.
void ReasonForm::fillPlaces() {
  place_->clear();
  for (std::size_t p = 0; p < places_.size(); ++p) {
    const bool isMode = !places_[p].mode.isEmpty();
    if (kind() == ContactKind::grip && !isMode) continue;
    if (kind() == ContactKind::snap && isMode) continue;
    place_->addItem(
        isMode ? tr("in mode %1").arg(places_[p].mode) : tr("in step %1").arg(places_[p].step),
        QVariant::fromValue<qulonglong>(p));
    if (p == nearest_) place_->setCurrentIndex(place_->count() - 1);
  }
  kind_->setToolTip(kind_->currentData(Qt::ToolTipRole).toString());
}

void ReasonForm::take() {
  const QString reason = reason_->text().trimmed();
  if (reason.isEmpty()) return;
  if (place_->isHidden()) {
    hide();
    Q_EMIT allowanceGiven(reason);
  } else if (place_->currentIndex() >= 0) {
    hide();
    Q_EMIT contactGiven(kind(), places_.at(place_->currentData().toULongLong()), reason);
  }
  Q_EMIT closed();
}

void ReasonForm::close() {
  if (isHidden()) return;
  hide();
  Q_EMIT closed();
}

void ReasonForm::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) return close();
  QWidget::keyPressEvent(event);
}

}  // namespace swingroom
