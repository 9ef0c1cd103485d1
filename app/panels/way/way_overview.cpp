#include "app/panels/way/way_overview.h"

#include <QMouseEvent>
#include <QPainter>
#include <algorithm>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kOverviewHeight = 14;
constexpr double kThumbHigh = 8, kLeastThumbPx = 14;

}  // namespace

WayOverview::WayOverview(QWidget* parent) : QWidget(parent) {
  setFixedHeight(kOverviewHeight);
  setCursor(Qt::OpenHandCursor);
  setAccessibleName(tr("Which part of the way is seen"));
}

void WayOverview::setAxis(const WayAxis& axis) {
  axis_ = axis;
  const QString seen =
      tr("Instants %1 to %2 are seen").arg(axis.from, 0, 'f', 2).arg(axis.to, 0, 'f', 2);
  setAccessibleDescription(seen);
  setToolTip(tr("%1. Drag to see others; double click for the whole way").arg(seen));
  update();
}

void WayOverview::setSteps(std::size_t steps) {
  steps_ = steps;
  update();
}

void WayOverview::setInstant(double instant) {
  instant_ = instant;
  update();
}

QRectF WayOverview::thumb() const {
  const double left = whole().xAt(axis_.from);
  const double wide = std::max(kLeastThumbPx, axis_.span() * axis_.width);
  return {std::min(left, axis_.right() - wide), (height() - kThumbHigh) / 2, wide, kThumbHigh};
}

void WayOverview::paintEvent(QPaintEvent*) {
  const Theme& now = theme();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const double middle = height() / 2.0;
  painter.setPen(Qt::NoPen);
  painter.setBrush(now.line);
  painter.drawRoundedRect(QRectF(axis_.left, middle - 1.5, axis_.width, 3), 1.5, 1.5);
  painter.setBrush(mixed(now.panel, now.accent, 0.22));
  painter.setPen(QPen(now.accent, 1));
  painter.drawRoundedRect(thumb().adjusted(0.5, 0.5, -0.5, -0.5), 4, 4);
  painter.setPen(Qt::NoPen);
  painter.setBrush(now.soft);
  for (std::size_t s = 1; s < steps_; ++s) {
    const double x = whole().xAt(static_cast<double>(s) / static_cast<double>(steps_));
    painter.drawEllipse(QPointF(x, middle), 1.5, 1.5);
  }
  painter.setPen(QPen(now.ink, 1.5, Qt::SolidLine, Qt::FlatCap));
  const double x = whole().xAt(instant_);
  painter.drawLine(QPointF(x, 1), QPointF(x, height() - 1));
}

void WayOverview::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton) return event->ignore();
  const double x = event->position().x();
  const QRectF now = thumb();
  // Beside the thumb: it comes under the pointer.
  grip_ = x >= now.left() && x <= now.right() ? x - now.left() : now.width() / 2;
  setCursor(Qt::ClosedHandCursor);
  mouseMoveEvent(event);
}

void WayOverview::mouseMoveEvent(QMouseEvent* event) {
  if (!grip_) return;
  Q_EMIT panWanted((event->position().x() - *grip_ - axis_.left) / axis_.width);
}

void WayOverview::mouseReleaseEvent(QMouseEvent*) {
  grip_.reset();
  setCursor(Qt::OpenHandCursor);
}

void WayOverview::mouseDoubleClickEvent(QMouseEvent* event) {
  if (event->button() == Qt::LeftButton) Q_EMIT wholeWanted();
}

void WayOverview::changeEvent(QEvent* event) {
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::PaletteChange) update();
  QWidget::changeEvent(event);
}

}  // namespace swingroom
