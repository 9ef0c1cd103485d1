#include "app/viewport/paint/paint_tool.h"

#include <QMouseEvent>

#include "app/viewport/viewport.h"

namespace swingroom {

PaintTool::PaintTool(Viewport& view, std::function<std::optional<PaintPick>(const QPointF&)> pick)
    : QObject(&view), pick_(std::move(pick)), words_(view) {
  view.installEventFilter(this);
}

void PaintTool::setWords(const QString& words) {
  words_.show(over_ ? words : QString());
}

void PaintTool::hover(const std::optional<PaintPick>& pick) {
  if (!pick && !over_) return;
  over_ = pick.has_value();
  if (!over_) words_.show(QString());
  Q_EMIT hovered(pick);
}

void PaintTool::lookAgain() {
  hover(pointer_ ? pick_(*pointer_) : std::nullopt);
}

bool PaintTool::click(const QPointF& place) {
  const auto pick = takesClicks_ ? pick_(place) : std::nullopt;
  if (pick) Q_EMIT clicked(*pick);
  return pick.has_value();
}

bool PaintTool::eventFilter(QObject*, QEvent* event) {
  if (event->type() == QEvent::MouseMove) {
    const auto* mouse = static_cast<QMouseEvent*>(event);
    words_.moveTo(mouse->position());
    pointer_.reset();
    if (mouse->buttons() == Qt::NoButton) pointer_ = mouse->position();
    lookAgain();
  } else if (event->type() == QEvent::Leave || event->type() == QEvent::MouseButtonPress) {
    pointer_.reset();
    lookAgain();
  }
  return false;
}

}  // namespace swingroom
