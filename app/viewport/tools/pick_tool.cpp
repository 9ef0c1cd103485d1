#include "app/viewport/tools/pick_tool.h"

#include <QKeyEvent>
#include <QLabel>
#include <QMouseEvent>

#include "app/viewport/viewport.h"

namespace swingroom {

PickTool::PickTool(Viewport& view, std::function<std::optional<PickSpot>(const QPointF&)> spot,
                   std::function<void()> changed)
    : QObject(&view),
      view_(view),
      spot_(std::move(spot)),
      changed_(std::move(changed)),
      words_(new QLabel(&view)) {
  words_->setProperty("card", QStringLiteral("plain"));
  words_->setProperty("look", QStringLiteral("words"));
  words_->setContentsMargins(8, 4, 8, 4);
  words_->setAttribute(Qt::WA_TransparentForMouseEvents);
  words_->hide();
  view.installEventFilter(this);
}

void PickTool::setOn(bool on) {
  if (on == on_) return;
  on_ = on;
  under_.reset();
  words_->hide();
  on ? view_.setCursor(Qt::CrossCursor) : view_.unsetCursor();
  if (on) view_.setFocus(Qt::OtherFocusReason);
  changed_();
  Q_EMIT onChanged(on);
}

QString PickTool::words() const {
  return words_->isHidden() ? QString() : words_->text();
}

void PickTool::setWords(const QString& words) {
  words_->setText(words);
  words_->setVisible(on_ && !words.isEmpty());
  words_->adjustSize();
  placeWords(pointer_);
}

/// Beside the pointer, on the side with more room.
void PickTool::placeWords(const QPointF& pointer) {
  constexpr int kAsidePx = 18;
  QPoint place = pointer.toPoint() + QPoint(kAsidePx, kAsidePx);
  if (place.x() + words_->width() > view_.width()) place.rx() -= words_->width() + 2 * kAsidePx;
  if (place.y() + words_->height() > view_.height()) place.ry() -= words_->height() + 2 * kAsidePx;
  words_->move(std::max(place.x(), 0), std::max(place.y(), 0));
  words_->raise();
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
    pointer_ = mouse->position();
    if (!words_->isHidden()) placeWords(pointer_);
    hover(mouse->buttons() == Qt::NoButton ? spot_(pointer_) : std::nullopt);
  } else if (event->type() == QEvent::Leave) {
    hover(std::nullopt);
    words_->hide();
  } else if (event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride) {
    if (static_cast<QKeyEvent*>(event)->key() != Qt::Key_Escape) return false;
    event->accept();
    if (event->type() == QEvent::KeyPress) Q_EMIT escaped();
    return true;
  }
  return false;
}

}  // namespace swingroom
