#include "core/sweep/surfaces.h"

#include "core/mesh/split.h"
#include "core/sweep/cut_memory.h"

namespace swingroom {
namespace {

void append(TriangleMesh& mesh, const TriangleMesh& more) {
  const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
  mesh.vertices.insert(mesh.vertices.end(), more.vertices.begin(), more.vertices.end());
  for (const auto& [a, b, c] : more.triangles) mesh.triangles.push_back({a + first, b + first, c + first});
}

CutPart cutPart(TriangleMesh inside, TriangleMesh outside) {
  CutPart part;
  part.insideAreaMm2 = areaOf(inside);
  part.inside = std::make_shared<const Surface>(std::make_shared<const TriangleMesh>(std::move(inside)));
  part.outside = std::make_shared<const Surface>(std::make_shared<const TriangleMesh>(std::move(outside)));
  return part;
}

/// All that a cut depends on beside the mesh, bit by bit.
std::vector<double> zonesIn(const Pose& X_PW, const std::vector<const Joint*>& joints) {
  std::vector<double> numbers;
  for (const Joint* joint : joints) {
    const Vector3d through = X_PW * joint->through, along = X_PW.linear() * joint->along;
    for (const JointZone& zone : joint->zones) {
      numbers.push_back(joint->type == JointType::ball ? 1 : 0);
      numbers.insert(numbers.end(), through.begin(), through.end());
      numbers.insert(numbers.end(), along.begin(), along.end());
      numbers.insert(numbers.end(), {zone.radiusMm, zone.fromMm, zone.toMm});
    }
  }
  return numbers;
}

SplitMesh splitAtZone(const TriangleMesh& mesh, const Pose& X_PW, const Joint& joint, const JointZone& zone) {
  const Vector3d through = X_PW * joint.through;
  if (joint.type == JointType::ball) return splitByBall(mesh, through, zone.radiusMm);
  return splitByCylinder(mesh, through, X_PW.linear() * joint.along, zone.radiusMm, zone.fromMm, zone.toMm);
}

}  // namespace

CutPart cutAtZones(const TriangleMesh& mesh, const Pose& X_WP_home, const std::vector<const Joint*>& joints) {
  TriangleMesh inside;
  TriangleMesh rest = mesh;
  const Pose X_PW = X_WP_home.inverse();
  for (const Joint* joint : joints) {
    for (const JointZone& zone : joint->zones) {
      SplitMesh split = splitAtZone(rest, X_PW, *joint, zone);
      append(inside, split.inside);
      rest = std::move(split.outside);
    }
  }
  return cutPart(std::move(inside), std::move(rest));
}

CutPart cutAtZones(const std::shared_ptr<const TriangleMesh>& mesh, const Pose& X_WP_home,
                   const std::vector<const Joint*>& joints) {
  static CutMemory memory;
  const std::vector<double> zones = zonesIn(X_WP_home.inverse(), joints);
  if (auto known = memory.find(mesh, zones)) return *std::move(known);
  CutPart cut = cutAtZones(*mesh, X_WP_home, joints);
  memory.keep(mesh, zones, cut);
  return cut;
}

CutPart cutAtPlace(const TriangleMesh& mesh, const Pose& X_WP, const Contact::Place& place) {
  SplitMesh split = splitByBall(mesh, X_WP.inverse() * place.at, place.radiusMm);
  return cutPart(std::move(split.inside), std::move(split.outside));
}

}  // namespace swingroom
