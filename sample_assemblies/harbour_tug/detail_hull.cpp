#include <cmath>

#include "sample_assemblies/harbour_tug/detail.h"
#include "sample_assemblies/mesh_export.h"
#include "sample_assemblies/sculpt/relief.h"
#include "sample_assemblies/sculpt/sculpt.h"

// Planks of hull and deck, rails, the bow's rope, boots, rope fenders.
namespace swingroom::samples::tug {
namespace {

using Eigen::Vector3d;
using relief::rise;
using relief::within;

constexpr double kAboveHull = 30;

/// Along the waterline of the hull's side from x = 0.
double alongHull(double x) {
  const int steps = 40;
  double length = 0;
  for (int i = 0; i < steps; ++i) {
    const double from = x * i / steps, to = x * (i + 1) / steps;
    length += std::hypot(to - from, halfBreadth(to) - halfBreadth(from));
  }
  return length;
}

Vector3d outOfHull(const Vector3d& p) {
  const double step = 0.01;
  const double slope = (halfBreadth(p.x() + step) - halfBreadth(p.x() - step)) / (2 * step);
  return Vector3d(-slope, 1, 0).normalized();
}

/// The hull's port side; `heightMm` sees x as the way along the hull.
Push onHull(Span x, std::function<double(const Vector3d&)> heightMm) {
  return {boxOf({x.low, 3, -1}, {x.high, kAboveHull, kAboveHull}),
          [=](const Vector3d& p) {
            return heightMm({alongHull(p.x()), p.y(), p.z()});
          },
          [](const Vector3d& p) { return (halfBreadth(p.x()) - p.y()) * outOfHull(p).y(); },
          outOfHull};
}

/// Strakes with a rubbing rail under the deck's edge.
double hullSide(const Vector3d& p) {
  const double rail = relief::bead(p.z() - 15.7, 0.8, 0.6);
  const relief::Boards strakes{.widthMm = 3.05,
                               .lengthMm = 17,
                               .deepMm = 0.42,
                               .crownMm = 0.12,
                               .wearMm = 0.09,
                               .nailMm = 0.2,
                               .seed = 11};
  const double bare = rise(0.75, 1.0, std::abs(p.z() - 15.7));
  return rail + bare * relief::boards(p.x(), p.z() - 1.2, strakes);
}

double deck(const Vector3d& p) {
  return relief::boards(p.x(), p.y() - 0.6,
                        {.widthMm = 2.6,
                         .lengthMm = 15,
                         .deepMm = 0.34,
                         .crownMm = 0.05,
                         .wearMm = 0.1,
                         .nailMm = 0.0,
                         .seed = 23});
}

double bottom(const Vector3d& p) {
  return 0.8 * relief::boards(p.x(), p.y(),
                              {.widthMm = 4.1,
                               .lengthMm = 19,
                               .deepMm = 0.35,
                               .crownMm = 0.06,
                               .wearMm = 0.05,
                               .seed = 31});
}

/// The deck inside the bulwark.
Push deckBetween(Span x) {
  return onFace(2, kDeckZ, 1, boxOf({x.low, 2, 15}, {x.high, 22, kDeckZ + 0.3}),
                [](const Vector3d& p) {
                  return deck(p) * within(p.y(), -5, halfBreadth(p.x()) - 1.85, 0.35);
                });
}

Push bottomBetween(Span x) {
  Push push = onFace(2, 0, -1, boxOf({x.low, 2.3, -1}, {x.high, 22, 1.2}), [=](const Vector3d& p) {
    return bottom(p) * rise(2.3, 2.8, p.y()) * rise(x.high, x.high - 1, p.x());
  });
  push.depthMm = 1.2;
  push.edgeMm = 0.8;
  return push;
}

Keep across(double x, double z, Span y, double radius, double fadeMm = 0.8) {
  return {{x, y.low, z}, {x, y.high, z}, radius, fadeMm};
}

/// A brass ring with a rivet on each eighth.
double portRing(double x, double z) {
  const double r = std::hypot(x, z);
  double height = 0.4 * rise(2.45, 2.65, r) * rise(3.35, 3.15, r);
  for (int i = 0; i < 8; ++i) {
    const double turn = i * std::acos(-1.0) / 4;
    height += relief::dome({x - 2.9 * std::cos(turn), z - 2.9 * std::sin(turn)}, 0.32, 0.25);
  }
  return height;
}

}  // namespace

TriangleMesh detailedThigh() {
  Sculpture sculpture;
  sculpture.strayMm = 0.025;
  sculpture.pushes = {onHull({0, 27}, hullSide), deckBetween({5.4, 27}), bottomBetween({0, 30})};
  sculpture.holes = {across(kHipX, kHipZ, {0, 20}, 5.3),
                     across(kKneeUpX, kKneeZ, {-1, 14.2}, 2.5),
                     {{8.5, kHalfBeam - 0.4, 12}, {21.5, kHalfBeam - 0.4, 12}, 2.6, 0.5}};
  sculpture.kept = {{boxOf({6.9, 18, 9.5}, {23.1, 24, 14.5}), 0.5},
                    {boxOf({11.7, 15.6, 17}, {15.3, 21.4, 26}), 0.5}};
  return sculpted(meshed(thigh(), kFacetMm), sculpture);
}

TriangleMesh detailedShin() {
  const double portX = 37, portZ = 11;
  Sculpture sculpture;
  sculpture.pushes = {onHull({27, 50.1},
                             [=](const Vector3d& p) {
                               const double x = p.x() - alongHull(portX);
                               const double boards = rise(3.3, 3.6, std::hypot(x, p.z() - portZ));
                               return boards * hullSide(p) + portRing(x, p.z() - portZ);
                             }),
                      deckBetween({27, 50.1}), bottomBetween({27, 42})};
  sculpture.holes = {across(kKneeLowX, kKneeZ, {-1, 14.2}, 2.5),
                     across(kAnkleX, kAnkleZ, {-1, 17}, 5.2, 0.6)};
  return sculpted(meshed(shin(), kFacetMm), sculpture);
}

TriangleMesh detailedFoot() {
  const double bow = alongHull(kStemX);
  // A rope round the bow, a row of stitches over the sole, leather between.
  const auto side = [](double u, double z) {
    const double leather = -0.12 + 0.1 * relief::noise({u / 2.2, z / 1.4, 5}, 41);
    const double welt =
        relief::bead(std::remainder(u, 1.15), 0.42, 0.24) * within(z, 2.2, 2.9, 0.25) -
        0.16 * within(z, 1.9, 3.2, 0.3);
    return relief::rope(u, z - 5.1, 1.05, 0.85) +
           rise(0.95, 1.2, std::abs(z - 5.1)) * (leather + welt);
  };
  const double top = kAnkleZ - 0.2;
  const auto laces = [](const Vector3d& p) {
    const double z = p.z() - 9, y = p.y();
    double height = -0.1;
    if (z < -0.6 || z > 8.4) return height * within(p.z(), 7.4, 17.8, 0.4);
    for (const int lean : {1, -1}) {
      const double middle = lean * (y - 3.5) * 0.62;
      const double off = (z - middle) / 2.6;
      const double across = (off - std::round(off)) * 2.6;
      height = std::max(
          height, within(y, 0.9, 6.1, 0.5) * relief::bead(across, 0.5, lean > 0 ? 0.5 : 0.34));
    }
    return height;
  };
  const auto cap = [](const Vector3d& p) {
    const double seam = p.x() - (58.5 + 0.02 * (p.y() - 6) * (p.y() - 6));
    const double stitch =
        relief::bead(std::remainder(p.y(), 1.1), 0.4, 0.22) * within(seam, -1.3, -0.7, 0.2);
    return 0.5 * rise(0, 0.5, seam) - 0.18 * within(seam, -0.5, 0, 0.2) + stitch +
           0.06 * relief::noise(p / 1.5, 43) - 0.06;
  };
  const auto tread = [](const Vector3d& p) {
    const double chevron = std::remainder(p.x() + 0.5 * std::abs(p.y() - 8), 3.0);
    return -0.4 * rise(0.75, 0.45, std::abs(chevron)) *
           within(p.y(), 1.2, halfBreadth(p.x()) - 2.6, 0.3) * within(p.x(), 51.5, 69.6, 0.4);
  };
  Sculpture sculpture;
  Push sole = onFace(2, 0, -1, boxOf({50, 0, -1}, {72, 20, 1.3}), tread);
  sole.depthMm = 1.3;
  const auto upper = [=](const Vector3d& p) {
    const double creases =
        -0.2 * (1 + relief::noise({p.x() / 2.6, 3, p.z() / 1.3}, 47)) * rise(16.2, 15.4, p.z());
    const double rim = -0.3 * within(p.z(), 15.9, 16.7, 0.25);
    return (creases + rim) * rise(top + 0.1, top + 0.9, p.z()) * within(p.x(), 50.8, 66.6, 0.6);
  };
  Push front =
      onFace(0, 67, 1, boxOf({64, 0, top + 0.05}, {67.5, 6.8, kDeckZ + 1}),
             [=](const Vector3d& p) { return laces(p) * rise(top + 0.05, top + 0.6, p.z()); });
  sculpture.pushes = {
      onHull({kAnkleX + 0.4, 71.2},
             [=](const Vector3d& p) { return side(p.x(), p.z()) * rise(51.6, 53.6, p.x()); }),
      onFace(0, kStemX, 1, boxOf({69, 0, -1}, {72, 6.6, 8}),
             [=](const Vector3d& p) { return side(bow + 6.5 - p.y(), p.z()); }),
      onFace(2, top, 1, boxOf({53, 0, 5}, {72, 22, top + 0.3}),
             [=](const Vector3d& p) {
               const double clear = p.x() < 67.3 ? rise(6.9, 7.5, p.y()) : rise(67.05, 67.6, p.x());
               return cap(p) * rise(53, 55, p.x()) * std::max(clear, rise(67.05, 67.6, p.x()));
             }),
      front,
      onFace(1, 6.8, 1, boxOf({50, 4.8, top + 0.1}, {67, 7.2, kDeckZ + 1}), upper),
      sole};
  sculpture.pushes[3].edgeMm = 0.36;
  sculpture.leastMm = 0.15;
  sculpture.holes = {across(kAnkleX, kAnkleZ, {7, 30}, 5.4)};
  return sculpted(meshed(foot(), kFacetMm), sculpture);
}

TriangleMesh detailedFender() {
  const Vector3d centre(0, kHalfBeam - 0.4, 12);
  Sculpture sculpture;
  const auto lay = [=](const Vector3d& p) {
    const double round = std::atan2(p.z() - centre.z(), p.y() - centre.y());
    const double end = std::min(p.x() - 7.4, 22.6 - p.x());
    const double whipping = 0.12 * std::abs(std::sin(end * 7)) + 0.12;
    const double rope = 0.62 * (1 - relief::strands(p.x(), round, 8.4, 3)) +
                        0.05 * (1 + relief::noise(p * 2.2, 51));
    return -(rope * rise(1.5, 1.9, end) + whipping * rise(0.3, 0.6, end) * rise(1.9, 1.5, end));
  };
  sculpture.pushes = {onBar(0, centre, 2.25, boxOf({7.3, 15, 5}, {22.7, 28, 20}), lay)};
  sculpture.pushes.front().edgeMm = 0.4;
  return sculpted(meshed(fender(), kFacetMm), sculpture);
}

}  // namespace swingroom::samples::tug
