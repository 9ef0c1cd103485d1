#include "app/panels/print/print_tally.h"

#include <QEvent>
#include <QPainter>
#include <cmath>

#include "app/panels/print/print_marks.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kPrintTallyHeight = 28;
constexpr double kPrintTallyMark = 14, kPrintPad = 8, kPrintBetween = 7;
/// The hairline before it, which parts it from the verdicts.
constexpr double kPrintLine = 9;

QFont printNumberFont() {
  QFont font = bodyFont();
  font.setWeight(QFont::Bold);
  return font;
}

}  // namespace

PrintTally::PrintTally(QWidget* parent) : QAbstractButton(parent) {
  setCursor(Qt::PointingHandCursor);
  setFocusPolicy(Qt::TabFocus);
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  setStanding({});
}

void PrintTally::setStanding(const PrintStanding& standing) {
  standing_ = standing;
  const QString said = asPrintedWords(standing);
  setAccessibleName(said);
  setToolTip(tr("%1. Shows the page of the print checks", "as printed: 3 findings").arg(said));
  updateGeometry();
  update();
}

QString PrintTally::number() const {
  return standing_.state == PrintState::found ? QString::number(standing_.findings) : QString();
}

QString PrintTally::words() const {
  switch (standing_.state) {
    case PrintState::passes:
      return tr("passes as printed");
    case PrintState::found:
      return tr("as printed");
    case PrintState::beingChecked:
      return tr("as printed…");
    default:
      return tr("as printed: not checked");
  }
}

double PrintTally::wide(bool withWords) const {
  double wide = kPrintLine + 2 * kPrintPad + kPrintTallyMark;
  if (!number().isEmpty())
    wide += kPrintBetween + QFontMetricsF(printNumberFont()).horizontalAdvance(number());
  if (withWords) wide += kPrintBetween + QFontMetricsF(bodyFont()).horizontalAdvance(words());
  return std::ceil(wide);
}

QSize PrintTally::sizeHint() const {
  return {static_cast<int>(wide(true)), kPrintTallyHeight};
}
QSize PrintTally::minimumSizeHint() const {
  return {static_cast<int>(wide(false)), kPrintTallyHeight};
}

void PrintTally::paintEvent(QPaintEvent*) {
  const Theme& now = theme();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(QRectF(kPrintLine / 2, 4, 1, height() - 8), now.line);
  const QRectF button = QRectF(rect()).adjusted(kPrintLine, 0, 0, 0);
  if (underMouse() || isDown()) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(isDown() ? now.chosen : now.hover);
    painter.drawRoundedRect(button, 6, 6);
  }
  double x = button.left() + kPrintPad;
  paintPrintMark(painter, {x, (height() - kPrintTallyMark) / 2, kPrintTallyMark, kPrintTallyMark},
                 markOf(standing_));
  x += kPrintTallyMark + kPrintBetween;
  const auto write = [&](const QString& text, const QFont& font, const QColor& ink) {
    if (text.isEmpty()) return;
    painter.setFont(font);
    painter.setPen(ink);
    const double room = QFontMetricsF(font).horizontalAdvance(text);
    painter.drawText(QRectF(x, 0, room + 2, height()), Qt::AlignLeft | Qt::AlignVCenter, text);
    x += room + kPrintBetween;
  };
  write(number(), printNumberFont(), now.ink);
  if (width() >= wide(true)) write(words(), bodyFont(), now.soft);
  if (!hasFocus()) return;
  painter.setPen(QPen(now.accent, 2));
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(button.adjusted(1, 1, -1, -1), 6, 6);
}

void PrintTally::changeEvent(QEvent* event) {
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::FontChange) updateGeometry();
  QAbstractButton::changeEvent(event);
}

}  // namespace swingroom
