#include "app/viewport/tools/pointer_words.h"

#include <QLabel>
#include <algorithm>

namespace swingroom {

PointerWords::PointerWords(QWidget& view) : view_(view), label_(new QLabel(&view)) {
  label_->setProperty("card", QStringLiteral("plain"));
  label_->setProperty("look", QStringLiteral("words"));
  label_->setContentsMargins(8, 4, 8, 4);
  label_->setAttribute(Qt::WA_TransparentForMouseEvents);
  label_->hide();
}

void PointerWords::show(const QString& words) {
  label_->setText(words);
  label_->setVisible(!words.isEmpty());
  label_->adjustSize();
  moveTo(pointer_);
}

QString PointerWords::shown() const {
  return label_->isHidden() ? QString() : label_->text();
}

void PointerWords::moveTo(const QPointF& pointer) {
  constexpr int kAsidePx = 18;
  pointer_ = pointer;
  if (label_->isHidden()) return;
  QPoint place = pointer.toPoint() + QPoint(kAsidePx, kAsidePx);
  if (place.x() + label_->width() > view_.width()) place.rx() -= label_->width() + 2 * kAsidePx;
  if (place.y() + label_->height() > view_.height()) place.ry() -= label_->height() + 2 * kAsidePx;
  label_->move(std::max(place.x(), 0), std::max(place.y(), 0));
  label_->raise();
}

}  // namespace swingroom
