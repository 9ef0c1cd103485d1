#pragma once

#include <QRectF>
#include <optional>

#include "app/viewport/view_camera.h"

namespace swingroom {

/// Where a dimension's card stands and how it is joined to the gap. Pixels.
struct DimensionPlace {
  Eigen::Vector2d middle;  ///< Of the gap, moved to the picture's rim if it is outside.
  QRectF card;
  Eigen::Vector2d leaderFrom, leaderTo;  ///< From the card's rim to the gap.
};

/// @param ends   Where the gap's two points are seen.
/// @param last   The card's middle from the gap's in the picture before: it stays on that side if
/// it can, so
///               that it does not jump about while scrubbing.
/// @param ratio  The display's pixels a pixel of the layout.
/// The card is wholly inside the picture (if that is large enough) and not on the gap.
DimensionPlace placeDimension(const std::array<Eigen::Vector2d, 2>& ends, const QSizeF& card,
                              const ViewSize& size, double ratio,
                              const std::optional<Eigen::Vector2d>& last = std::nullopt);

}  // namespace swingroom
