#include <QKeyEvent>
#include <QMouseEvent>
#include <QNativeGestureEvent>
#include <QWheelEvent>
#include <cmath>
#include <utility>

#include "app/viewport/tools/select_box.h"
#include "app/viewport/viewport.h"

// The mouse, the touchpad and the keys of the 3D view.
namespace swingroom {
namespace {

constexpr double kTurnDegPerPixel = 0.4;
constexpr double kSteadyPixels = 3;  ///< A click may wander that far.

Eigen::Vector2d placeOf(const QPointF& point) {
  return {point.x(), point.y()};
}

}  // namespace

std::optional<ViewPick> Viewport::pick(const QPointF& place) const {
  return stage_.pick(projection().rayAt(placeOf(place)), !camera_.perspective);
}

std::optional<PaintPick> Viewport::pickPaint(const QPointF& place) const {
  if (paint_.parts().empty()) return std::nullopt;
  const auto hit = pick(place);
  const auto paint = hit ? paint_.meshOf(hit->part.index) : nullptr;
  const auto triangle = paint ? triangleAt(stage_, *hit) : std::nullopt;
  if (!triangle) return std::nullopt;
  const Vector3d p_P = stage_.pose(hit->part.index).inverse() * hit->p_W;
  const auto piece = pieceAt(*paint, *triangle, p_P);
  if (!piece) return std::nullopt;
  return PaintPick{hit->part, paint->surface, *piece, hit->p_W};
}

/// The point under the cursor; beside all parts, the point at the depth of the assembly's middle.
Vector3d Viewport::grabbedAt(const QPointF& place) const {
  if (const auto hit = pick(place)) return hit->p_W;
  const ViewProjection view = projection();
  const ViewBounds bounds = stage_.bounds();
  const double depth = bounds.radiusMm > 0 ? view.depthMm(bounds.centre_W) : camera_.distanceMm();
  return view.pointAt(placeOf(place), std::max(depth, 0.1 * camera_.distanceMm()));
}

void Viewport::mousePressEvent(QMouseEvent* event) {
  const bool left = event->button() == Qt::LeftButton, middle = event->button() == Qt::MiddleButton;
  const bool right = event->button() == Qt::RightButton;
  if (drag_ != Drag::none || (!left && !middle && !right)) return QWidget::mousePressEvent(event);
  setCamera(goal_);
  const bool moves = middle || event->modifiers().testFlag(Qt::ShiftModifier);
  drag_ = right ? Drag::box : moves ? Drag::move : Drag::turn;
  dragged_ = false;
  pressed_ = last_ = event->position();
  if (right) return;
  if (left && grabsSection(pressed_)) return;
  const auto hit = pick(pressed_);
  const ViewBounds bounds = stage_.bounds();
  grabbed_W_ = hit || moves          ? grabbedAt(pressed_)
               : bounds.radiusMm > 0 ? bounds.centre_W
                                     : camera_.p_WTarget;
}

void Viewport::mouseMoveEvent(QMouseEvent* event) {
  if (drag_ == Drag::none) return QWidget::mouseMoveEvent(event);
  const QPointF place = event->position();
  if (!dragged_ && (place - pressed_).manhattanLength() <= kSteadyPixels) return;
  dragged_ = true;
  const QPointF step = place - last_;
  if (drag_ == Drag::box) {
    box_->draw(pressed_, place);
  } else if (drag_ == Drag::section) {
    const double pixels = grabbedHandle_.way.dot(placeOf(place) - placeOf(pressed_));
    Q_EMIT sectionWanted(grabbedPlaceMm_ + pixels * grabbedHandle_.mmPerPixel);
  } else if (drag_ == Drag::turn) {
    setCamera(orbited(camera_, grabbed_W_, radFromDeg(kTurnDegPerPixel * step.x()),
                      radFromDeg(kTurnDegPerPixel * step.y())));
  } else {
    wholeWanted_ = false;
    setCamera(panned(camera_, layoutSize(), grabbed_W_, placeOf(last_), placeOf(place)));
  }
  last_ = place;
}

void Viewport::mouseReleaseEvent(QMouseEvent* event) {
  if (drag_ == Drag::none) return QWidget::mouseReleaseEvent(event);
  if (event->buttons() & (Qt::LeftButton | Qt::MiddleButton | Qt::RightButton)) return;
  const Drag drag = std::exchange(drag_, Drag::none);
  if (drag == Drag::box) return releaseBox(event);
  if (dragged_ || drag == Drag::section || event->button() != Qt::LeftButton) return;
  if (measure_->click(event->position())) return;
  if (pick_->click(event->position(), event->modifiers())) return;
  if (paintTool_->click(event->position())) return;
  const auto hit = pick(event->position());
  Q_EMIT partClicked(hit ? std::optional(hit->part) : std::nullopt, event->modifiers());
}

bool Viewport::grabsSection(const QPointF& place) {
  constexpr double kReachPixels = 14;
  const auto handle = sectionHandle();
  if (!handle || (placeOf(place) - handle->place).norm() > kReachPixels) return false;
  drag_ = Drag::section;
  grabbedHandle_ = *handle;
  grabbedPlaceMm_ = stage_.section()->placeMm;
  return true;
}

void Viewport::releaseBox(QMouseEvent* event) {
  box_->hide();
  if (!dragged_) {
    const auto hit = pick(pressed_);
    Q_EMIT menuWanted(hit ? std::optional(hit->part) : std::nullopt,
                      event->globalPosition().toPoint());
    return;
  }
  Eigen::AlignedBox2d drawn(placeOf(pressed_));
  drawn.extend(placeOf(event->position()));
  Q_EMIT partsBoxed(stage_.partsWithin(drawn, projection()), event->modifiers());
}

void Viewport::contextMenuEvent(QContextMenuEvent* event) {
  // The mouse's own comes with the press; whether that becomes a box is known at its release.
  if (event->reason() != QContextMenuEvent::Mouse)
    Q_EMIT menuWanted(std::nullopt, mapToGlobal(rect().center()));
  event->accept();
}

void Viewport::mouseDoubleClickEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton) return QWidget::mouseDoubleClickEvent(event);
  const auto hit = pick(event->position());
  if (!hit) return fit();
  wholeWanted_ = false;
  moveTo(fitted(goal_, layoutSize(), stage_.outlinePoints(hit->part), 0.2));
}

