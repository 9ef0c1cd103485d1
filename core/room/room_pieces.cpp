#include "core/room/room_pieces.h"

#include <algorithm>
#include <cmath>

#include "core/mesh/split.h"

namespace swingroom {
namespace {

constexpr double kPiecesAcross = 60;

/// A joint's zone in P's frame, with a ball that holds it.
struct PartZone {
  const Joint* joint;
  const JointZone* zone;
  Vector3d through_P, along_P, middle_P;
  double radiusMm;

  SplitMesh split(const TriangleMesh& mesh) const {
    if (joint->type == JointType::ball) return splitByBall(mesh, through_P, zone->radiusMm);
    return splitByCylinder(mesh, through_P, along_P, zone->radiusMm, zone->fromMm, zone->toMm);
  }
};

std::vector<PartZone> zonesOf(const Assembly& assembly, PartId part) {
  std::vector<PartZone> zones;
  const Pose X_PW = assembly.part(part).X_WP_home.inverse();
  for (const Joint& joint : assembly.joints()) {
    if (!joint.parent || (joint.parent != part && joint.child != part)) continue;
    for (const JointZone& zone : joint.zones) {
      PartZone own{&joint, &zone, X_PW * joint.through, X_PW.linear() * joint.along, {}, 0};
      own.middle_P = own.through_P;
      own.radiusMm = zone.radiusMm;
      if (joint.type != JointType::ball) {
        own.middle_P += 0.5 * (zone.fromMm + zone.toMm) * own.along_P;
        own.radiusMm = std::hypot(zone.radiusMm, 0.5 * (zone.toMm - zone.fromMm));
      }
      zones.push_back(own);
    }
  }
  return zones;
}

class PieceMaker {
 public:
  PieceMaker(std::vector<PartZone> zones, double pieceMm) : zones_(std::move(zones)), pieceMm_(pieceMm) {}

  void add(const TriangleCorners& corners, std::uint32_t triangle) { cutAt(0, {corners, triangle, false}); }
  std::vector<SurfacePiece> take() { return std::move(pieces_); }

 private:
  void cutAt(std::size_t zone, const SurfacePiece& piece) {
    while (zone < zones_.size() && isFar(zones_[zone], piece.corners_P)) ++zone;
    if (zone == zones_.size()) return splitAndAdd(piece);
    const TriangleCorners& t = piece.corners_P;
    const SplitMesh split = zones_[zone].split({{t[0], t[1], t[2]}, {{0, 1, 2}}});
    for (std::size_t i = 0; i < split.inside.triangles.size(); ++i) {
      splitAndAdd({cornersOf(split.inside, i), piece.triangle, true});
    }
    for (std::size_t i = 0; i < split.outside.triangles.size(); ++i) {
      cutAt(zone + 1, {cornersOf(split.outside, i), piece.triangle, false});
    }
  }

  static TriangleCorners cornersOf(const TriangleMesh& mesh, std::size_t t) {
    return {mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)};
  }

  static bool isFar(const PartZone& zone, const TriangleCorners& t) {
    return (closestPointOnTriangle(zone.middle_P, t) - zone.middle_P).norm() > zone.radiusMm;
  }

  void splitAndAdd(const SurfacePiece& piece) {
    const TriangleCorners& t = piece.corners_P;
    if (!((t[1] - t[0]).cross(t[2] - t[0]).norm() > 0)) return;
    std::size_t longest = 0;
    const auto squared = [&](std::size_t e) { return (t[(e + 1) % 3] - t[e]).squaredNorm(); };
    for (std::size_t e = 1; e < 3; ++e) {
      if (squared(e) > squared(longest)) longest = e;
    }
    if (squared(longest) <= pieceMm_ * pieceMm_) {
      pieces_.push_back(piece);
      return;
    }
    const Vector3d &p = t[longest], &q = t[(longest + 1) % 3], &r = t[(longest + 2) % 3];
    const Vector3d middle = 0.5 * (p + q);
    splitAndAdd({{p, middle, r}, piece.triangle, piece.inZone});
    splitAndAdd({{middle, q, r}, piece.triangle, piece.inZone});
  }

  std::vector<PartZone> zones_;
  double pieceMm_;
  std::vector<SurfacePiece> pieces_;
};

TriangleMesh meshOfJudged(const std::vector<SurfacePiece>& all) {
  TriangleMesh mesh;
  for (const SurfacePiece& piece : all) {
    if (piece.inZone) continue;
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.insert(mesh.vertices.end(), piece.corners_P.begin(), piece.corners_P.end());
    mesh.triangles.push_back({first, first + 1, first + 2});
  }
  return mesh;
}

}  // namespace

std::vector<SurfacePiece> piecesOf(const Assembly& assembly, PartId part, double pieceMm) {
  const TriangleMesh& mesh = *assembly.part(part).mesh;
  if (pieceMm == 0) pieceMm = boundsOf(mesh).diagonal().norm() / kPiecesAcross;
  PieceMaker maker(zonesOf(assembly, part), pieceMm);
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    maker.add({mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)}, static_cast<std::uint32_t>(t));
  }
  return maker.take();
}

JudgedPieces::JudgedPieces(const std::vector<SurfacePiece>& all) : tree(meshOfJudged(all)) {
  std::vector<std::uint32_t> judged;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!all[i].inZone) judged.push_back(static_cast<std::uint32_t>(i));
  }
  for (const std::uint32_t triangle : tree.order()) places.push_back(judged[triangle]);
}

}  // namespace swingroom
