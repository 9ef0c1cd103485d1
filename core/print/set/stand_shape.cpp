#include "core/print/set/stand_shape.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

#include "core/mesh/feature_finder.h"

namespace swingroom {
namespace {

constexpr double kOnAxisMm = 0.3;        // Feature and joint on one axis.
constexpr double kOnAxisCos = 0.9994;    // 2 degrees.
constexpr double kBearingSlackMm = 0.1;  // Facets lie inside their cylinder.
constexpr double kTabSlender = 4;        // Variances along and across a tab: twice as long.

void addNeighbours(StandShape& shape) {
  struct Edge {
    std::uint32_t low, high, triangle;
    int corner;
  };
  const TriangleMesh& mesh = *shape.mesh;
  std::vector<Edge> edges;
  edges.reserve(mesh.triangles.size() * 3);
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
    for (int i = 0; i < 3; ++i) {
      const std::uint32_t a = mesh.triangles[t][static_cast<std::size_t>(i)];
      const std::uint32_t b = mesh.triangles[t][static_cast<std::size_t>((i + 1) % 3)];
      edges.push_back({std::min(a, b), std::max(a, b), t, i});
    }
  }
  const auto key = [](const Edge& e) { return std::pair(e.low, e.high); };
  std::sort(edges.begin(), edges.end(), [&](const Edge& a, const Edge& b) {
    return key(a) != key(b) ? key(a) < key(b) : a.triangle < b.triangle;
  });
  shape.neighbours.assign(mesh.triangles.size(),
                          {StandShape::kNone, StandShape::kNone, StandShape::kNone});
  for (std::size_t i = 0; i + 1 < edges.size();) {
    std::size_t end = i + 1;
    while (end < edges.size() && key(edges[end]) == key(edges[i])) ++end;
    if (end - i == 2) {
      shape.neighbours[edges[i].triangle][static_cast<std::size_t>(edges[i].corner)] =
          edges[i + 1].triangle;
      shape.neighbours[edges[i + 1].triangle][static_cast<std::size_t>(edges[i + 1].corner)] =
          edges[i].triangle;
    }
    i = end;
  }
}

/// A joint's axis, or a ball's centre, in the part's frame.
struct StandAxis {
  const Joint* joint;
  Vector3d through, along;
};

std::vector<StandAxis> axesIn(const PrintSubject& subject, const std::vector<PartId>& parts) {
  std::vector<StandAxis> axes;
  for (const PartId part : parts) {
    const Pose X_PW = subject.part(part).X_WP_home.inverse();
    for (const Joint& joint : subject.assembly->joints()) {
      if (joint.type == JointType::fixed) continue;
      axes.push_back({&joint, X_PW * joint.through, X_PW.linear() * joint.along});
    }
  }
  return axes;
}

double offAxis(const StandAxis& axis, const Vector3d& p) {
  return (p - axis.through).cross(axis.along).norm();
}

/// Along the joint's axis the feature lies in one of its zones, or there is none.
bool isInZones(const StandAxis& axis, const CylinderFeature& cylinder) {
  if (axis.joint->zones.empty()) return true;
  const double from =
      (cylinder.through + cylinder.fromMm * cylinder.along - axis.through).dot(axis.along);
  const double to =
      (cylinder.through + cylinder.toMm * cylinder.along - axis.through).dot(axis.along);
  return std::any_of(axis.joint->zones.begin(), axis.joint->zones.end(), [&](const JointZone& z) {
    return std::max(from, to) > z.fromMm && std::min(from, to) < z.toMm;
  });
}

bool isOn(const StandAxis& axis, const CylinderFeature& cylinder) {
  return axis.joint->type != JointType::ball &&
         std::abs(axis.along.dot(cylinder.along)) >= kOnAxisCos &&
         offAxis(axis, cylinder.through + (cylinder.fromMm + cylinder.toMm) / 2 * cylinder.along) <=
             kOnAxisMm &&
         isInZones(axis, cylinder);
}

void markCylinder(const CylinderFeature& cylinder, StandShape& shape) {
  for (std::uint32_t t = 0; t < shape.areas.size(); ++t) {
    bool on = true;
    for (int i = 0; i < 3 && on; ++i) {
      const Vector3d d = shape.mesh->corner(t, i) - cylinder.through;
      const double along = d.dot(cylinder.along);
      const double r = (d - along * cylinder.along).norm();
      on = std::abs(r - cylinder.radiusMm) < kBearingSlackMm &&
           along > cylinder.fromMm - kBearingSlackMm && along < cylinder.toMm + kBearingSlackMm;
    }
    if (on) shape.bearing[t] = true;
  }
}

void markBall(const BallFeature& ball, StandShape& shape) {
  for (std::uint32_t t = 0; t < shape.areas.size(); ++t) {
    bool on = true;
    for (int i = 0; i < 3 && on; ++i) {
      const double r = (shape.mesh->corner(t, i) - ball.centre).norm();
      on = std::abs(r - ball.radiusMm) < kBearingSlackMm;
    }
    if (on) shape.bearing[t] = true;
  }
}

void addPin(const CylinderFeature& cylinder, StandShape& shape) {
  LoadedShape pin;
  pin.middle = cylinder.through + (cylinder.fromMm + cylinder.toMm) / 2 * cylinder.along;
  pin.along = cylinder.along;
  pin.acrossMm = 2 * cylinder.radiusMm;
  pin.lengthMm = cylinder.toMm - cylinder.fromMm;
  shape.loaded.push_back(pin);
}

/// A hole goes through it along its own axis: an eye, no pin.
bool isHollow(const CylinderFeature& pin, const Features& features) {
  return std::any_of(
      features.cylinders.begin(), features.cylinders.end(), [&](const CylinderFeature& hole) {
        if (hole.outward || std::abs(hole.along.dot(pin.along)) < kOnAxisCos) return false;
        if ((hole.through - pin.through).cross(pin.along).norm() > kOnAxisMm) return false;
        const double from = (hole.through + hole.fromMm * hole.along - pin.through).dot(pin.along);
        const double to = (hole.through + hole.toMm * hole.along - pin.through).dot(pin.along);
        return std::max(from, to) > pin.fromMm + kBearingSlackMm &&
               std::min(from, to) < pin.toMm - kBearingSlackMm;
      });
}

void addBearings(const PrintSubject& subject, const std::vector<PartId>& parts, StandShape& shape) {
  const Part& part = subject.part(parts.front());
  const Features features = part.exactFeatures ? *part.exactFeatures : featuresOf(*shape.mesh);
  const std::vector<StandAxis> axes = axesIn(subject, parts);
  for (const CylinderFeature& cylinder : features.cylinders) {
    if (std::none_of(axes.begin(), axes.end(),
                     [&](const StandAxis& a) { return isOn(a, cylinder); })) {
      continue;
    }
    markCylinder(cylinder, shape);
    if (cylinder.outward && !isHollow(cylinder, features)) addPin(cylinder, shape);
  }
  for (const BallFeature& ball : features.balls) {
    if (std::any_of(axes.begin(), axes.end(), [&](const StandAxis& a) {
          return a.joint->type == JointType::ball && (a.through - ball.centre).norm() <= kOnAxisMm;
        })) {
      markBall(ball, shape);
    }
  }
}

/// The slender piece of surface in a contact's place, if it is one.
std::optional<LoadedShape> tabIn(const StandShape& shape, const Vector3d& at, double radius) {
  double area = 0;
  Vector3d sum = Vector3d::Zero();
  Eigen::Matrix3d squares = Eigen::Matrix3d::Zero();
  for (std::uint32_t t = 0; t < shape.areas.size(); ++t) {
    const Vector3d middle =
        (shape.mesh->corner(t, 0) + shape.mesh->corner(t, 1) + shape.mesh->corner(t, 2)) / 3;
    if ((middle - at).norm() > radius) continue;
    area += shape.areas[t];
    sum += shape.areas[t] * middle;
    squares += shape.areas[t] * middle * middle.transpose();
  }
  if (area <= 0) return std::nullopt;
  const Vector3d mean = sum / area;
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> axes(squares / area -
                                                            mean * mean.transpose());
  const Vector3d spread = axes.eigenvalues().cwiseMax(0);
  if (spread[2] < kTabSlender * spread[1]) return std::nullopt;
  LoadedShape tab;
  tab.kind = LoadedShape::Kind::tab;
  tab.middle = mean;
  tab.along = axes.eigenvectors().col(2);
  // Of an even rectangle: its side is the square root of 12 variances.
  tab.lengthMm = std::sqrt(12 * spread[2]);
  tab.acrossMm = std::sqrt(12 * spread[1]);
  return tab;
}

void addTabs(const PrintSubject& subject, const std::vector<PartId>& parts, StandShape& shape) {
  for (const PairRule& rule : subject.assembly->pairRules()) {
    for (const PartId part : parts) {
      if (rule.a != part && rule.b != part) continue;
      for (const Contact& contact : rule.contacts) {
        const bool holds = contact.kind == ContactKind::grip || contact.kind == ContactKind::snap;
        if (!holds || !contact.place || contact.modes.empty()) continue;
        const Mode& mode = subject.modes->at(contact.modes.front().index);
        const Pose X_WP = posesOf(*subject.assembly, mode.configuration)[part.index];
        const auto tab = tabIn(shape, X_WP.inverse() * contact.place->at, contact.place->radiusMm);
        if (tab) shape.loaded.push_back(*tab);
      }
    }
  }
}

/// The same pin found by two parts of one mesh counts once.
void dropRepeated(std::vector<LoadedShape>& loaded) {
  std::vector<LoadedShape> kept;
  for (const LoadedShape& each : loaded) {
    if (std::find(kept.begin(), kept.end(), each) == kept.end()) kept.push_back(each);
  }
  loaded = std::move(kept);
}

}  // namespace

StandShape standShapeOf(std::shared_ptr<const TriangleMesh> mesh) {
  StandShape shape;
  shape.mesh = std::move(mesh);
  for (std::size_t t = 0; t < shape.mesh->triangles.size(); ++t) {
    const Vector3d& a = shape.mesh->corner(t, 0);
    const Vector3d across = (shape.mesh->corner(t, 1) - a).cross(shape.mesh->corner(t, 2) - a);
    const double twice = across.norm();
    shape.areas.push_back(twice / 2);
    shape.normals.push_back(twice > 0 ? Vector3d(across / twice) : Vector3d(0, 0, 0));
  }
  shape.bearing.assign(shape.areas.size(), false);
  addNeighbours(shape);
  return shape;
}

StandShape standShapeOf(const PrintSubject& subject, const std::vector<PartId>& parts) {
  StandShape shape = standShapeOf(subject.part(parts.front()).mesh);
  addBearings(subject, parts, shape);
  addTabs(subject, parts, shape);
  dropRepeated(shape.loaded);
  return shape;
}

}  // namespace swingroom
