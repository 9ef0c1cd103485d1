#pragma once

#include <QIcon>
#include <QString>

#include "core/sweep/result.h"

class QPainter;
class QRectF;

namespace swingroom {

/// Cross, triangle, broken ring, dashed square, disc, bar: the shapes of the report. Painted in the
/// colours of the present theme, in the largest square in the middle of `rect`.
void paintMark(QPainter& painter, const QRectF& rect, Verdict verdict);

/// Painted anew for every size, scaling and theme.
QIcon markIcon(Verdict verdict);

/// "clash", "tight", ...
QString verdictWord(Verdict verdict);

}  // namespace swingroom
