#include "app/viewport/tools/select_box.h"

#include <QPainter>

namespace swingroom {

SelectBox::SelectBox(QWidget* parent) : QWidget(parent) {
  setAttribute(Qt::WA_TransparentForMouseEvents);
  setFocusPolicy(Qt::NoFocus);
  hide();
}

void SelectBox::setColour(const QColor& colour) {
  colour_ = colour;
  update();
}

void SelectBox::draw(const QPointF& from, const QPointF& to) {
  setGeometry(QRectF(from, to).normalized().toAlignedRect().intersected(parentWidget()->rect()));
  raise();
  show();
}

void SelectBox::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  QColor fill = colour_;
  fill.setAlphaF(0.10F);
  painter.setPen(QPen(colour_, 1));
  painter.setBrush(fill);
  painter.drawRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5));
}

}  // namespace swingroom
