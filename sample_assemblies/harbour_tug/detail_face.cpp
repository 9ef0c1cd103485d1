#include "sample_assemblies/harbour_tug/detail_face.h"

#include <algorithm>
#include <cmath>

#include "sample_assemblies/sculpt/relief.h"

namespace swingroom::samples::tug {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;
using relief::rise;
using relief::within;

/// How far (`u`, `v`) is outside a rectangle; inside negative.
double outside(double u, double v, Span width, Span height) {
  const double du = std::max(width.low - u, u - width.high);
  const double dv = std::max(height.low - v, v - height.high);
  if (du > 0 && dv > 0) return std::hypot(du, dv);
  return std::max(du, dv);
}

double eyes(double y, double z) {
  return outside(std::abs(y), z, kPaneY, kPaneZ);
}

/// A frame round a pane, with a screw at each corner and middle.
double frame(double off, double u, double v, Span width, Span height) {
  double made = 0.36 * rise(0.1, 0.42, off) * rise(1.1, 0.72, off);
  for (const double along : {width.low - 0.55, width.high + 0.55}) {
    for (const double up : {height.low - 0.5, (height.low + height.high) / 2, height.high + 0.5}) {
      made += relief::dome({u - along, v - up}, 0.36, 0.24);
    }
  }
  return made;
}

double hill(const Vector2d& off, double width, double height) {
  return height * std::exp(-off.squaredNorm() / (width * width));
}

double brows(double y, double z) {
  const double along = (std::abs(y) - 4.4) / 3.4;
  if (std::abs(along) >= 1) return 0;
  const double middle = 33.2 - 0.5 * along * along - 0.25 * along;
  const double half = 0.25 + 0.65 * std::sqrt(1 - along * along);
  const double hair = 0.2 * std::sin(6.5 * std::abs(y) - 3 * z);
  return relief::bead(z - middle, half, 1) * (0.95 + hair);
}

/// Two lobes from under the nose that end in tips.
double moustache(double y, double z) {
  const double s = std::abs(y) / 6.8;
  if (s >= 1) return 0;
  const double middle = 23.2 - 0.3 * std::sin(3.1416 * s) + 2.4 * s * s * s;
  const double half = 0.35 + 1.15 * std::sqrt(1 - s) * (0.8 + 0.8 * s * (1 - s));
  const double across = (z - middle) / half;
  if (std::abs(across) >= 1) return 0;
  const double hair = 0.22 * std::sin(across * 5.5 + s * 5);
  const double parting = 1 - 0.5 * std::exp(-y * y / 0.2);
  const double body = (1 - across * across) * (1.35 * parting + hair);
  return body * rise(1, 0.7, s);
}

double face(double y, double z) {
  const double side = std::abs(y);
  double height = hill({side - 6.6, z - 24.9}, 1.7, 0.55);  // Cheeks.
  height += hill({y, z - 26.3}, 1.1, 0.5) +
            hill({side - 1.75, z - 24.7}, 0.8, 0.5);  // Nose's bridge and wings.
  height += hill({y, z - 20.35}, 1.6, 0.45);          // Chin.
  height -= hill({side - 4.6, z - 20.9}, 1.2, 0.2);
  return height;
}

double clearOfPanes(double y, double z) {
  return rise(0.12, 0.6, eyes(y, z));
}

double mouthClear(double y, double z) {
  return rise(0.05, 0.4, outside(std::abs(y), z, {-1, 4}, {21.2, 22}));
}

}  // namespace

double moustachedFace(const Vector3d& p) {
  const double y = p.y(), z = p.z();
  const double soft = (face(y, z) * mouthClear(y, z) + 0.03 * relief::noise(p * 0.9, 111)) *
                      rise(8.4, 7.4, std::abs(y));
  const double frames = frame(eyes(y, z), std::abs(y), z, kPaneY, kPaneZ);
  return std::max({soft * clearOfPanes(y, z), frames * rise(33.8, 33.3, z),
                   moustache(y, z) * mouthClear(y, z), brows(y, z) * clearOfPanes(y, z)});
}

