#include <cmath>

#include "sample_assemblies/harbour_tug/detail.h"
#include "sample_assemblies/mesh_export.h"
#include "sample_assemblies/sculpt/relief.h"
#include "sample_assemblies/sculpt/sculpt.h"

// Sleeves in folds, fists with fingers, the boathook's shaft of wood.
namespace swingroom::samples::tug {
namespace {

using Eigen::Vector3d;
using relief::rise;
using relief::within;

const Vector3d kArm(0, kArmY, kArmZ);

double roundArm(const Vector3d& p) {
  return std::atan2(p.z() - kArmZ, p.y() - kArmY);
}

/// Folds of stiff cloth, closer where the arm bends.
double folds(const Vector3d& p) {
  const double turn = roundArm(p);
  const double drift =
      0.5 * relief::noise({p.x() / 3, p.y() / 3, p.z() / 3}, 91) + 0.22 * std::sin(2 * turn + 0.4);
  const double wave = std::sin(2 * std::acos(-1.0) * (p.x() / 2.9 + drift));
  return 0.5 - 0.5 * wave * std::abs(wave);
}

}  // namespace

TriangleMesh detailedUpperArm() {
  const auto sleeve = [](const Vector3d& p) {
    const double r = std::hypot(p.y() - kArmY, p.z() - kArmZ);
    const double corner = -0.5 * rise(4.4, 5.7, r);
    return (corner - 0.42 * folds(p)) * rise(-33.6, -31.2, p.x()) * rise(-20.2, -20.8, p.x());
  };
  Sculpture sculpture;
  Push cloth = onBar(0, kArm, 3.2, boxOf({-36, 12.5, 2}, {-19.9, 25, 16}), sleeve);
  cloth.edgeMm = 0.5;
  sculpture.pushes = {cloth};
  sculpture.holes = {{{kShoulderX, kArmY, kArmZ}, {kShoulderX, kArmY - 10, kArmZ}, 4.25, 0.8},
                     {{kElbowX, 10, kArmZ}, {kElbowX, 26, kArmZ}, 4.2, 0.8}};
  sculpture.kept = {{boxOf({-40, 8, 6.4}, {-29.9, 18.5, 11.6}), 0.5}};
  return sculpted(meshed(upperArm(), kSocketFacetMm), sculpture);
}

TriangleMesh detailedForearm() {
  const Vector3d grip(kHandX, kArmY, 0);
  const auto fingers = [=](const Vector3d& p) {
    const double finger = (p.z() - kArmZ) / 2.25;
    const double across = finger - std::floor(finger) - 0.5;
    const double crease = -0.4 * 4 * across * across - 0.1 * rise(0.36, 0.46, std::abs(across));
    const double turn = std::atan2(p.y() - grip.y(), p.x() - grip.x());
    double joints = 0;
    for (const double at : {-1.35, -0.45, 0.45, 1.35})
      joints -= 0.12 * rise(0.09, 0.03, std::abs(turn - at));
    const double skin = 0.05 * relief::noise(p * 1.4, 95) - 0.05;
    return (crease + joints + skin) * rise(-7.6, -6.9, p.x());
  };
  const auto cuff = [](const Vector3d& p) {
    const double band = -0.3 * within(p.x(), -8.1, -7.3, 0.2);
    const double stitch = relief::bead(std::remainder(p.y() + p.z(), 0.9), 0.32, 0.14) *
                          within(p.x(), -8.95, -8.45, 0.15);
    return band + stitch * 0.9 - 0.1 * within(p.x(), -9.3, -8.2, 0.2);
  };
  Sculpture sculpture;
  Push fist = onBar(2, grip, 3.3, boxOf({-8, 14, 4}, {0, 23, 14}), fingers);
  fist.depthMm = 1.25;
  fist.edgeMm = 0.36;
  Push sleeve = onBar(0, kArm, 3.3, boxOf({-9.4, 13, 3}, {-7, 24, 16}), cuff);
  sleeve.edgeMm = 0.36;
  sculpture.pushes = {fist, sleeve};
  sculpture.holes = {{{kHandX, kArmY, 0}, {kHandX, kArmY, 20}, 1.9, 0.6},
                     {{kElbowX, 10, kArmZ}, {kElbowX, 26, kArmZ}, 4.2, 0.8}};
  return sculpted(meshed(forearm(), kFacetMm), sculpture);
}

TriangleMesh detailedBoathook() {
  const Vector3d centre(0, kArmY, kHookZ);
  const auto wood = [=](const Vector3d& p) {
    const double turn = std::atan2(p.z() - centre.z(), p.y() - centre.y());
    const Vector3d grain(p.x() / 7, 2.2 * std::cos(turn), 2.2 * std::sin(turn));
    const double rings = relief::noise(grain + Vector3d(0, 0, 0.6 * std::sin(p.x() / 5)), 101);
    const double knot = relief::dome({(p.x() - 4) / 1.6, turn - 1.2}, 0.5, 0.16) +
                        relief::dome({(p.x() - 25) / 1.6, turn - 2.1}, 0.5, 0.16);
    const double bare = within(p.x(), -16.6, 10.8, 0.8) + within(p.x(), 16.2, 31.4, 0.8);
    // A hand's breadth of cord on both sides of where the fist's nub holds.
    const double cord = within(p.x(), -26.2, -23.4, 0.3) + within(p.x(), -20.6, -17.2, 0.3);
    return -0.11 * (1 + rings) * bare + knot * bare * 0.5 -
           0.2 * (1 - relief::strands(p.x(), turn, 0.8, 1)) * cord;
  };
  Sculpture sculpture;
  sculpture.pushes = {onBar(0, centre, kShaftRadius, boxOf({-27, 16, 20}, {31.5, 21, 25}), wood)};
  sculpture.pushes.front().depthMm = 1.1;
  sculpture.pushes.front().edgeMm = 0.6;
  sculpture.leastMm = 0.19;
  return sculpted(meshed(boathook(), kFacetMm), sculpture);
}

}  // namespace swingroom::samples::tug
