#include "core/mesh/round_faces.h"

#include <algorithm>
#include <array>
#include <bitset>
#include <cmath>
#include <numbers>
#include <optional>
#include <span>
#include <stdexcept>

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kPi = std::numbers::pi;
constexpr double kWidestFacetRad = 50 * kPi / 180;
constexpr double kLeastCoverageRad = 40 * kPi / 180;
constexpr double kShortestMm = 0.2;
constexpr double kMostTilt = 0.1;      // Of a facet's normal out of the plane across the axis.
constexpr double kLeastRadial = 0.85;  // Of a facet's normal along its own radius.
constexpr std::size_t kBins = 144;     // Of a turn, for the coverage.

/// One triangle that can be part of a round face.
struct Facet {
  bool outward = false;
  double radius = 0;
  double least = 0;
  double from = 0, to = 0;
  double area = 0;
  double angle = 0;                   // Of its middle, about the axis.
  double angleFrom = 0, angleTo = 0;  // From `angle`.
};

class FacetFinder {
 public:
  FacetFinder(const Vector3d& through, const Vector3d& along, double toleranceMm)
      : through_(through), along_(along), tolerance_(toleranceMm), x_(along.unitOrthogonal()) {
    y_ = along_.cross(x_);
  }

  std::optional<Facet> facetOf(const std::array<Vector3d, 3>& corners) const {
    std::array<Vector3d, 3> local;  // Along x, y, axis.
    std::array<double, 3> radii;
    for (std::size_t i = 0; i < 3; ++i) {
      const Vector3d p = corners[i] - through_;
      local[i] = {p.dot(x_), p.dot(y_), p.dot(along_)};
      radii[i] = local[i].head<2>().norm();
    }
    const auto [low, high] = std::minmax_element(radii.begin(), radii.end());
    if (*high - *low > tolerance_ || *high <= tolerance_) return std::nullopt;
    Facet facet;
    facet.radius = (radii[0] + radii[1] + radii[2]) / 3;
    return facing(local, facet) ? std::optional(facet) : std::nullopt;
  }

 private:
  bool facing(const std::array<Vector3d, 3>& local, Facet& facet) const {
    const Vector3d across = (local[1] - local[0]).cross(local[2] - local[0]);
    const double twiceArea = across.norm();
    if (twiceArea == 0) return false;
    const Vector3d normal = across / twiceArea;
    if (std::abs(normal.z()) > kMostTilt) return false;
    const Eigen::Vector2d middle = (local[0] + local[1] + local[2]).head<2>() / 3;
    const double radial = normal.head<2>().dot(middle.normalized());
    if (std::abs(radial) < kLeastRadial) return false;
    facet.outward = radial > 0;
    facet.least = std::abs(normal.head<2>().dot(local[0].head<2>()));
    facet.area = twiceArea / 2;
    facet.angle = std::atan2(middle.y(), middle.x());
    facet.from = std::min({local[0].z(), local[1].z(), local[2].z()});
    facet.to = std::max({local[0].z(), local[1].z(), local[2].z()});
    for (const Vector3d& p : local) {
      const double turned =
          std::atan2(middle.x() * p.y() - middle.y() * p.x(), middle.dot(p.head<2>()));
      facet.angleFrom = std::min(facet.angleFrom, turned);
      facet.angleTo = std::max(facet.angleTo, turned);
    }
    return facet.angleTo - facet.angleFrom <= kWidestFacetRad;
  }

  Vector3d through_, along_;
  double tolerance_;
  Vector3d x_, y_;
};

/// Marks the bins whose middles the facet covers.
void cover(std::bitset<kBins>& bins, const Facet& facet) {
  const double perBin = 2 * kPi / kBins;
  const double first = std::ceil((facet.angle + facet.angleFrom) / perBin - 0.5);
  const double last = std::floor((facet.angle + facet.angleTo) / perBin - 0.5);
  for (double bin = first; bin <= last; ++bin) {
    const auto whole = static_cast<long>(bin) % static_cast<long>(kBins);
    bins.set(static_cast<std::size_t>(whole < 0 ? whole + static_cast<long>(kBins) : whole));
  }
}

RoundFace faceOf(std::span<const Facet> facets) {
  RoundFace face;
  face.outward = facets.front().outward;
  face.fromMm = facets.front().from;
  face.toMm = facets.front().to;
  face.leastMm = facets.front().least;
  double area = 0;
  std::bitset<kBins> covered;
  for (const Facet& facet : facets) {
    area += facet.area;
    face.radiusMm += facet.area * facet.radius;
    face.leastMm = std::min(face.leastMm, facet.least);
    face.greatestMm = std::max(face.greatestMm, facet.radius);
    face.toMm = std::max(face.toMm, facet.to);
    cover(covered, facet);
  }
  face.radiusMm /= area;
  face.coverageRad = 2 * kPi * static_cast<double>(covered.count()) / kBins;
  return face;
}

/// Facets of one radius: a face for each stretch along the axis.
void addStretches(std::span<Facet> facets, std::vector<RoundFace>& faces) {
  constexpr double kSameMm = 0.01;  // Stretches this near are one.
  std::sort(facets.begin(), facets.end(),
            [](const Facet& a, const Facet& b) { return a.from < b.from; });
  std::size_t begin = 0;
  while (begin < facets.size()) {
    double to = facets[begin].to;
    std::size_t end = begin + 1;
    for (; end < facets.size() && facets[end].from <= to + kSameMm; ++end) {
      to = std::max(to, facets[end].to);
    }
    const RoundFace face = faceOf(facets.subspan(begin, end - begin));
    const bool counts =
        face.toMm - face.fromMm >= kShortestMm && face.coverageRad >= kLeastCoverageRad;
    if (counts) faces.push_back(face);
    begin = end;
  }
}

}  // namespace

std::vector<RoundFace> roundFacesAbout(const TriangleMesh& mesh, const Vector3d& through,
                                       const Vector3d& along, double toleranceMm) {
  if (std::abs(along.norm() - 1) > 1e-9) {
    throw std::invalid_argument("roundFacesAbout: `along` is not a unit vector");
  }
  const FacetFinder finder(through, along, toleranceMm);
  std::vector<Facet> facets;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    if (const auto facet =
            finder.facetOf({mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)})) {
      facets.push_back(*facet);
    }
  }
  std::sort(facets.begin(), facets.end(), [](const Facet& a, const Facet& b) {
    return a.outward != b.outward ? a.outward < b.outward : a.radius < b.radius;
  });
  std::vector<RoundFace> faces;
  std::size_t begin = 0;
  for (std::size_t i = 1; i <= facets.size(); ++i) {
    const bool same = i < facets.size() && facets[i].outward == facets[begin].outward &&
                      facets[i].radius - facets[i - 1].radius <= toleranceMm;
    if (same) continue;
    addStretches(std::span(facets).subspan(begin, i - begin), faces);
    begin = i;
  }
  std::stable_sort(faces.begin(), faces.end(),
                   [](const RoundFace& a, const RoundFace& b) { return a.radiusMm < b.radiusMm; });
  return faces;
}

}  // namespace swingroom
