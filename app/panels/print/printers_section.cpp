#include "app/panels/print/printers_section.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/models/print/printer_words.h"
#include "app/panels/plain_widgets.h"
#include "app/panels/print/printer_window_view.h"

namespace swingroom {

PrintersSection::PrintersSection(QWidget* parent) : QWidget(parent) {
  heading_ = quietButton(tr("Printers"),
                         tr("Growth and scale at which all that is looked at is kept"), this);
  heading_->setCheckable(true);
  heading_->setMinimumWidth(40);
  growth_ = softText(QString(), this);
  drawing_ = new PrinterWindowView(this);
  scale_ = softText(QString(), this);
  auto* row = new QHBoxLayout;
  row->addWidget(heading_);
  row->addStretch(1);
  auto* inside = new QVBoxLayout;
  inside->setContentsMargins(16, 0, 12, 4);
  inside->setSpacing(6);
  inside->addWidget(growth_);
  inside->addWidget(drawing_);
  inside->addWidget(scale_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2);
  column->addLayout(row);
  column->addLayout(inside);
  connect(heading_, &QPushButton::toggled, this, &PrintersSection::show);
  show();
}

void PrintersSection::setWindow(const PrinterWindow& window) {
  if (window == window_) return;
  window_ = window;
  show();
}

QString PrintersSection::text() const {
  if (window_.limits.empty()) return {};
  return QStringList{growthWords(window_), printerPointWords(window_), scaleWords(window_)}.join(
             QLatin1Char('\n')) +
         QLatin1Char('\n');
}

void PrintersSection::show() {
  const bool open = heading_->isChecked();
  heading_->setText(tr("%1, %2", "a heading and what is in it")
                        .arg(tr("Printers"), growthSpanWords(window_)));
  growth_->setText(growthWords(window_));
  drawing_->setWindow(window_);
  scale_->setText(printerPointWords(window_) + QLatin1Char('\n') + scaleWords(window_));
  for (QWidget* widget : {static_cast<QWidget*>(growth_), static_cast<QWidget*>(drawing_),
                          static_cast<QWidget*>(scale_)})
    widget->setVisible(open);
  setVisible(!window_.limits.empty());
}

}  // namespace swingroom
