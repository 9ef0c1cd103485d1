#include "core/print/walls/wall_thickness.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "core/base/parallel.h"
#include "core/print/walls/wall_ball.h"

namespace swingroom {
namespace {

constexpr std::size_t kWallChunk = 16;
constexpr double kWallStartMm = 1e-4;
/// Of 34 degrees; the cone over a piece reaches that far at its corners.
constexpr double kWallLeastCosOff = 0.829;
constexpr double kWallGrooveCosOff = 0.94;   ///< Of 20 degrees.
constexpr double kWallParallelCos = -0.985;  ///< Of 10 degrees.
constexpr double kWallPointSlack = 1e-4;
constexpr double kWallSameShare = 1e-3;
/// A blade explains what is thin within so many times the thickness: a slower taper is a wall.
constexpr double kWallBladeReach = 3;
constexpr double kWallBladeOffMm = 1e-3;
/// A piece is equally thick all over if it differs by no more.
constexpr double kWallEvenShare = 1.08, kWallEvenMm = 0.01;

/// Whether the material goes on from one to the other.
bool isSeen(const WallSurface& surface, const Vector3d& from, const Vector3d& to) {
  const double length = (to - from).norm();
  if (!(length > 3 * kWallStartMm)) return true;
  const Vector3d direction = (to - from) / length;
  const double startMm = std::min(kWallStartMm, 0.01 * length);
  const auto exit = surface.exitAlong(from + startMm * direction, direction, length);
  return !exit || exit->distanceMm + startMm > length - kWallStartMm - 1e-3 * length;
}

bool isWallAcross(const WallSurface& surface, const WallBall& ball, const Vector3d& normal) {
  return ball.cosOff(normal) >= kWallLeastCosOff && isSeen(surface, ball.at, ball.other);
}

/// Thin because two faces meet there at a sharp edge, and for nothing else: both sides are as far
/// from it, and the thickness is what its opening gives.
bool isOfBlade(const WallSurface& surface, const Vector3d& at, const Vector3d& other,
               double thicknessMm) {
  const auto blade = surface.bladeNear(at, kWallBladeReach * thicknessMm + kWallBladeOffMm);
  if (!blade) return false;
  const double slope = std::tan(blade->openingRad / 2);
  // Half and twice of what straight faces would have there, as they may be round.
  if (thicknessMm < std::max(slope, 1 / kWallBladeReach) * blade->distanceMm - kWallBladeOffMm)
    return false;
  if (thicknessMm > 4 * slope * blade->distanceMm + kWallBladeOffMm) return false;
  const auto beyond = surface.bladeNear(other, 1.5 * blade->distanceMm + kWallBladeOffMm);
  return beyond.has_value();
}

/// What is reached at one point.
struct PointFigure {
  double mm = 0;
  std::optional<WallBall> ball;  ///< Seen; none: no wall.
  bool parallel = false;         ///< `mm` is straight across to a parallel face.
};

class FaceLook {
 public:
  FaceLook(const WallSurface& surface, std::uint32_t face, const WallFineness& fineness,
           std::vector<WallPlace>& places)
      : surface_(surface),
        face_(face),
        normal_(surface.normal(face)),
        fineness_(fineness),
        places_(places) {}

  void look() {
    if (!normal_.isZero()) lookAt(surface_.corners(face_));
  }

 private:
  /// Straight across.
  PointFigure rayAt(const Vector3d& p) const {
    const auto exit = surface_.exitAlong(p - kWallStartMm * normal_, -normal_, fineness_.mostMm);
    PointFigure figure{fineness_.mostMm, std::nullopt, false};
    if (!exit) return figure;
    figure.mm = exit->distanceMm + kWallStartMm;
    const double exitCos = surface_.normal(exit->face).dot(normal_);
    if (exitCos <= WallSurface::kOpposedCos)
      figure.ball = WallBall{figure.mm, p, p - figure.mm * normal_, exit->face};
    figure.parallel = exitCos <= kWallParallelCos;
    return figure;
  }