void Viewport::zoomAt(const QPointF& place, double factor) {
  const double widest = 20 * std::max(stage_.widestBounds().radiusMm, 1.0);
  wholeWanted_ = false;
  setCamera(goal_);
  if (factor > 1 && camera_.spanMm * factor > widest) return;
  setCamera(zoomed(camera_, grabbedAt(place), factor));
}

void Viewport::wheelEvent(QWheelEvent* event) {
  const bool shift = event->modifiers().testFlag(Qt::ShiftModifier);
  // Some systems make a sideways wheel of it when shift is held.
  const int delta =
      event->angleDelta().y() != 0 || !shift ? event->angleDelta().y() : event->angleDelta().x();
  const double turns = delta / 120.0;
  if (turns == 0) return QWidget::wheelEvent(event);
  if (shift && stage_.section()) {
    constexpr double kShare = 0.01;  // Of what is shown, a notch.
    Q_EMIT sectionWanted(stage_.section()->placeMm +
                         turns * kShare * 2 * std::max(stage_.bounds().radiusMm, 1.0));
    return event->accept();
  }
  zoomAt(event->position(), std::pow(0.85, turns));
  event->accept();
}

bool Viewport::event(QEvent* event) {
  if (event->type() == QEvent::NativeGesture) {
    const auto* gesture = static_cast<QNativeGestureEvent*>(event);
    if (gesture->gestureType() == Qt::ZoomNativeGesture) {
      zoomAt(gesture->position(), 1 / std::max(1 + gesture->value(), 0.1));
      return true;
    }
  }
  return QWidget::event(event);
}

void Viewport::keyPressEvent(QKeyEvent* event) {
  const bool plain =
      !(event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
  if (!plain) return QWidget::keyPressEvent(event);
  switch (event->key()) {
    case Qt::Key_F:
      return fit();
    case Qt::Key_P:
      return setPerspective(!perspective());
    case Qt::Key_1:
      return lookFrom(LookFrom::front);
    case Qt::Key_2:
      return lookFrom(LookFrom::back);
    case Qt::Key_3:
      return lookFrom(LookFrom::left);
    case Qt::Key_4:
      return lookFrom(LookFrom::right);
    case Qt::Key_5:
      return lookFrom(LookFrom::top);
    case Qt::Key_6:
      return lookFrom(LookFrom::below);
    default:
      QWidget::keyPressEvent(event);
  }
}

}  // namespace swingroom
