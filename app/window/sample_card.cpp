#include "app/window/sample_card.h"

#include <QPainter>
#include <QtMath>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

/// Narrower where the window is: six side by side in 640 of a page.
constexpr int kCardWide = 117, kCardLeastWide = 98, kPictureHigh = 84, kAround = 8;
constexpr auto kNameFlags = Qt::AlignHCenter | Qt::AlignTop | Qt::TextWordWrap;

}  // namespace

SampleCard::SampleCard(const Sample& sample, QWidget* parent)
    : QAbstractButton(parent), picture_(sample.picture) {
  setText(sample.title);
  setAccessibleName(sample.title);
  setCursor(Qt::PointingHandCursor);
  setFocusPolicy(Qt::StrongFocus);
  setAttribute(Qt::WA_Hover);
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Preferred);  // As high as the highest.
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  setMaximumWidth(kCardWide);
}

double SampleCard::nameHigh(int wide) const {
  const QRectF room(0, 0, wide - 2 * kAround, 200);
  return QFontMetricsF(bodyFont()).boundingRect(room, kNameFlags, text()).height();
}

int SampleCard::heightForWidth(int wide) const {
  const int picture = picture_.isNull() ? 0 : kPictureHigh + kAround;
  return qCeil(2 * kAround + picture + nameHigh(wide));
}

QSize SampleCard::sizeHint() const {
  return {kCardWide, heightForWidth(kCardWide)};
}

QSize SampleCard::minimumSizeHint() const {
  return {kCardLeastWide, heightForWidth(kCardLeastWide)};
}

void SampleCard::paintEvent(QPaintEvent*) {
  const Theme& now = theme();
  QPainter painter(this);
  painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
  const bool near = underMouse() || hasFocus();
  painter.setPen(QPen(near ? now.accent : now.line, hasFocus() ? 2 : 1));
  painter.setBrush(isDown() ? now.chosen : now.view);
  painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 8, 8);
  double y = kAround;
  if (!picture_.isNull()) {
    const QSizeF room(width() - 2 * kAround, kPictureHigh);
    const QSizeF size = QSizeF(picture_.size()).scaled(room, Qt::KeepAspectRatio);
    painter.drawPixmap(
        QRectF(QPointF((width() - size.width()) / 2, y + (kPictureHigh - size.height()) / 2), size),
        picture_, picture_.rect());
    y += kPictureHigh + kAround;
  }
  painter.setFont(bodyFont());
  painter.setPen(now.ink);
  painter.drawText(QRectF(kAround, y, width() - 2 * kAround, height() - y), kNameFlags, text());
}

}  // namespace swingroom
