#include "app/window/forms/unit_row.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/window/forms/size_form.h"
#include "app/window/forms/unit_form.h"

namespace swingroom {

UnitRow::UnitRow(QWidget* parent) : QWidget(parent) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  auto* row = new QHBoxLayout;
  row->setSpacing(4);
  for (std::size_t i = 0; i < kLengthUnits.size(); ++i) {
    const LengthUnit unit = kLengthUnits[i];
    buttons_[i] = new QPushButton(unitWord(unit), this);
    buttons_[i]->setProperty("look", QStringLiteral("quiet"));
    buttons_[i]->setCheckable(true);
    buttons_[i]->setAccessibleName(tr("Unit of the files: %1").arg(unitWord(unit)));
    buttons_[i]->setToolTip(tr("For files that do not say it (STL, OBJ, PLY)"));
    connect(buttons_[i], &QPushButton::clicked, this, [this, unit] { choose(unit); });
    row->addWidget(buttons_[i]);
  }
  row->addStretch(1);
  column->addLayout(row);
  said_ = new QLabel(this);
  said_->setProperty("role", QStringLiteral("soft"));
  said_->setWordWrap(true);
  column->addWidget(said_);
  showUnit();
}

void UnitRow::show(const std::optional<PartsLook>& look) {
  known_ = look.has_value();
  guess_ = look ? look->unit.guess : std::nullopt;
  sizes_mm_ = look ? look->sizes_mm : Eigen::Vector3d::Zero();
  chosen_.reset();
  showUnit();
}

LengthUnit UnitRow::unit() const {
  return chosen_.value_or(guess_ ? guess_->unit : LengthUnit::mm);
}

double UnitRow::factor() const {
  return guess_ ? mmPer(unit()) / mmPer(guess_->unit) : 1;
}

void UnitRow::choose(LengthUnit unit) {
  chosen_ = unit;
  showUnit();
  Q_EMIT changed();
}

QString UnitRow::said() const {
  return said_->text();
}

QString UnitRow::words() const {
  if (!known_) return {};
  const Eigen::Vector3d size = factor() * sizes_mm_;
  const QString text = sizeText({size.x(), size.y(), size.z()});
  if (!guess_) return tr("Every file says its unit: %1 in all.").arg(text);
  if (chosen_) return tr("%1 in all.").arg(text);
  if (guess_->between) {
    const auto& [first, second] = *guess_->between;
    return tr("%1 or %2? %3 in all if it is mm.").arg(unitWord(first), unitWord(second), text);
  }
  return guess_->sure ? tr("Guessed by the size: %1 in all.").arg(text)
                      : tr("Guessed, and not sure: %1 in all. Is that so?").arg(text);
}

void UnitRow::showUnit() {
  for (std::size_t i = 0; i < kLengthUnits.size(); ++i) {
    buttons_[i]->setChecked(guess_ && kLengthUnits[i] == unit());
    buttons_[i]->setEnabled(guess_.has_value());
  }
  said_->setText(words());
  said_->setVisible(!said_->text().isEmpty());
}

}  // namespace swingroom
