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
  setToolTip(tr("%1. Shows the page of the print checks", "as printed: 3 findings, 2 hints").arg(said));
  updateGeometry();
  update();
}

QString PrintTally::words(Words words) const {
  switch (words) {
    case Words::all:
      return asPrintedWords(standing_);
    case Words::outcome:
      return printOutcomeWords(standing_);
    case Words::findings:
      return printOutcomeWords(standing_, false);
    case Words::none:
      break;
  }
  return {};
}

double PrintTally::wide(Words words) const {
  const QString text = this->words(words);
  const double room =
      text.isEmpty() ? 0 : kPrintBetween + QFontMetricsF(bodyFont()).horizontalAdvance(text);
  return std::ceil(kPrintLine + 2 * kPrintPad + kPrintTallyMark + room);
}

QSize PrintTally::sizeHint() const {
  return {static_cast<int>(wide(Words::all)), kPrintTallyHeight};
}
QSize PrintTally::minimumSizeHint() const {
  return {static_cast<int>(wide(Words::none)), kPrintTallyHeight};
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
  for (const Words words : {Words::all, Words::outcome, Words::findings}) {
    if (width() < wide(words)) continue;
    painter.setFont(bodyFont());
    painter.setPen(now.ink);
    painter.drawText(QRectF(x, 0, width() - x, height()), Qt::AlignLeft | Qt::AlignVCenter,
                     this->words(words));
    break;
  }
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