  /// No ball at the face is smaller than `leastMm`.
  PointFigure figureAt(const Vector3d& p, double leastMm) const {
    PointFigure figure = rayAt(p);
    // The straight way is the thickness between parallel faces only; else it begins the search.
    const bool thick = figure.mm >= fineness_.mostMm && !figure.ball;
    if ((figure.parallel || thick) &&
        leastMm >= std::min(fineness_.provenMm, (1 - kWallSameShare) * figure.mm))
      return figure;
    const Vector3d smooth = surface_.smoothNormal(face_, p);
    const double mostMm = fineness_.mostMm;
    const double searchMm = figure.parallel ? figure.mm
                            : figure.ball   ? std::min(mostMm, 1.2 * figure.mm)
                                            : mostMm;
    const auto ball =
        smallestBall(surface_, WallElement::point(p, smooth), searchMm, kWallPointSlack);
    if (ball && isWallAcross(surface_, *ball, smooth)) return {ball->diameterMm, ball, false};
    return figure;
  }

  void lookAt(const TriangleCorners& corners) {
    const WallElement element = WallElement::piece(corners, normal_);
    const double longestMm =
        std::max({(corners[1] - corners[0]).norm(), (corners[2] - corners[1]).norm(),
                  (corners[0] - corners[2]).norm()});
    const PointFigure ray = rayAt(element.middle);
    const double soughtMm = ray.ball ? std::min(fineness_.provenMm, ray.mm) : fineness_.provenMm;
    const auto least = smallestBall(surface_, element, soughtMm);
    double lowerMm = least ? least->diameterMm : soughtMm;
    PointFigure best = figureAt(element.middle, lowerMm);
    const double middleMm = best.mm;
    Vector3d at = element.middle;
    if (least && least->diameterMm < best.mm) {
      // Where the ball may be small, what is it that is reached?
      const PointFigure there = figureAt(least->at + 1e-3 * (element.middle - least->at), lowerMm);
      if (there.ball && there.mm < best.mm - 1e-3) {
        best = there;
        at = there.ball->at;
      }
    }
    lowerMm = std::min(lowerMm, best.mm);
    if (isLarge(corners, longestMm) && !isEven(element, lowerMm, middleMm, best.mm))
      return split(corners);
    WallPlace place;
    place.corners_P = corners;
    place.triangle = surface_.triangleOf()[face_];
    place.lowerMm = lowerMm;
    place.upperMm = best.mm;
    place.at_P = place.other_P = at;
    if (best.ball) {
      place.other_P = best.ball->other;
      place.kind =
          isOfBlade(surface_, at, place.other_P, best.mm) ? WallKind::edge : WallKind::wall;
    }
    places_.push_back(place);
  }

  /// Slivers may be longer than others.
  bool isLarge(const TriangleCorners& t, double longestMm) const {
    if (longestMm <= fineness_.pieceMm) return false;
    const double areaMm2 = (t[1] - t[0]).cross(t[2] - t[0]).norm() / 2;
    return longestMm > 4 * fineness_.pieceMm ||
           areaMm2 > 0.1 * fineness_.pieceMm * fineness_.pieceMm;
  }

  bool isEven(const WallElement& element, double lowerMm, double middleMm, double bestMm) const {
    const auto isLike = [&](double mm) {
      return mm <= kWallEvenShare * bestMm + kWallEvenMm &&
             bestMm <= kWallEvenShare * mm + kWallEvenMm;
    };
    if (!isLike(middleMm)) return false;
    if (kWallEvenShare * lowerMm + kWallEvenMm < std::min(bestMm, fineness_.provenMm)) return false;
    return std::all_of(element.corners.begin(), element.corners.end(), [&](const Vector3d& corner) {
      const Vector3d p = corner + 0.2 * (element.middle - corner);
      const PointFigure ray = rayAt(p);
      // What is there lies between the two.
      if (ray.parallel && isLike(ray.mm)) return true;
      return isLike(figureAt(p, lowerMm).mm);
    });
  }

  void split(const TriangleCorners& t) {
    std::size_t longest = 0;
    for (std::size_t e = 1; e < 3; ++e) {
      if ((t[(e + 1) % 3] - t[e]).squaredNorm() > (t[(longest + 1) % 3] - t[longest]).squaredNorm())
        longest = e;
    }
    const Vector3d &p = t[longest], &q = t[(longest + 1) % 3], &r = t[(longest + 2) % 3];
    const Vector3d middle = 0.5 * (p + q);
    lookAt({p, middle, r});
    lookAt({middle, q, r});
  }

