#include "app/window/forms/place_row.h"

#include <QHBoxLayout>

namespace swingroom {

QWidget* placeRow(QLineEdit* line, QPushButton* button) {
  auto* both = new QWidget;
  auto* row = new QHBoxLayout(both);
  row->setContentsMargins(0, 0, 0, 0);
  row->addWidget(line, 1);
  row->addWidget(button);
  return both;
}

}  // namespace swingroom
