#include "app/window/notices/news_line.h"

#include <QPainter>

#include "app/panels/marks.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kMarkPx = 13, kToWordsPx = 22, kEdgePx = 4;

}  // namespace

NewsLine::NewsLine(const ChangeLine& line, QWidget* parent)
    : QAbstractButton(parent), verdict_(line.verdict) {
  setText(line.text);
  setAccessibleName(line.text);
  setAccessibleDescription(verdictWord(line.verdict));
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  setFocusPolicy(Qt::TabFocus);
  setEnabled(line.instant.has_value());
  if (isEnabled()) setCursor(Qt::PointingHandCursor);
}

QRect NewsLine::words(int width) const {
  const QRect room(0, 0, std::max(40, width - kToWordsPx - kEdgePx), 10'000);
  return QFontMetrics(bodyFont()).boundingRect(room, Qt::TextWordWrap, text());
}

int NewsLine::heightForWidth(int width) const {
  return words(width).height() + 2 * kEdgePx;
}

QSize NewsLine::sizeHint() const {
  return {320, heightForWidth(320)};
}

void NewsLine::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  if (underMouse() && isEnabled()) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(theme().hover);
    painter.drawRoundedRect(rect(), 4, 4);
  }
  const int mark = std::min(kMarkPx, height());
  paintMark(painter, QRectF(2, kEdgePx + 2, mark, mark), verdict_);
  painter.setFont(bodyFont());
  painter.setPen(theme().ink);
  painter.drawText(rect().adjusted(kToWordsPx, kEdgePx, -kEdgePx, 0), Qt::TextWordWrap, text());
  if (!hasFocus()) return;
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(theme().accent, 2));
  painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 4, 4);
}

void NewsLine::enterEvent(QEnterEvent*) {
  update();
}

void NewsLine::leaveEvent(QEvent*) {
  update();
}

}  // namespace swingroom