  const WallSurface& surface_;
  std::uint32_t face_;
  Vector3d normal_;
  const WallFineness& fineness_;
  std::vector<WallPlace>& places_;
};

/// Grooves that reach towards each other are no one's face: along the edge, in steps.
std::vector<WallPlace> grooveFigures(const WallSurface& surface, std::uint32_t index,
                                     const WallFineness& fineness) {
  const WallSurface::Groove& groove = surface.grooves()[index];
  const Vector3d between = groove.normals[0] + groove.normals[1];
  std::vector<WallPlace> found;
  if (!(between.norm() > 1e-3)) return found;
  const Vector3d normal = between.normalized();
  const auto& vertices = surface.mesh().vertices;
  const Vector3d from = vertices[groove.from], along = vertices[groove.to] - from;
  const auto straight = [&](const WallElement& element) {
    auto ball = smallestBall(surface, element, fineness.provenMm);
    if (ball &&
        (ball->cosOff(normal) < kWallGrooveCosOff || !isSeen(surface, ball->at, ball->other)))
      ball.reset();
    return ball;
  };
  const double steps = std::max(1.0, std::ceil(along.norm() / (2 * fineness.pieceMm)));
  for (double k = 0; k < steps; ++k) {
    const Vector3d a = from + k / steps * along, b = from + (k + 1) / steps * along;
    const auto least = straight(WallElement::edge(a, b, normal));
    if (!least) continue;
    const auto middle = straight(WallElement::point((a + b) / 2, normal));
    const WallBall& shown =
        middle && middle->diameterMm < least->diameterMm + 1e-3 ? *middle : *least;
    WallPlace place;
    place.lowerMm = least->diameterMm;
    place.upperMm = shown.diameterMm;
    place.at_P = shown.at;
    place.other_P = shown.other;
    if (!isOfBlade(surface, place.at_P, place.other_P, place.upperMm)) found.push_back(place);
  }
  return found;
}

/// The thinner figure of a groove goes to the piece of its faces on which it is.
void addGroove(const WallSurface& surface, const WallSurface::Groove& groove,
               const WallPlace& found, std::vector<WallPlace>& places) {
  for (const std::uint32_t face : groove.faces) {
    const std::uint32_t triangle = surface.triangleOf()[face];
    auto i = std::lower_bound(places.begin(), places.end(), triangle,
                              [](const WallPlace& p, std::uint32_t t) { return p.triangle < t; });
    WallPlace* nearest = nullptr;
    double leastMm = 1e-6;
    for (; i != places.end() && i->triangle == triangle; ++i) {
      const double mm = (closestPointOnTriangle(found.at_P, i->corners_P) - found.at_P).norm();
      if (mm >= leastMm) continue;
      leastMm = mm;
      nearest = &*i;
    }
    if (!nearest || nearest->kind == WallKind::edge || found.upperMm >= nearest->upperMm) continue;
    nearest->kind = WallKind::wall;
    nearest->upperMm = found.upperMm;
    nearest->lowerMm = std::min(nearest->lowerMm, found.lowerMm);
    nearest->at_P = found.at_P;
    nearest->other_P = found.other_P;
  }
}

template <typename Work>
std::vector<WallPlace> gatheredWalls(std::size_t count, unsigned threads, const Work& work) {
  std::vector<std::vector<WallPlace>> parts((count + kWallChunk - 1) / kWallChunk);
  parallelFor(parts.size(), threads, [&](std::size_t chunk) {
    for (std::size_t i = chunk * kWallChunk; i < std::min(count, (chunk + 1) * kWallChunk); ++i)
      work(static_cast<std::uint32_t>(i), parts[chunk]);
  });
  std::vector<WallPlace> all;
  for (const auto& part : parts) all.insert(all.end(), part.begin(), part.end());
  return all;
}

}  // namespace

std::vector<WallPlace> thicknessOf(const WallSurface& surface, const WallFineness& fineness,
                                   unsigned threads, const WorkMonitor& monitor) {
  std::vector<WallPlace> places =
      gatheredWalls(surface.mesh().triangles.size(), threads,
                    [&](std::uint32_t face, std::vector<WallPlace>& to) {
                      if (!monitor.cancelled()) FaceLook(surface, face, fineness, to).look();
                    });
  const auto& grooves = surface.grooves();
  const std::vector<WallPlace> found =
      gatheredWalls(grooves.size(), threads, [&](std::uint32_t i, std::vector<WallPlace>& to) {
        if (monitor.cancelled()) return;
        for (WallPlace place : grooveFigures(surface, i, fineness)) {
          place.triangle = i;
          to.push_back(place);
        }
      });
  for (const WallPlace& place : found) addGroove(surface, grooves[place.triangle], place, places);
  return places;
}

}  // namespace swingroom
