#include "app/panels/way/needle.h"

#include <QPainter>

#include "app/panels/theme.h"

namespace swingroom {

void paintNeedlePiece(QPainter& painter, double x, double top, double bottom) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(theme().ink, 1.5, Qt::SolidLine, Qt::FlatCap));
  painter.drawLine(QPointF(x, top), QPointF(x, bottom));
  painter.restore();
}

void paintDiamond(QPainter& painter, const QPointF& middle) {
  constexpr double kHalf = 7.5;
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(theme().panel, 1.5));
  painter.setBrush(theme().ink);
  painter.drawPolygon(QPolygonF({middle + QPointF(0, -kHalf), middle + QPointF(kHalf, 0),
                                 middle + QPointF(0, kHalf), middle + QPointF(-kHalf, 0)}));
  painter.restore();
}

}  // namespace swingroom
