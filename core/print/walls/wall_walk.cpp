#include "core/print/walls/wall_walk.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr int kWallWays = 8;
constexpr int kWallMostSteps = 120;
constexpr double kWallStepShare = 0.75;    ///< Of the thickness.
constexpr double kWallThicker = 1.3;       ///< Times: it is held.
constexpr double kWallFineShare = 0.25;    ///< The same at first,
constexpr int kWallFineSteps = 6;          ///< for so many steps.
constexpr double kWallGrows = 1.05;        ///< Times: it becomes thicker.
constexpr double kWallNeckShare = 2;       ///< Times the thickness, across.
constexpr double kWallWithinShare = 0.3;   ///< Of the thickness; a third of a post is.
constexpr double kWallReliefShare = 1.5;   ///< Times the thickness, high.
constexpr double kWallReliefMostMm = 1.5;  ///< Thicker ones are walls, however low.
/// How far into what holds it the walk goes before that is seen, of the thickness, at most.
constexpr double kWallOverrun = 0.5;

enum class WallEnd { free, held, goesOn };

struct WalkEnd {
  WallEnd end = WallEnd::goesOn;
  double reachMm = 0;
  double growsMm =
      std::numeric_limits<double>::infinity();  ///< Where it has become a little thicker.
};

class WallWalk {
 public:
  WallWalk(const WallSurface& surface, const Vector3d& at, const Vector3d& other)
      : surface_(surface),
        thickMm_((other - at).norm()),
        middle_((at + other) / 2),
        axis_((other - at) / thickMm_) {}

  double thickMm() const { return thickMm_; }

  WalkEnd go(Vector3d direction) const {
    WalkEnd walk;
    Vector3d place = middle_, axis = axis_;
    for (int i = 0; i < kWallMostSteps; ++i) {
      const double stepMm = (i < kWallFineSteps ? kWallFineShare : kWallStepShare) * thickMm_;
      const auto exit = surface_.exitAlong(place, direction, stepMm);
      if (exit && surface_.normal(exit->face).dot(direction) > 0.6) {
        walk.reachMm += exit->distanceMm;
        const bool turns =
            turnsAt(place + std::max(0.0, exit->distanceMm - 0.5 * thickMm_) * direction, axis);
        walk.end = turns ? WallEnd::held : WallEnd::free;
        return walk;
      }
      // Where a bent wall is left through its side, it is taken up again at its middle.
      Vector3d next = place + (exit ? 0.9 * exit->distanceMm : stepMm) * direction;
      const auto near = closestPoint(surface_.tree(), next);
      if (!near) return walk;
      double hereMm = 2 * near->distanceMm;
      if (hereMm > kWallThicker * thickMm_) return held(walk, place, next);
      const Vector3d& out = surface_.normal(surface_.tree().order()[near->triangle]);
      if (std::abs(out.dot(direction)) < 0.6 && std::abs(out.dot(axis)) > 0.6) {
        const Vector3d from = near->point - 1e-4 * out;
        const auto across = surface_.exitAlong(from, -out, kWallThicker * thickMm_);
        if (!across) return held(walk, place, next);
        const Vector3d centred = near->point - (across->distanceMm + 1e-4) / 2 * out;
        // Beside a corner that it has passed, the surface says nothing of where it is.
        if ((centred - place).dot(direction) > 0.3 * (next - place).norm()) {
          hereMm = across->distanceMm + 1e-4;
          next = centred;
          axis = out;
          direction -= direction.dot(out) * out;
          direction.normalize();
        }
      }
      const double gone = (next - place).norm();
      if (gone < 1e-3 * thickMm_) {
        walk.end = WallEnd::free;
        return walk;
      }
      walk.reachMm += gone;
      if (hereMm > kWallGrows * thickMm_) walk.growsMm = std::min(walk.growsMm, walk.reachMm);
      place = next;
    }
    return walk;
  }

