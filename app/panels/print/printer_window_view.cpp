#include "app/panels/print/printer_window_view.h"

#include <QPainter>

#include "app/models/print/printer_words.h"
#include "app/panels/theme.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

constexpr double kScaleMarks[] = {0.8, 1.0, 1.2};
constexpr double kGrowthMarks[] = {-0.1, 0.0, 0.1, 0.2, 0.3};

}  // namespace

PrinterWindowView::PrinterWindowView(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  setAccessibleName(tr("Printers on which it passes"));
}

void PrinterWindowView::setWindow(const PrinterWindow& window) {
  window_ = window;
  setAccessibleDescription(printerPointWords(window));
  update();
}

QRectF PrinterWindowView::plot() const {
  const QFontMetricsF label(labelFont());
  const double left = label.horizontalAdvance(QStringLiteral("120 %")) + 8;
  return QRectF(rect()).adjusted(left, 4, -10, -label.height() - 4);
}

QPointF PrinterWindowView::at(double growthMm, double scale) const {
  const QRectF place = plot();
  return {
      place.left() + place.width() * (growthMm - kLeastGrowthMm) / (kMostGrowthMm - kLeastGrowthMm),
      place.bottom() - place.height() * (scale - kLeastScale) / (kMostScale - kLeastScale)};
}

void PrinterWindowView::paintAxes(QPainter& painter) const {
  const Theme& now = theme();
  painter.setFont(labelFont());
  const double high = QFontMetricsF(labelFont()).height();
  const auto line = [&](const QPointF& from, const QPointF& to, bool strong) {
    painter.setPen(QPen(strong ? now.fieldEdge : now.line, 1));
    painter.drawLine(from, to);
  };
  for (const double scale : kScaleMarks) {
    const QPointF left = at(kLeastGrowthMm, scale);
    line(left, at(kMostGrowthMm, scale), scale == 1.0);
    painter.setPen(now.soft);
    painter.drawText(QRectF(0, left.y() - high / 2, left.x() - 6, high),
                     Qt::AlignRight | Qt::AlignVCenter,
                     tr("%1 %").arg(QString::number(qRound(100 * scale))));
  }
  for (const double growth : kGrowthMarks) {
    const QPointF foot = at(growth, kLeastScale);
    line(at(growth, kMostScale), foot, growth == 0.0);
    painter.setPen(now.soft);
    painter.drawText(QRectF(foot.x() - 30, foot.y() + 3, 60, high), Qt::AlignHCenter | Qt::AlignTop,
                     QString::fromStdString(words::shortest(growth)));
  }
}

/// The diamond of the needle: where this process stands.
void PrinterWindowView::paintPoint(QPainter& painter) const {
  const QPointF here = at(window_.expectedGrowthMm, 1);
  constexpr double kReach = 5;
  painter.setPen(QPen(theme().panel, 1.5));
  painter.setBrush(theme().ink);
  painter.drawPolygon(QPolygonF({here + QPointF(0, -kReach), here + QPointF(kReach, 0),
                                 here + QPointF(0, kReach), here + QPointF(-kReach, 0)}));
}

void PrinterWindowView::paintEvent(QPaintEvent*) {
  const Theme& now = theme();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  paintAxes(painter);
  QPolygonF region;
  for (const Eigen::Vector2d& corner : window_.region) region += at(corner.x(), corner.y());
  if (region.size() > 2) {
    QColor fill = now.clear;
    fill.setAlphaF(now.dark ? 0.30F : 0.20F);
    painter.setPen(QPen(now.clear, 1.5));
    painter.setBrush(fill);
    painter.drawPolygon(region);
  }
  paintPoint(painter);
}

}  // namespace swingroom
