#include "app/window/forms/print/felt_choice.h"

#include <QHBoxLayout>
#include <QPushButton>

namespace swingroom {

FeltChoice::FeltChoice(const QString& where, const QString& free, QWidget* parent)
    : QWidget(parent) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(4);
  const QString words[] = {tr("stuck"), free, tr("flops")};
  for (std::size_t i = 0; i < buttons_.size(); ++i) {
    auto* button = buttons_[i] = new QPushButton(words[i], this);
    button->setCheckable(true);
    button->setAutoDefault(false);
    button->setProperty("scale", QStringLiteral("small"));
    button->setProperty("look", QStringLiteral("choice"));
    button->setAccessibleName(tr("%1: %2", "where, how it felt").arg(where, words[i]));
    row->addWidget(button);
    connect(button, &QPushButton::clicked, this, [this, i](bool checked) {
      setFelt(checked ? std::optional(static_cast<FeltFit>(i)) : std::nullopt);
      Q_EMIT changed();
    });
  }
}

std::optional<FeltFit> FeltChoice::felt() const {
  for (std::size_t i = 0; i < buttons_.size(); ++i) {
    if (buttons_[i]->isChecked()) return static_cast<FeltFit>(i);
  }
  return std::nullopt;
}

void FeltChoice::setFelt(std::optional<FeltFit> felt) {
  for (std::size_t i = 0; i < buttons_.size(); ++i) {
    buttons_[i]->setChecked(felt == static_cast<FeltFit>(i));
  }
}

}  // namespace swingroom