  std::array<WalkEnd, kWallWays> all() const {
    const Vector3d u = axis_.unitOrthogonal(), v = axis_.cross(u);
    std::array<WalkEnd, kWallWays> ends;
    for (int k = 0; k < kWallWays; ++k) {
      const double angle = 2 * std::numbers::pi * k / kWallWays;
      ends[static_cast<std::size_t>(k)] = go(std::cos(angle) * u + std::sin(angle) * v);
    }
    return ends;
  }

 private:
  WalkEnd held(WalkEnd walk, const Vector3d& place, const Vector3d& next) const {
    walk.reachMm += (next - place).norm();
    walk.end = WallEnd::held;
    walk.growsMm = std::min(walk.growsMm, walk.reachMm);
    return walk;
  }

  /// The wall's end is the side of another, as at a box's corner.
  bool turnsAt(const Vector3d& place, const Vector3d& axis) const {
    const double mostMm = (kWallThicker - 0.5) * thickMm_;
    return !surface_.exitAlong(place, axis, mostMm) || !surface_.exitAlong(place, -axis, mostMm);
  }

  const WallSurface& surface_;
  double thickMm_;
  Vector3d middle_, axis_;
};

}  // namespace

bool isWithin(const WallSurface& surface, const Vector3d& at, const Vector3d& other) {
  PointHints hints;
  hints.enoughMm = 0;
  const double leastMm = kWallWithinShare * (other - at).norm();
  hints.withinMm = leastMm;
  return !closestPoint(surface.tree(), (at + other) / 2, hints);
}

WallShape shapeAt(const WallSurface& surface, const Vector3d& at, const Vector3d& other) {
  WallShape shape;
  if (!((other - at).norm() > 1e-6)) return shape;
  const WallWalk walk(surface, at, other);
  const auto ends = walk.all();
  double leastHighMm = std::numeric_limits<double>::infinity();
  double leastWideMm = std::numeric_limits<double>::infinity(), mostWideMm = 0;
  bool bothHeld = false, anyHeld = false;
  for (std::size_t k = 0; k < kWallWays / 2; ++k) {
    const WalkEnd &a = ends[k], &b = ends[k + kWallWays / 2];
    const double sumMm = a.reachMm + b.reachMm;
    mostWideMm = std::max(mostWideMm, sumMm);
    anyHeld = anyHeld || a.end == WallEnd::held || b.end == WallEnd::held;
    if (a.end == WallEnd::held && b.end == WallEnd::held) bothHeld = true;
    if (a.end == WallEnd::free && b.end == WallEnd::free)
      leastWideMm = std::min(leastWideMm, sumMm);
    // Along a rim the thickness stays; where it does not, the wall is hollowed out.
    const auto staysBeside = [&] {
      return ends[(k + 2) % kWallWays].growsMm > walk.thickMm() &&
             ends[(k + 2 + kWallWays / 2) % kWallWays].growsMm > walk.thickMm();
    };
    const auto isRim = [&](const WalkEnd& end, const WalkEnd& beyond) {
      return end.end == WallEnd::free && end.reachMm <= walk.thickMm() &&
             beyond.end != WallEnd::free && beyond.growsMm <= walk.thickMm() && staysBeside();
    };
    if (isRim(a, b) || isRim(b, a)) shape.form = WallShape::Form::relief;
    const bool oneFree = (a.end == WallEnd::free) != (b.end == WallEnd::free);
    const bool oneHeld = a.end == WallEnd::held || b.end == WallEnd::held;
    if (oneFree && oneHeld && walk.thickMm() < kWallReliefMostMm)
      leastHighMm = std::min(leastHighMm, sumMm);
  }
  shape.free = !bothHeld;
  const double thick = walk.thickMm();
  if (shape.form == WallShape::Form::relief) return shape;
  if (leastHighMm < (kWallReliefShare + kWallOverrun) * thick)
    shape.form = WallShape::Form::relief;
  else if (leastWideMm <= kWallNeckShare * thick) {
    shape.form = WallShape::Form::neck;
    shape.acrossMm = std::max(leastWideMm, thick);
    // A grain on the surface or beside it.
    if (!anyHeld && mostWideMm < (kWallReliefShare + kWallOverrun) * thick)
      shape.form = WallShape::Form::relief;
  }
  return shape;
}

}  // namespace swingroom
