#include "app/panels/plain_widgets.h"

namespace swingroom {

QLabel* labelOf(const QString& text, const char* role, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  label->setProperty("role", QString::fromLatin1(role));
  return label;
}

void keepPlace(QWidget* widget) {
  QSizePolicy policy = widget->sizePolicy();
  policy.setRetainSizeWhenHidden(true);
  widget->setSizePolicy(policy);
}

QLabel* softText(const QString& text, QWidget* parent) {
  QLabel* label = labelOf(text, "soft", parent);
  label->setWordWrap(true);
  return label;
}

QPushButton* quietButton(const QString& text, const QString& tip, QWidget* parent) {
  auto* button = new QPushButton(text, parent);
  button->setProperty("look", QStringLiteral("quiet"));
  button->setToolTip(tip);
  return button;
}

QPushButton* cardButton(const QString& text, const QString& tip, QWidget* parent) {
  QPushButton* button = quietButton(text, tip, parent);
  button->setFocusPolicy(Qt::TabFocus);
  button->setAccessibleDescription(tip);
  return button;
}

QScrollArea* scrolledColumn(QWidget* column, QWidget* parent, int leastHeight) {
  auto* scroll = new QScrollArea(parent);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setWidgetResizable(true);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setMinimumHeight(leastHeight);
  if (column) scroll->setWidget(column);
  return scroll;
}

}  // namespace swingroom