double beardedFace(const Vector3d& p) {
  const double y = p.y(), z = p.z();
  const double side = std::abs(y);
  // From the cheeks down, all round the mouth; strands that run down and outward.
  const double upper = 23.3 + 0.02 * side * side - 0.9 * std::exp(-y * y / 3);
  const double inBeard = rise(upper + 0.35, upper - 0.45, z) * rise(8.2, 7.2, side);
  const double sway = 0.35 * std::sin(0.9 * z) + 0.5 * relief::noise({y / 2.4, z / 2.4, 3}, 113);
  const double strand = std::sin(2 * 3.1416 * (y * (1 + 0.02 * (z - 19)) + sway) / 1.35);
  const double beard =
      (1.05 + 0.24 * strand + 0.1 * std::sin(7 * y + 2 * z)) * inBeard * mouthClear(y, z);
  const double soft = face(y, z) * (1 - inBeard) * rise(8.4, 7.4, side);
  const double frames = frame(eyes(y, z), side, z, kPaneY, kPaneZ);
  return std::max({soft * clearOfPanes(y, z), frames * rise(33.8, 33.3, z), beard,
                   moustache(y, z) + 0.9 * inBeard * mouthClear(y, z) * (moustache(y, z) > 0),
                   brows(y, z) * clearOfPanes(y, z)});
}

Push frontWall(std::function<double(const Vector3d&)> face) {
  Push push = onFace(0, kWheelhouseFrontX, 1,
                     boxOf({kWheelhouseFrontX - 2.6, -9, 18.5}, {6, 9, 34.1}), std::move(face));
  push.depthMm = 2.6;
  push.edgeMm = 0.34;
  return push;
}

std::vector<Push> otherWalls() {
  const relief::Boards boards{
      .widthMm = 2.1, .lengthMm = 40, .deepMm = 0.3, .crownMm = 0.05, .wearMm = 0.05, .seed = 117};
  const auto sideWall = [=](const Vector3d& p) {
    const double off = outside(p.x(), p.z(), kSidePaneX, kPaneZ);
    const double ear = std::hypot((p.x() + 9.4) / 1.25, (p.z() - 23.6) / 1.9);
    const double lobe =
        ear < 1 ? 0.85 * std::sqrt(1 - ear * ear) * rise(1, 0.7, ear) -
                      0.75 * rise(0.62, 0.2, std::hypot((p.x() + 9.1) / 1.25, (p.z() - 23.8) / 1.9))
                : 0;
    const double bare = rise(0.95, 1.2, off) * rise(1, 1.2, ear) * within(p.x(), -16.4, -2.9, 0.5);
    return bare * relief::boards(p.z(), p.x(), boards) +
           frame(off, p.x(), p.z(), kSidePaneX, kPaneZ) + lobe;
  };
  const auto back = [=](const Vector3d& p) {
    return relief::boards(p.z(), p.y(), boards) * within(p.y(), -7.7, 7.7, 0.5) *
           (std::abs(p.y()) < 4.6 ? rise(24.3, 24.9, p.z()) : 1.0);
  };
  std::vector<Push> pushes;
  for (const int sign : {1, -1}) {
    pushes.push_back(
        onFace(1, sign * kWheelhouseY, sign,
               boxOf({-18.8, sign > 0 ? 7.0 : -13.0, 20.1}, {-0.6, sign > 0 ? 13.0 : -7.0, 34.15}),
               sideWall));
  }
  pushes.push_back(onFace(0, kWheelhouseBackX, -1, boxOf({-20, -9, 20.1}, {-17, 9, 34.15}), back));
  return pushes;
}

Sculpture headWith(std::vector<Push> pushes) {
  Sculpture sculpture;
  sculpture.leastMm = 0.14;
  sculpture.strayMm = 0.034;
  sculpture.pushes = std::move(pushes);
  sculpture.holes = {{{kNeckX, -4, kNeckZ}, {kNeckX, 4, kNeckZ}, 3.2, 0.5}};
  return sculpture;
}

}  // namespace swingroom::samples::tug
