#include "app/viewport/tools/handle_layer.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <utility>

#include "app/viewport/viewport.h"

namespace swingroom {
namespace {

Eigen::Vector2d pixelOf(const QMouseEvent& event) {
  return {event.position().x(), event.position().y()};
}

}  // namespace

HandleLayer::HandleLayer(Viewport& view, std::function<void()> changed)
    : QObject(&view), view_(view), changed_(std::move(changed)) {
  view.installEventFilter(this);
  view.setMouseTracking(true);
}

void HandleLayer::setHandles(const std::vector<ViewHandle>& handles) {
  if (handles == handles_) return;
  handles_ = handles;
  if (held_ && *held_ >= handles_.size()) drop();
  if (hot_ && *hot_ >= handles_.size()) hover(std::nullopt);
  changed_();
}

std::vector<DrawnHandle> HandleLayer::drawn() const {
  std::vector<DrawnHandle> drawn;
  for (std::size_t i = 0; i < handles_.size(); ++i) {
    // While one is held the others stand back.
    if (held_ && held_ != i) continue;
    drawn.push_back({handles_[i], hot_ == i, held_ == i});
  }
  return drawn;
}

bool HandleLayer::eventFilter(QObject*, QEvent* event) {
  switch (event->type()) {
    case QEvent::MouseButtonPress:
    case QEvent::MouseButtonDblClick:
      return press(*static_cast<QMouseEvent*>(event));
    case QEvent::MouseMove:
      return move(*static_cast<QMouseEvent*>(event));
    case QEvent::MouseButtonRelease:
      return release(*static_cast<QMouseEvent*>(event));
    case QEvent::Leave:
      if (!held_) hover(std::nullopt);
      return false;
    case QEvent::ShortcutOverride:
    case QEvent::KeyPress: {
      if (!held_ || static_cast<QKeyEvent*>(event)->key() != Qt::Key_Escape) return false;
      event->accept();
      if (event->type() == QEvent::KeyPress) cancel();
      return true;
    }
    default:
      return false;
  }
}

bool HandleLayer::press(const QMouseEvent& event) {
  if (held_) return true;
  const bool takes = event.button() == Qt::LeftButton && !view_.measure().isOn() && !view_.picking().isOn();
  if (!takes || handles_.empty()) return false;
  const ViewProjection seen = view_.projection();
  const auto under = handleAt(handles_, seen, pixelOf(event));
  if (!under) return false;
  view_.setCamera(view_.camera());  // A move of the eye under way ends here.
  hover(under);
  held_ = under;
  drag_.emplace(handles_[*under], seen, pixelOf(event));
  view_.setCursor(Qt::ClosedHandCursor);
  Q_EMIT pressed(static_cast<int>(*under));
  changed_();
  return true;
}

bool HandleLayer::move(const QMouseEvent& event) {
  if (held_) {
    const bool fine = event.modifiers().testFlag(Qt::ShiftModifier);
    const double value = drag_->moveTo(pixelOf(event), view_.projection(), fine);
    Q_EMIT dragged(static_cast<int>(*held_), value, event.modifiers());
    return true;
  }
  if (view_.measure().isOn() || view_.picking().isOn()) return false;
  if (event.buttons() == Qt::NoButton)
    hover(handleAt(handles_, view_.projection(), pixelOf(event)));
  return false;
}

bool HandleLayer::release(const QMouseEvent& event) {
  if (!held_) return false;
  if (event.button() != Qt::LeftButton) return true;
  const int handle = static_cast<int>(*held_);
  drop();
  Q_EMIT released(handle);
  return true;
}

void HandleLayer::cancel() {
  const int handle = static_cast<int>(*held_);
  drop();
  Q_EMIT cancelled(handle);
}

void HandleLayer::drop() {
  held_.reset();
  drag_.reset();
  hover(std::nullopt);
  changed_();
}

void HandleLayer::hover(std::optional<std::size_t> handle) {
  if (!handle && hot_) view_.unsetCursor();
  if (handle && !held_) view_.setCursor(Qt::OpenHandCursor);
  if (std::exchange(hot_, handle) != handle) changed_();
}

}  // namespace swingroom
