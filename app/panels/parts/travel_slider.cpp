#include "app/panels/parts/travel_slider.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>
#include <utility>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr double kKnobPx = 7;  ///< Radius.
constexpr int kSliderHeightPx = 26;

}  // namespace

TravelSlider::TravelSlider(QWidget* parent) : QSlider(Qt::Horizontal, parent) {
  setRange(0, kNotches);
  setSingleStep(kNotches / 100);
  setPageStep(kNotches / 20);
  setAttribute(Qt::WA_Hover);
  // By assistive technology.
  connect(this, &QSlider::valueChanged, this, [this](int notch) {
    if (!taken_) Q_EMIT wanted(static_cast<double>(notch) / kNotches);
  });
}

QSize TravelSlider::sizeHint() const {
  return {140, kSliderHeightPx};
}

QSize TravelSlider::minimumSizeHint() const {
  return {60, kSliderHeightPx};
}

void TravelSlider::setMarks(const TravelMarks& marks) {
  if (std::exchange(marks_, marks) != marks) update();
}

void TravelSlider::setStand(double share) {
  share = std::clamp(share, 0.0, 1.0);
  if (std::exchange(stand_, share) != share) update();
  const QSignalBlocker quiet(this);
  setValue(static_cast<int>(std::lround(share * kNotches)));
}

double TravelSlider::xAt(double share) const {
  return kKnobPx + 1 + share * (width() - 2 * (kKnobPx + 1));
}

double TravelSlider::shareAt(double x) const {
  const double room = width() - 2 * (kKnobPx + 1);
  return room > 0 ? std::clamp((x - kKnobPx - 1) / room, 0.0, 1.0) : 0;
}

void TravelSlider::paintGroove(QPainter& painter) const {
  const Theme& now = theme();
  const double middle = height() / 2.0;
  const auto bar = [&](double from, double to, double thick, const QColor& colour) {
    painter.setBrush(colour);
    painter.drawRoundedRect(QRectF(from, middle - thick / 2, to - from, thick), thick / 2,
                            thick / 2);
  };
  painter.setPen(Qt::NoPen);
  bar(xAt(0), xAt(1), 4, now.line);
  const bool known = marks_.freeFrom && marks_.freeTo;
  if (known && isEnabled()) bar(xAt(*marks_.freeFrom), xAt(*marks_.freeTo), 4, now.accent);
  for (const double click : marks_.clicks) {
    painter.fillRect(QRectF(xAt(click) - 0.5, middle + 5, 1, 5), now.soft);
  }
  if (!known) return;
  const auto stop = [&](double share) {
    painter.setBrush(now.clash);
    painter.drawRoundedRect(QRectF(xAt(share) - 1.5, middle - 9, 3, 18), 1.5, 1.5);
  };
  if (marks_.touchesBelow) stop(*marks_.freeFrom);
  if (marks_.touchesAbove) stop(*marks_.freeTo);
}

void TravelSlider::paintHandle(QPainter& painter) const {
  const Theme& now = theme();
  const QPointF middle(xAt(stand_), height() / 2.0);
  const bool over = underMouse() || taken_;
  painter.setPen(QPen(!isEnabled() ? now.fieldEdge : hasFocus() ? now.accent : now.ink, 2));
  painter.setBrush(over && isEnabled() ? now.chosen : now.panel);
  painter.drawEllipse(middle, kKnobPx - 1, kKnobPx - 1);
  if (!hasFocus()) return;
  painter.setPen(QPen(now.accent, 1));
  painter.setBrush(Qt::NoBrush);
  painter.drawEllipse(middle, kKnobPx + 2, kKnobPx + 2);
}

void TravelSlider::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  paintGroove(painter);
  paintHandle(painter);
}

void TravelSlider::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton) return event->ignore();
  const double x = event->position().x(), off = x - xAt(stand_);
  // On the knob it comes along from where it is held; elsewhere it comes to the mouse.
  const bool onKnob = std::abs(off) <= kKnobPx + 2;
  grabbedOffPx_ = onKnob ? off : 0;
  taken_ = true;
  setSliderDown(true);
  Q_EMIT taken();
  if (!onKnob) Q_EMIT wanted(shareAt(x));
  update();
}

void TravelSlider::mouseMoveEvent(QMouseEvent* event) {
  if (!taken_) return event->ignore();
  Q_EMIT wanted(shareAt(event->position().x() - grabbedOffPx_));
}

void TravelSlider::mouseReleaseEvent(QMouseEvent* event) {
  if (!taken_ || event->button() != Qt::LeftButton) return event->ignore();
  taken_ = false;
  setSliderDown(false);
  Q_EMIT letGo();
  update();
}

bool TravelSlider::event(QEvent* event) {
  // While it is held Escape is for it, whatever else the window does by that key.
  if (event->type() == QEvent::ShortcutOverride && taken_ &&
      static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
    event->accept();
    return true;
  }
  return QSlider::event(event);
}

void TravelSlider::keyPressEvent(QKeyEvent* event) {
  if (taken_) {
    if (event->key() != Qt::Key_Escape) return;
    taken_ = false;
    setSliderDown(false);
    Q_EMIT putBackWanted();
    return update();
  }
  const auto go = [&](double share) { Q_EMIT wanted(std::clamp(share, 0.0, 1.0)); };
  const double step =
      1.0 * (event->modifiers().testFlag(Qt::ShiftModifier) ? 1 : singleStep()) / kNotches;
  switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_Down:
      return go(stand_ - step);
    case Qt::Key_Right:
    case Qt::Key_Up:
      return go(stand_ + step);
    case Qt::Key_PageDown:
      return go(stand_ - 1.0 * pageStep() / kNotches);
    case Qt::Key_PageUp:
      return go(stand_ + 1.0 * pageStep() / kNotches);
    case Qt::Key_Home:
      return go(0);
    case Qt::Key_End:
      return go(1);
    default:
      QWidget::keyPressEvent(event);
  }
}

void TravelSlider::wheelEvent(QWheelEvent* event) {
  event->ignore();  // A panel that scrolls must not move what it passes.
}

}  // namespace swingroom
