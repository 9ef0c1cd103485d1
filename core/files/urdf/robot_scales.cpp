#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <set>

#include "core/files/document/document_problems.h"
#include "core/files/document/found_text.h"
#include "core/files/document/json_value.h"
#include "core/files/urdf/robot_parts.h"

namespace swingroom {
namespace {

constexpr double kSameScale = 1e-6;  // Relative; files write scales with few digits.
constexpr double kFarOff = 100;      // A factor between a mesh and its robot that no link has.

std::string scaleText(const RobotShape& mesh) {
  return numberText(mesh.scale[0]) + " " + numberText(mesh.scale[1]) + " " +
         numberText(mesh.scale[2]);
}

bool isUneven(const RobotShape& mesh) {
  const double first = std::abs(mesh.scale[0]);
  return std::any_of(mesh.scale.begin(), mesh.scale.end(),
                     [&](double s) { return std::abs(std::abs(s) - first) > kSameScale * first; });
}

/// The longest side of the box round all links' origins, mm.
double reachOf(const RobotTree& tree) {
  Eigen::AlignedBox3d box;
  for (const Pose& X : tree.X_WL) box.extend(Vector3d(1000 * X.translation()));
  return box.sizes().maxCoeff();
}

struct SizedMesh {
  const RobotShape* shape = nullptr;
  double mm = 0;  ///< Longest side of its box, as it is in the robot.
};

std::vector<SizedMesh> sizesOf(const std::vector<ChosenBody>& bodies,
                               const std::map<std::string, RobotMesh>& meshes) {
  std::vector<SizedMesh> all;
  for (const ChosenBody& chosen : bodies) {
    const RobotShape& shape = chosen.body->shape;
    if (shape.kind != RobotShapeKind::mesh) continue;
    const RobotMesh& mesh = meshes.at(shape.file);
    const double unit = mesh.hasUnit ? 1 : 1000;
    all.push_back({&shape, unit * std::abs(shape.scale[0]) * mesh.sizeMm.maxCoeff()});
  }
  return all;
}

/// What the meshes are measured against: the distances of the joints, or without any each other.
double usualSize(const RobotTree& tree, std::vector<SizedMesh> all) {
  const double reach = reachOf(tree);
  if (reach > 1 || all.empty()) return reach;
  const auto middle = all.begin() + static_cast<long>(all.size() / 2);
  std::nth_element(all.begin(), middle, all.end(),
                   [](const SizedMesh& a, const SizedMesh& b) { return a.mm < b.mm; });
  return middle->mm;
}

/// Meshes that are off the same way.
struct OffSizes {
  std::set<std::string> files;
  int line = 0;
  double mostMm = 0;

  void add(const SizedMesh& one) {
    if (files.empty()) line = one.shape->line;
    files.insert(one.shape->file);
    mostMm = std::max(mostMm, one.mm);
  }
  std::string names() const {
    return listed({files.begin(), files.end()}, 4) + (files.size() == 1 ? " is" : " are");
  }
};

std::string lengthText(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g", mm >= 1000 ? mm / 1000 : mm);
  return text + std::string(mm >= 1000 ? " m" : " mm");
}

}  // namespace

void tellScales(const std::vector<ChosenBody>& bodies, XmlProblems& problems) {
  std::set<int> told;  // By line: visual and collision may be looked at both.
  for (const ChosenBody& chosen : bodies) {
    const RobotShape& shape = chosen.body->shape;
    if (shape.kind != RobotShapeKind::mesh || !told.insert(shape.line).second) continue;
    if (shape.scale[0] == 0 || shape.scale[1] == 0 || shape.scale[2] == 0) {
      problems.mistake(shape.line, "scale " + inQuotes(scaleText(shape)) + " makes the mesh flat",
                       "no scale is 1 1 1");
    } else if (isUneven(shape)) {
      problems.mistake(shape.line,
                       "scale " + inQuotes(scaleText(shape)) +
                           " differs from axis to axis, which a part cannot have",
                       "scale the mesh file itself so and write one number three times");
    }
  }
}

void noteSizes(const RobotTree& tree, const std::vector<ChosenBody>& bodies,
               const std::map<std::string, RobotMesh>& meshes, XmlProblems& problems) {
  const std::vector<SizedMesh> all = sizesOf(bodies, meshes);
  const double usual = usualSize(tree, all);
  OffSizes large, small;
  for (const SizedMesh& one : all) {
    if (one.mm > kFarOff * usual) large.add(one);
    if (one.mm * kFarOff < usual && one.mm < 1) small.add(one);
  }
  const std::string against = " in a robot whose joints lie within " + lengthText(usual);
  if (!large.files.empty()) {
    problems.note(large.line,
                  large.names() + " up to " + lengthText(large.mostMm) + " long" + against +
                      ": likely in mm and taken as metres",
                  "write scale=\"0.001 0.001 0.001\" into the <mesh>");
  }
  if (!small.files.empty()) {
    problems.note(small.line,
                  small.names() + " no longer than " + lengthText(small.mostMm) + against +
                      ": likely scaled by 0.001 twice",
                  "take scale=\"0.001 0.001 0.001\" out of the <mesh>");
  }
}

}  // namespace swingroom
