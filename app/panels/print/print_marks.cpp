#include "app/panels/print/print_marks.h"

#include <QPainter>
#include <algorithm>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr double kLayerHigh = 3.4, kLayerStep = 4.8, kLayerTop = 1.4;
constexpr double kLayerLeft = 2, kLayerWide = 12, kSlipped = 3.2;

QRectF layer(int row, double slipped = 0) {
  return {kLayerLeft + slipped, kLayerTop + row * kLayerStep, kLayerWide, kLayerHigh};
}

void fillLayer(QPainter& painter, const QRectF& place, const QColor& colour) {
  painter.setPen(Qt::NoPen);
  painter.setBrush(colour);
  painter.drawRoundedRect(place, 1, 1);
}

void outlineLayer(QPainter& painter, const QRectF& place, const QColor& colour) {
  painter.setPen(QPen(colour, 1));
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(place.adjusted(0.5, 0.5, -0.5, -0.5), 0.6, 0.6);
}

void paintLayers(QPainter& painter, PrintMark mark) {
  const Theme& now = theme();
  for (int row = 0; row < 3; ++row) {
    switch (mark) {
      case PrintMark::passes:
        fillLayer(painter, layer(row), now.clear);
        break;
      case PrintMark::finding:
        // To both sides, so that the mark stands in the middle.
        fillLayer(painter, layer(row, row == 1 ? kSlipped / 2 : -kSlipped / 2), now.clash);
        break;
      case PrintMark::hint:
        row == 1 ? outlineLayer(painter, layer(row), now.unproven)
                 : fillLayer(painter, layer(row), now.unproven);
        break;
      case PrintMark::open:
        outlineLayer(painter, layer(row), now.unproven);
        break;
    }
  }
}

}  // namespace

PrintMark markOf(const PrintStanding& standing) {
  switch (standing.state) {
    case PrintState::known:
      return standing.passes() ? PrintMark::passes : PrintMark::finding;
    default:
      return PrintMark::open;
  }
}

void paintPrintMark(QPainter& painter, const QRectF& rect, PrintMark mark) {
  const double side = std::min(rect.width(), rect.height());
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.translate(rect.center() - QPointF(side / 2, side / 2));
  painter.scale(side / 16, side / 16);
  paintLayers(painter, mark);
  painter.restore();
}

PrintMarkView::PrintMarkView(QWidget* parent) : QWidget(parent) {
  setFixedSize(16, 20);
}

void PrintMarkView::setMark(PrintMark mark) {
  mark_ = mark;
  update();
}

void PrintMarkView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  paintPrintMark(painter, QRectF(0, 2, 16, 16), mark_);
}

}  // namespace swingroom
