#pragma once

#include <QPointF>

class QPainter;

namespace swingroom {

/// How far the needle's paint reaches to either side of its x, px.
constexpr double kNeedleReachPx = 8;

/// The plain line through everything, from y to y.
void paintNeedlePiece(QPainter& painter, double x, double top, double bottom);

/// The needle's handle on the line.
void paintDiamond(QPainter& painter, const QPointF& middle);

}  // namespace swingroom
