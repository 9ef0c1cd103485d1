#pragma once

#include <QColor>

#include "app/viewport/painters/part_painter.h"
#include "app/viewport/painters/strokes.h"
#include "app/viewport/view_frame.h"

/// Which colours parts, their lines and the floor have in a theme.
namespace swingroom {

Eigen::Vector3f paintOf(const QColor& colour);
SurfaceStyle surfaceStyle(const DrawnPart& part, const ViewColours& colours);
/// Creases stand back behind outlines.
StrokeStyle creaseStyle(const DrawnPart& part, const ViewColours& colours, double pixelRatio);
StrokeStyle outlineStyle(const DrawnPart& part, const ViewColours& colours, double pixelRatio);
/// What the ground is multiplied by where no sky is seen.
Eigen::Vector3f darkestShadow(const ViewColours& colours);

}  // namespace swingroom
