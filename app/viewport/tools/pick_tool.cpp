#include "app/viewport/tools/pick_tool.h"

#include <QKeyEvent>
#include <QMouseEvent>

#include "app/viewport/viewport.h"

namespace swingroom {

PickTool::PickTool(Viewport& view, std::function<std::optional<PickSpot>(const QPointF&)> spot,
                   std::function<void()> changed)
    : QObject(&view),
      view_(view),
      spot_(std::move(spot)),
      changed_(std::move(changed)),
      words_(view) {
  view.installEventFilter(this);
}

void PickTool::setOn(bool on) {
  if (on == on_) return;
  on_ = on;
  under_.reset();
  words_.show(QString());
  on ? view_.setCursor(Qt::CrossCursor) : view_.unsetCursor();
  if (on) view_.setFocus(Qt::OtherFocusReason);
  changed_();
  Q_EMIT onChanged(on);
}

void PickTool::setWords(const QString& words) {
  words_.show(on_ ? words : QString());
}

bool PickTool::click(const QPointF& place, Qt::KeyboardModifiers modifiers) {
  if (!on_) return false;
  const auto spot = spot_(place);
  if (spot) Q_EMIT clicked(*spot, modifiers);
  return true;
}

std::vector<SnapPoint> PickTool::marks() const {
  if (!on_ || !under_) return {};
  return {under_->snap};
}

void PickTool::hover(const std::optional<PickSpot>& spot) {
  if (spot == under_) return;
  under_ = spot;
  changed_();
  Q_EMIT hovered(under_);
}

bool PickTool::eventFilter(QObject*, QEvent* event) {
  if (!on_) return false;
  if (event->type() == QEvent::MouseMove) {
    const auto* mouse = static_cast<QMouseEvent*>(event);
    words_.moveTo(mouse->position());
    hover(mouse->buttons() == Qt::NoButton ? spot_(mouse->position()) : std::nullopt);
  } else if (event->type() == QEvent::Leave) {
    hover(std::nullopt);
    words_.show(QString());
  } else if (event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride) {
    if (static_cast<QKeyEvent*>(event)->key() != Qt::Key_Escape) return false;
    event->accept();
    if (event->type() == QEvent::KeyPress) Q_EMIT escaped();
    return true;
  }
  return false;
}

}  // namespace swingroom
