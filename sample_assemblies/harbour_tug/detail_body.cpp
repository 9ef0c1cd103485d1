#include <cmath>

#include "sample_assemblies/harbour_tug/detail.h"
#include "sample_assemblies/mesh_export.h"
#include "sample_assemblies/sculpt/relief.h"
#include "sample_assemblies/sculpt/sculpt.h"

// The torso's planks and buttons, the funnels' bands and rivets, the stern board with its lifebuoy.
namespace swingroom::samples::tug {
namespace {

using Eigen::Vector3d;
using relief::rise;
using relief::within;

/// A button in a ring that is let in.
double button(double off) {
  const double rim = off < 1.5 ? -0.22 * rise(1.45, 1.2, off) * rise(0.85, 0.95, off) : 0;
  return rim + relief::dome({off, 0}, 0.9, 0.3);
}

double chest(const Vector3d& p) {
  double height = relief::boards(
      p.x(), p.y(),
      {.widthMm = 2.5, .lengthMm = 16, .deepMm = 0.34, .crownMm = 0.06, .wearMm = 0.1, .seed = 61});
  for (int i = 0; i < 5; ++i) {
    const double off = std::hypot(p.x() - (-8.5 - 4.6 * i), std::abs(p.y()) - 3.75);
    height = height * rise(1.3, 1.6, off) + button(off);
  }
  return height * rise(1.6, 2.0, std::abs(p.y()));
}

double flank(const Vector3d& p) {
  return relief::boards(p.x(), p.z() - 1.4,
                        {.widthMm = 3.05,
                         .lengthMm = 18,
                         .deepMm = 0.4,
                         .crownMm = 0.1,
                         .wearMm = 0.08,
                         .nailMm = 0.15,
                         .seed = 67}) *
         within(p.x(), -35.6, -5.8, 0.6);
}

Push flankOf(int sign) {
  return onFace(1, sign * kTorsoY, sign,
                boxOf({kSternX, sign > 0 ? 11.0 : -16.0, -1}, {-5, sign > 0 ? 16.0 : -11.0, 19}),
                flank);
}

double ring(double off, double radius, double half, double height) {
  return relief::bead(off - radius, half, height);
}

/// A lifebuoy with four bands, and rivets beside it.
double transom(const Vector3d& p) {
  const double y = p.y(), z = p.z() - 9.85;
  const double off = std::hypot(y, z);
  const double turn = std::atan2(z, y);
  const double band = std::abs(std::remainder(turn - 0.785, 1.5708)) < 0.28 ? 0.16 : 0;
  const double buoy = ring(off, 1.85, 0.95, 0.65) + band * within(off, 1.1, 2.6, 0.3);
  double rivets = 0;
  for (const double at : {4.6, 8.6, 12.4}) {
    for (const double up : {-2.2, 0.0, 2.0})
      rivets += relief::dome({std::abs(y) - at, z - up}, 0.55, 0.3);
  }
  const double boards = relief::boards(y, p.z() - 6.8,
                                       {.widthMm = 2.0,
                                        .lengthMm = 30,
                                        .deepMm = 0.34,
                                        .crownMm = 0.06,
                                        .wearMm = 0.09,
                                        .seed = 71});
  return buoy + rivets + boards * rise(2.6, 3.0, off);
}

}  // namespace

TriangleMesh detailedTorso() {
  Sculpture sculpture;
  sculpture.leastMm = 0.2;
  sculpture.strayMm = 0.036;
  Push back = onFace(2, 0, -1, boxOf({kSternX, -15, -1}, {0, 15, 1.2}), [](const Vector3d& p) {
    return 0.8 *
           relief::boards(p.x(), p.y(),
                          {.widthMm = 3.5,
                           .lengthMm = 17,
                           .deepMm = 0.36,
                           .crownMm = 0.06,
                           .wearMm = 0.06,
                           .seed = 73}) *
           rise(2.3, 2.8, std::abs(p.y())) * within(p.x(), -34.6, -1, 0.5);
  });
  back.depthMm = 1.2;
  back.edgeMm = 0.8;
  sculpture.pushes = {onFace(2, kDeckZ, 1, boxOf({-32.2, -15, 15.5}, {-5, 15, 19}), chest),
                      flankOf(1), flankOf(-1), back};
  for (const int side : {1, -1}) {
    sculpture.holes.push_back(
        {{kFunnelX, side * kFunnelY, -2}, {kFunnelX, side * kFunnelY, 30}, 4.2, 0.5});
    sculpture.holes.push_back(
        {{kShoulderX, side * kArmY, kArmZ}, {kShoulderX, side * 25.0, kArmZ}, 6.3, 0.6});
    sculpture.holes.push_back({{kHipX, side * 4.0, kHipZ}, {kHipX, side * 20.0, kHipZ}, 4.9, 0.5});
  }
  sculpture.holes.push_back({{kBoardX, -4, kBoardZ}, {kBoardX, 4, kBoardZ}, 3.2, 0.5});
  return sculpted(meshed(torso(), kFacetMm), sculpture);
}

TriangleMesh detailedFunnel() {
  const Vector3d centre(kFunnelX, kFunnelY, 0);
  const auto plates = [=](const Vector3d& p) {
    const double along = kFunnelRadius * std::atan2(p.y() - centre.y(), p.x() - centre.x());
    const double pitch = kFunnelRadius * 2 * std::acos(-1.0) / 12;
    const double sheet = -0.32 * within(p.z(), 18.7, 24.6, 0.3);
    const double seam = -0.2 * rise(0.3, 0.12, std::abs(p.z() - 21.7)) -
                        0.2 * rise(0.22, 0.1, std::abs(along)) * within(p.z(), 19, 24.4, 0.3);
    double heads = 0;
    for (const double z : {19.6, 20.9, 22.5, 23.8})
      heads += relief::rivets(along + pitch / 2, p.z() - z, pitch, 0.38, 0.28);
    const double soot = -0.05 * (1 + relief::noise(p * 1.7, 81)) * within(p.z(), 18.6, 24.8, 0.3);
    return sheet + seam + heads + soot;
  };
  Sculpture sculpture;
  sculpture.pushes = {
      onBar(2, centre, kFunnelRadius, boxOf({-28, 5, 18.6}, {-20, 13, 24.9}), plates)};
  sculpture.pushes.front().depthMm = 0.9;
  sculpture.pushes.front().edgeMm = 0.32;
  sculpture.leastMm = 0.13;
  return sculpted(meshed(funnel(), kFacetMm), sculpture);
}

TriangleMesh detailedSternBoard() {
  Sculpture sculpture;
  sculpture.pushes = {onFace(0, -39, -1, boxOf({-40, -13.5, 6.6}, {-37.2, 13.5, 14}), transom)};
  sculpture.pushes.front().edgeMm = 0.4;
  sculpture.holes = {{{kBoardX, -6, kBoardZ}, {kBoardX, 6, kBoardZ}, 3.55, 0.4}};
  sculpture.kept = {{boxOf({-38, -14, 11.8}, {-36, 14, 13.4}), 0.3}};
  return sculpted(meshed(sternBoard(), kFacetMm), sculpture);
}

}  // namespace swingroom::samples::tug
