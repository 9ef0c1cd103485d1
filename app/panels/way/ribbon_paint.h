#pragma once

#include <QColor>
#include <QRectF>

#include "app/models/ribbon_row.h"
#include "app/panels/way/way_axis.h"

class QPainter;

namespace swingroom {

/// The blue of a gap: nearly the panel's own tone at nearness 0, deep at 1.
QColor gapTone(double nearness);

/// Fills `rect` with a tone and its texture; only what lies in `exposed` is painted. Textures keep
/// their phase whatever is exposed.
void paintTone(QPainter& painter, const QRectF& rect, const QRectF& exposed, RibbonTone tone,
               double nearness = 0);

/// Where a run lies in a row's cell. At least 3 px wide, so that a touch of no length is seen.
QRectF runRect(const RibbonRun& run, const QRectF& cell, const WayAxis& axis);

/// Lines from bottom left to top right, `spacing` px apart along x.
void paintHatch(QPainter& painter, const QRectF& rect, const QColor& colour, double spacing,
                double lineWidth);

}  // namespace swingroom
