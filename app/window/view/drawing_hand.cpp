#include "app/window/view/drawing_hand.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <utility>

namespace swingroom {

DrawingHand::DrawingHand(Viewport& view) : view_(view) {
  view.installEventFilter(this);
  connect(&view.measure(), &MeasureTool::onChanged, this, [this](bool on) {
    if (on) setUse(Use::none);
  });
}

void DrawingHand::setUse(Use use) {
  held_.reset();
  points_.clear();
  if (use != Use::none) view_.measure().setOn(false);
  if (std::exchange(use_, use) != use) {
    if (use == Use::none) view_.unsetCursor();
    if (use == Use::move) view_.setCursor(Qt::SizeAllCursor);
    if (use == Use::points) view_.setCursor(Qt::CrossCursor);
    Q_EMIT useChanged();
  }
  Q_EMIT pointsChanged();
}

bool DrawingHand::isFaced() const {
  constexpr double kSame = 0.99995;
  const ViewCamera& camera = view_.camera();
  return !camera.perspective && camera.towards_W().dot(axes_.away_W) > kSame &&
         camera.upward_W().dot(axes_.up_W) > kSame;
}

Eigen::Vector2d DrawingHand::placeOf(const QPointF& pixel) const {
  const ViewProjection seen = view_.projection();
  return axes_.inView(seen.pointAt({pixel.x(), pixel.y()}, seen.camera().distanceMm()));
}

bool DrawingHand::press(const QPointF& pixel) {
  if (use_ == Use::move) {
    held_ = placeOf(pixel);
  } else {
    if (points_.size() >= 2) points_.clear();
    points_.push_back(placeOf(pixel));
    Q_EMIT pointsChanged();
  }
  return true;
}

bool DrawingHand::eventFilter(QObject*, QEvent* event) {
  if (use_ == Use::none) return false;
  if (event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride) {
    if (static_cast<QKeyEvent*>(event)->key() != Qt::Key_Escape) return false;
    event->accept();
    if (event->type() == QEvent::KeyPress) setUse(Use::none);
    return true;
  }
  const bool mouse = event->type() == QEvent::MouseButtonPress ||
                     event->type() == QEvent::MouseMove ||
                     event->type() == QEvent::MouseButtonRelease;
  if (!mouse) return false;
  const auto& at = static_cast<const QMouseEvent&>(*event);
  if (event->type() == QEvent::MouseButtonPress) {
    pressed_ = at.button() == Qt::LeftButton && isFaced();
    return pressed_ && press(at.position());
  }
  if (event->type() == QEvent::MouseMove) {
    if (held_) Q_EMIT dragged(placeOf(at.position()) - *held_);
    return pressed_;
  }
  if (at.button() != Qt::LeftButton) return false;
  if (std::exchange(held_, std::nullopt)) Q_EMIT dropped();
  return std::exchange(pressed_, false);
}

}  // namespace swingroom
