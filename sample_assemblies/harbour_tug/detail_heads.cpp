#include <cmath>

#include "sample_assemblies/harbour_tug/detail_face.h"
#include "sample_assemblies/mesh_export.h"
#include "sample_assemblies/sculpt/relief.h"

// Three heads: a helmsman in a flat cap, a skipper with a beard and a tall cap, one in a
// sou'wester whose flap is too long for the funnels.
namespace swingroom::samples::tug {
namespace {

using Eigen::Vector3d;
using relief::rise;
using relief::within;

constexpr double kMiddleX = (kWheelhouseFrontX + kWheelhouseBackX) / 2;

Solid nose() {
  return ball({kWheelhouseFrontX + 0.45, 0, 25.1}, 1.75);
}

Solid peak(double thick) {
  const Solid slab = roundedBlock({kWheelhouseBackX, kWheelhouseFrontX + 3.2}, {-10.8, 10.8},
                                  {kRoofZ - 2, kRoofZ - 2 + thick}, 3);
  return bevelled(slab, Axis::z, kRoofZ - 2 + thick, 0.7);
}

Solid knob(double z, double radius) {
  return bevelled(rod({kMiddleX, 0, z - 1}, Axis::z, 2.2, radius), Axis::z, z + 1.2, 0.5);
}

/// Cloth of a cap from above: seams from the middle, stitches along the edge, a little slack.
double capTop(const Vector3d& p) {
  const double off = std::hypot(p.x() - kMiddleX, p.y());
  const double turn = std::atan2(p.y(), p.x() - kMiddleX);
  const double seam = off * std::sin(std::abs(std::remainder(turn, 0.7854)));
  const double slack = -0.12 * (1 + relief::noise({p.x() / 2.6, p.y() / 2.6, 7}, 121));
  return (slack - 0.26 * rise(0.62, 0, seam)) * rise(2.9, 3.4, off);
}

/// The stiff peak: lines of stitching that follow its edge.
double peakTop(double x, double y) {
  const double off = std::max(std::abs(x - (-8.1)) - 10.6, std::abs(y) - 10.8);  // below 0 on it
  double lines = 0;
  for (const double at : {-1.3, -2.1}) lines -= 0.16 * rise(0.4, 0.05, std::abs(off - at));
  return lines;
}

/// A twisted cord round a cap of this half size, at its height.
double cord(double along, double z, double middleZ) {
  return relief::rope(along, z - middleZ, 0.62, 0.42);
}

std::vector<Push> withFront(std::function<double(const Vector3d&)> face, std::vector<Push> more) {
  std::vector<Push> pushes = otherWalls();
  pushes.push_back(frontWall(std::move(face)));
  for (Push& push : more) pushes.push_back(std::move(push));
  return pushes;
}

/// The tall cap's crown, wider than its band.
Solid crown() {
  const Solid band = roundedBlock({kWheelhouseBackX + 0.9, kWheelhouseFrontX - 0.9}, {-9.4, 9.4},
                                  {kRoofZ - 1, kRoofZ + 2.2}, 5);
  const Solid top = roundedBlock({kWheelhouseBackX - 0.2, kWheelhouseFrontX + 0.6}, {-10.4, 10.4},
                                 {kRoofZ + 2, kRoofZ + 5}, 5.5);
  return joined({band, bevelled(bevelled(top, Axis::z, kRoofZ + 5, 1.3), Axis::z, kRoofZ + 2, 0.6),
                 knob(kRoofZ + 5, 1.1)});
}

Solid beard() {
  return bevelled(prism({{-6.6, 23},
                         {-6.9, 20.6},
                         {-5, 19.2},
                         {-1.8, 18.7},
                         {1.8, 18.7},
                         {5, 19.2},
                         {6.9, 20.6},
                         {6.6, 23}},
                        Axis::x, {kWheelhouseFrontX - 1.2, kWheelhouseFrontX + 0.55}),
                  Axis::x, kWheelhouseFrontX + 0.55, 0.5);
}

/// Front edge and neck flap of the sou'wester, seen from port: its brim dips in front.
Solid brim() {
  const double back = kWheelhouseBackX - kFlapReach;
  const Solid flap = prism({{kWheelhouseBackX + 3, 35.4},
                            {kWheelhouseBackX + 3, 33.4},
                            {kWheelhouseBackX - 0.3, 32},
                            {back + 1.3, kFlapEdgeZ.low},
                            {back, kFlapEdgeZ.low},
                            {back, kFlapEdgeZ.high},
                            {kWheelhouseBackX - 0.4, 34}},
                           Axis::y, {-10.8, 10.8});
  const Solid shaped = common(flap, roundedBlock({back, 10}, {-10.8, 10.8}, {20, 40}, 1));
  const Solid front = prism({{kWheelhouseBackX + 3, 35.4},
                             {kWheelhouseBackX + 3, 33.7},
                             {kWheelhouseFrontX + 0.5, 33.9},
                             {kWheelhouseFrontX + 3.4, 33.2},
                             {kWheelhouseFrontX + 3.4, 34},
                             {kWheelhouseFrontX, 35.8}},
                            Axis::y, {-10.8, 10.8});
  return joined({shaped, common(front, roundedBlock({-30, kWheelhouseFrontX + 3.4}, {-10.8, 10.8},
                                                    {20, 40}, 3))});
}

Solid hatCrown() {
  const Solid round = ball({kMiddleX, 0, 27.6}, 12.2);
  return common(round, block({-30, 10}, {-10, 10}, {33.8, 50}));
}

/// Oilskin: seams of six gores, rows of stitches, dents.
double oilskin(const Vector3d& p) {
  const double turn = std::atan2(p.y(), p.x() - kMiddleX);
  const double off = std::hypot(p.y(), p.x() - kMiddleX);
  const double seam = off * std::sin(std::abs(std::remainder(turn, 1.0472)));
  const double stitch =
      relief::bead(std::remainder(off, 0.95), 0.36, 0.16) * within(seam, 0.35, 0.95, 0.15);
  return 0.3 * rise(0.5, 0.2, seam) + stitch - 0.14 * (1 + relief::noise(p / 2.3, 131));
}

}  // namespace

TriangleMesh detailedHead() {
  const Solid solid = headOf({peak(2), knob(kRoofZ, 1.9), nose()});
  const auto rim = [](const Vector3d& p) { return cord(p.y(), p.z(), kRoofZ - 1.25); };
  Push top = onFace(2, kRoofZ, 1, boxOf({-19, -11, kRoofZ - 1.5}, {3, 11, kRoofZ + 2}),
                    [](const Vector3d& p) {
                      return capTop(p) * rise(1.2, 0.4, p.x()) * within(p.x(), -17.6, 4, 0.5) *
                                 within(p.y(), -9.9, 9.9, 0.5) +
                             peakTop(p.x(), p.y()) * rise(-0.6, 0.2, p.x());
                    });
  Push edge =
      onFace(0, kWheelhouseFrontX + 3.2, 1, boxOf({0.5, -7.6, kRoofZ - 2}, {4, 7.6, kRoofZ}),
             [=](const Vector3d& p) { return rim(p) * within(p.y(), -7.6, 7.6, 0.6); });
  edge.edgeMm = 0.28;
  return sculpted(meshed(solid, kFacetMm), headWith(withFront(moustachedFace, {top, edge})));
}

TriangleMesh skippersHead() {
  const Solid solid = headOf({peak(1.6), crown(), beard(), nose()});
  Push top =
      onFace(2, kRoofZ + 5, 1, boxOf({-20, -11, kRoofZ + 3.4}, {1, 11, kRoofZ + 8}),
             [](const Vector3d& p) {
               return capTop(p) * within(p.x(), -17.4, -1.2, 0.5) * within(p.y(), -8.9, 8.9, 0.5);
             });
  // An anchor on the band over the peak.
  const auto badge = [](const Vector3d& p) {
    const double y = p.y(), z = p.z() - (kRoofZ + 0.9);
    const double shank = relief::bead(y, 0.24, 0.3) * within(z, -1.0, 0.9, 0.1);
    const double stock = relief::bead(z - 0.55, 0.2, 0.28) * within(y, -0.6, 0.6, 0.1);
    const double off = std::hypot(y, z + 0.05);
    const double arms = relief::bead(off - 0.95, 0.24, 0.3) * rise(-0.1, -0.35, z);
    return std::max({shank, stock, arms, cord(y, z, 1.15) * 0.6});
  };
  Push band =
      onFace(0, kWheelhouseFrontX - 0.9, 1, boxOf({-4, -5, kRoofZ - 0.3}, {1, 5, kRoofZ + 2.1}),
             [=](const Vector3d& p) { return badge(p) * within(p.y(), -4.4, 4.4, 0.4); });
  band.edgeMm = 0.25;
  Push brimTop =
      onFace(2, kRoofZ - 0.4, 1, boxOf({-0.9, -11, kRoofZ - 1.6}, {3, 11, kRoofZ}),
             [](const Vector3d& p) { return peakTop(p.x(), p.y()) * rise(-0.6, 0.2, p.x()); });
  return sculpted(meshed(solid, kFacetMm), headWith(withFront(beardedFace, {top, band, brimTop})));
}

TriangleMesh souwesterHead() {
  const Solid solid = headOf({brim(), hatCrown(), nose()});
  const Vector3d centre(kMiddleX, 0, 27.6);
  // The brim comes down over the brows.
  const auto underBrim = [](const Vector3d& p) {
    return moustachedFace(p) * rise(33.1, 32.7, p.z());
  };
  const Push hat{boxOf({-20, -11, 34.6}, {3, 11, 45}),
                 [](const Vector3d& p) { return oilskin(p) * rise(34.8, 36.6, p.z()); },
                 [=](const Vector3d& p) { return 12.2 - (p - centre).norm(); },
                 [=](const Vector3d& p) -> Vector3d { return (p - centre).normalized(); },
                 2.2,
                 0.75};
  return sculpted(meshed(solid, kFacetMm), headWith(withFront(underBrim, {hat})));
}

TriangleMesh detailedWindow() {
  const auto iris = [](const Vector3d& p) {
    const double off = std::hypot(p.y() - 4.1, p.z() - 29.6);
    const double white = 0.25 * rise(2.5, 1.2, off);
    return white - 0.2 * rise(0.36, 0.05, std::abs(off - 1.55)) +
           relief::dome({p.y() - 4.1, p.z() - 29.6}, 0.75, 0.22);
  };
  Sculpture sculpture;
  Push push = onFace(0, kWheelhouseFrontX + 0.2, 1,
                     boxOf({kWheelhouseFrontX - 1, 1.1, 27.1}, {1, 7.9, 32.3}), iris);
  push.depthMm = 1;
  push.edgeMm = 0.3;
  sculpture.leastMm = 0.1;
  sculpture.strayMm = 0.012;
  sculpture.pushes = {push};
  return sculpted(meshed(window(), kFacetMm), sculpture);
}

}  // namespace swingroom::samples::tug
