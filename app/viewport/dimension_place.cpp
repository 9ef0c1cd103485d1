#include "app/viewport/dimension_place.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace swingroom {
namespace {

using Eigen::Vector2d;

constexpr double kBorder = 8, kClear = 14;  ///< To the picture's rim, and to the gap.
constexpr std::array<double, 5> kReaches{64, 92, 130, 180, 250};

Vector2d heldInside(const Vector2d& p, const ViewSize& size, double border) {
  return {std::clamp(p.x(), border, std::max(border, size.width - border)),
          std::clamp(p.y(), border, std::max(border, size.height - border))};
}

QRectF boxOf(const std::array<Vector2d, 2>& ends) {
  return QRectF(QPointF(ends[0].x(), ends[0].y()), QPointF(ends[1].x(), ends[1].y())).normalized();
}

QRectF centred(const Vector2d& middle, const QSizeF& card) {
  return {middle.x() - 0.5 * card.width(), middle.y() - 0.5 * card.height(), card.width(),
          card.height()};
}

Vector2d nearestIn(const QRectF& box, const Vector2d& p) {
  return {std::clamp(p.x(), box.left(), box.right()), std::clamp(p.y(), box.top(), box.bottom())};
}

/// Whether the card would lie on the gap's line or its ring.
bool covers(const QRectF& card, const std::array<Vector2d, 2>& ends, double clear) {
  const QRectF wide = card.adjusted(-clear, -clear, clear, clear);
  if (!wide.intersects(boxOf(ends).adjusted(-1, -1, 1, 1))) return false;
  for (int i = 0; i <= 64; ++i) {
    const Vector2d p = ends[0] + (ends[1] - ends[0]) * (i / 64.0);
    if (wide.contains(QPointF(p.x(), p.y()))) return true;
  }
  return false;
}

/// Upwards, and square to the gap: there a leader does not run along the dimension line.
Vector2d likedWay(const std::array<Vector2d, 2>& ends) {
  const Vector2d along = ends[1] - ends[0];
  Vector2d way(0.6, -0.8);
  if (along.norm() > 8) way = Vector2d(along.y(), -along.x()).normalized();
  return way.y() > 0 || (way.y() == 0 && way.x() < 0) ? Vector2d(-way) : way;
}

}  // namespace

DimensionPlace placeDimension(const std::array<Vector2d, 2>& ends, const QSizeF& card,
                              const ViewSize& size, double ratio,
                              const std::optional<Vector2d>& last) {
  DimensionPlace place;
  place.middle = heldInside(0.5 * (ends[0] + ends[1]), size, kBorder * ratio);
  const double border = kBorder * ratio;
  const QRectF within =
      QRectF(0, 0, size.width, size.height).adjusted(border, border, -border, -border);
  const Vector2d liked = likedWay(ends);
  const Vector2d corner(size.width - 0.5 * card.width() - border, 0.5 * card.height() + border);
  Vector2d best = corner;
  double least = 1e300;
  for (const double reach : kReaches) {
    for (int i = 0; i < 24; ++i) {
      const double angle = 2 * kPi * i / 24;
      const Vector2d way(std::cos(angle), std::sin(angle));
      const Vector2d off =
          reach * ratio * way + 0.35 * Vector2d(way.x() * card.width(), way.y() * card.height());
      const QRectF box = centred(place.middle + off, card);
      if (!within.contains(box) || covers(box, ends, kClear * ratio)) continue;
      double cost = reach - 40 * way.dot(liked);
      if (last) cost += 0.6 * (off - *last).norm() / ratio;
      if (cost < least) least = cost, best = place.middle + off;
    }
  }
  place.card = centred(best, card);
  const double inset = std::min(12 * ratio, 0.5 * card.width());  // Not from a rounded corner.
  place.leaderFrom = nearestIn(place.card.adjusted(inset, 0, -inset, 0), place.middle);
  place.leaderTo = place.middle;
  return place;
}

}  // namespace swingroom
