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

constexpr int kWays = 8;
constexpr int kMostSteps = 120;
constexpr double kStepShare = 0.75;  ///< Of the thickness.
constexpr double kThicker = 1.3;     ///< Times: it is held.
constexpr double kFineShare = 0.25;  ///< The same at first,
constexpr int kFineSteps = 6;        ///< for so many steps.
constexpr double kGrows = 1.05;      ///< Times: it becomes thicker.
constexpr double kNeckShare = 2;     ///< Times the thickness, across.
constexpr double kWithinShare = 0.4;
constexpr double kReliefShare = 1.5;  ///< Times the thickness, high.
/// How far into what holds it the walk goes before that is seen, of the thickness, at most.
constexpr double kOverrun = 0.5;

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
    for (int i = 0; i < kMostSteps; ++i) {
      const double stepMm = (i < kFineSteps ? kFineShare : kStepShare) * thickMm_;
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
      if (hereMm > kThicker * thickMm_) return held(walk, place, next);
      const Vector3d& out = surface_.normal(surface_.tree().order()[near->triangle]);
      if (std::abs(out.dot(direction)) < 0.6 && std::abs(out.dot(axis)) > 0.6) {
        const Vector3d from = near->point - 1e-4 * out;
        const auto across = surface_.exitAlong(from, -out, kThicker * thickMm_);
        if (!across) return held(walk, place, next);
        hereMm = across->distanceMm + 1e-4;
        next = near->point - (across->distanceMm + 1e-4) / 2 * out;
        axis = out;
        direction -= direction.dot(out) * out;
        direction.normalize();
      }
      const double gone = (next - place).norm();
      if (gone < 1e-3 * thickMm_) {
        walk.end = WallEnd::free;
        return walk;
      }
      walk.reachMm += gone;
      if (hereMm > kGrows * thickMm_) walk.growsMm = std::min(walk.growsMm, walk.reachMm);
      place = next;
    }
    return walk;
  }

  std::array<WalkEnd, kWays> all() const {
    const Vector3d u = axis_.unitOrthogonal(), v = axis_.cross(u);
    std::array<WalkEnd, kWays> ends;
    for (int k = 0; k < kWays; ++k) {
      const double angle = 2 * std::numbers::pi * k / kWays;
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
    const double mostMm = (kThicker - 0.5) * thickMm_;
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
  const double leastMm = kWithinShare * (other - at).norm();
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
  for (std::size_t k = 0; k < kWays / 2; ++k) {
    const WalkEnd &a = ends[k], &b = ends[k + kWays / 2];
    const double sumMm = a.reachMm + b.reachMm;
    mostWideMm = std::max(mostWideMm, sumMm);
    anyHeld = anyHeld || a.end == WallEnd::held || b.end == WallEnd::held;
    if (a.end == WallEnd::held && b.end == WallEnd::held) bothHeld = true;
    if (a.end == WallEnd::free && b.end == WallEnd::free)
      leastWideMm = std::min(leastWideMm, sumMm);
    const auto isRim = [&](const WalkEnd& end, const WalkEnd& beyond) {
      return end.end == WallEnd::free && end.reachMm <= walk.thickMm() &&
             beyond.end != WallEnd::free && beyond.growsMm <= walk.thickMm();
    };
    if (isRim(a, b) || isRim(b, a)) shape.form = WallShape::Form::relief;
    const bool oneFree = (a.end == WallEnd::free) != (b.end == WallEnd::free);
    const bool oneHeld = a.end == WallEnd::held || b.end == WallEnd::held;
    if (oneFree && oneHeld) leastHighMm = std::min(leastHighMm, sumMm);
  }
  shape.free = !bothHeld;
  const double thick = walk.thickMm();
  if (shape.form == WallShape::Form::relief) return shape;
  if (leastHighMm < (kReliefShare + kOverrun) * thick)
    shape.form = WallShape::Form::relief;
  else if (leastWideMm <= kNeckShare * thick) {
    shape.form = WallShape::Form::neck;
    shape.acrossMm = std::max(leastWideMm, thick);
    // A grain on the surface or beside it.
    if (!anyHeld && mostWideMm < (kReliefShare + kOverrun) * thick)
      shape.form = WallShape::Form::relief;
  }
  return shape;
}

}  // namespace swingroom
