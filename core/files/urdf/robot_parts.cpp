#include "core/files/urdf/robot_parts.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/files/document/document_problems.h"
#include "core/files/document/found_text.h"
#include "core/files/document/inferred_document.h"
#include "core/files/document/json_value.h"
#include "core/files/printable.h"
#include "core/files/urdf/shape_meshes.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

// Well above what rounding leaves behind, well below what anyone could see.
constexpr double kTidyMm = 1e-12;
constexpr double kTidyTurn = 1e-14;

/// @param X  Its translation in metres.
DocumentPlacement placementOf(const Pose& X) {
  DocumentPlacement placement;
  Eigen::Quaterniond q(X.linear());
  q.normalize();
  if (q.w() < 0) q.coeffs() *= -1;
  placement.turn = {roundedWithin(q.w(), kTidyTurn), roundedWithin(q.x(), kTidyTurn),
                    roundedWithin(q.y(), kTidyTurn), roundedWithin(q.z(), kTidyTurn)};
  for (int i = 0; i < 3; ++i) {
    placement.at[static_cast<std::size_t>(i)] = roundedWithin(1000 * X.translation()[i], kTidyMm);
  }
  return placement;
}

class PartMaker {
 public:
  PartMaker(const RobotDescription& robot, const RobotTree& tree,
            const std::map<std::string, RobotMesh>& meshes, const fs::path& file)
      : robot_(robot), tree_(tree), meshes_(meshes), file_(file) {
    for (const RobotLink& link : robot_.links) names_.insert(link.name);
    made_.namesOf.resize(robot_.links.size());
  }

  RobotParts make(const std::vector<ChosenBody>& bodies);

 private:
  void addLink(std::size_t link, const std::vector<const ChosenBody*>& bodies);
  std::string freeName(const RobotLink& link, const RobotBody& body);
  DocumentPart partOf(const ChosenBody& chosen, const std::string& name);
  void setMesh(const RobotShape& shape, Pose& X_WB, DocumentPart& part);
  void setShape(const RobotShape& shape, DocumentPart& part);
  void tellShapes();
  void tellUpAxes();

  const RobotDescription& robot_;
  const RobotTree& tree_;
  const std::map<std::string, RobotMesh>& meshes_;
  const fs::path& file_;
  std::set<std::string> names_;
  std::map<std::string, double> insideMm_;  ///< By shape file.
  RobotParts made_;
};

std::string PartMaker::freeName(const RobotLink& link, const RobotBody& body) {
  std::string name = body.name.empty() || names_.contains(body.name) ? link.name + " 2" : body.name;
  for (int i = 3; names_.contains(name); ++i) name = link.name + " " + std::to_string(i);
  names_.insert(name);
  return name;
}

void PartMaker::setMesh(const RobotShape& shape, Pose& X_WB, DocumentPart& part) {
  const RobotMesh& mesh = meshes_.at(shape.file);
  part.stages["block"] = pathFrom(file_, mesh.path);
  part.scale = roundedWithin(std::abs(shape.scale[0]) * (mesh.hasUnit ? 1 : 1000), 1e-12);
  const Vector3d signs(std::copysign(1.0, shape.scale[0]), std::copysign(1.0, shape.scale[1]),
                       std::copysign(1.0, shape.scale[2]));
  Eigen::Matrix3d R = signs.asDiagonal() * mesh.turned.transpose();
  if (signs.prod() < 0) {
    part.mirror = DocumentMirror{};  // In the plane x = 0; the rest is a turn.
    R.col(0) *= -1;
  }
  X_WB.linear() = X_WB.linear() * R;
}

void PartMaker::setShape(const RobotShape& shape, DocumentPart& part) {
  ShapeFile made = shapeFile(shape);
  const fs::path place =
      file_.parent_path() / (fs::path(file_.stem()).stem().string() + "_shapes") / made.name;
  part.stages["block"] = pathFrom(file_, fs::weakly_canonical(fs::absolute(place)));
  if (!insideMm_.emplace(made.name, made.insideMm).second) return;
  made_.files.push_back({place, stlBytes(made.mesh)});
}

DocumentPart PartMaker::partOf(const ChosenBody& chosen, const std::string& name) {
  const RobotShape& shape = chosen.body->shape;
  DocumentPart part;
  part.name = name;
  if (chosen.body->seeThrough) part.clear = true;
  Pose X_WB = tree_.X_WL[chosen.link] * chosen.body->X_LB;
  std::optional<std::string> colour = chosen.colour;
  if (shape.kind == RobotShapeKind::mesh) {
    setMesh(shape, X_WB, part);
    if (!colour) colour = meshes_.at(shape.file).colour;
  } else {
    setShape(shape, part);
  }
  part.colour = colour.value_or(calmColour(made_.parts.size()));
  const DocumentPlacement placement = placementOf(X_WB);
  if (placement != DocumentPlacement{}) part.placement = placement;
  return part;
}

void PartMaker::addLink(std::size_t link, const std::vector<const ChosenBody*>& bodies) {
  const RobotLink& of = robot_.links[link];
  if (bodies.empty()) {
    DocumentPart part;
    part.name = of.name;
    const DocumentPlacement placement = placementOf(tree_.X_WL[link]);
    if (placement != DocumentPlacement{}) part.placement = placement;
    made_.parts.push_back(std::move(part));
    made_.namesOf[link] = {of.name};
    return;
  }
  for (const ChosenBody* chosen : bodies) {
    const bool first = made_.namesOf[link].empty();
    const std::string name = first ? of.name : freeName(of, *chosen->body);
    made_.parts.push_back(partOf(*chosen, name));
    made_.namesOf[link].push_back(name);
  }
}

void PartMaker::tellShapes() {
  if (made_.files.empty()) return;
  double inside = 0;
  for (const auto& [name, mm] : insideMm_) inside = std::max(inside, mm);
  std::string sentence = std::string(made_.files.size() == 1 ? "A box, cylinder or sphere"
                                                             : "Boxes, cylinders and spheres") +
                         (made_.files.size() == 1 ? " is" : " are") + " written as meshes into " +
                         made_.files.front().file.parent_path().string();
  if (inside > 0) {
    sentence += "; facets of round ones lie up to " + numberText(std::ceil(inside * 1000) / 1000) +
                " mm inside the true surface";
  }
  made_.found.push_back(sentence + ".");
}

void PartMaker::tellUpAxes() {
  std::size_t turned = 0;
  for (const auto& [name, mesh] : meshes_) {
    if (!mesh.turned.isIdentity()) ++turned;
  }
  if (turned == 0) return;
  made_.found.push_back(
      counted(turned, "mesh file") + (turned == 1 ? " says" : " say") +
      " an up axis other than Z: it is left out, as robot tools do, and the numbers are taken as "
      "they stand, in the file's unit.");
}

RobotParts PartMaker::make(const std::vector<ChosenBody>& bodies) {
  for (const std::size_t link : tree_.order) {
    std::vector<const ChosenBody*> own;
    for (const ChosenBody& chosen : bodies) {
      if (chosen.link == link) own.push_back(&chosen);
    }
    addLink(link, own);
  }
  tellShapes();
  tellUpAxes();
  return std::move(made_);
}

}  // namespace

std::vector<ChosenBody> chosenBodies(const RobotDescription& robot, bool collision,
                                     XmlProblems& problems) {
  std::vector<ChosenBody> chosen;
  std::vector<std::string> other;
  int line = 0;
  for (std::size_t l = 0; l < robot.links.size(); ++l) {
    const RobotLink& link = robot.links[l];
    const auto* bodies = collision ? &link.collisions : &link.visuals;
    const auto* rest = collision ? &link.visuals : &link.collisions;
    if (bodies->empty() && !rest->empty()) {
      if (other.empty()) line = link.line;
      other.push_back(link.name);
      bodies = rest;
    }
    for (const RobotBody& body : *bodies) {
      ChosenBody one{l, &body, body.colour};
      // What collides has no colour of its own: that of what is seen.
      if (!one.colour && !link.visuals.empty()) one.colour = link.visuals.front().colour;
      chosen.push_back(one);
    }
  }
  if (!other.empty()) {
    const std::string asked = collision ? "collision" : "visual";
    problems.note(line, counted(other.size(), "link") +
                            (other.size() == 1 ? " has no " : " have no ") + asked +
                            " geometry: the " + (collision ? "visual" : "collision") +
                            " one is taken of " + listed(other));
  }
  return chosen;
}

RobotParts robotParts(const RobotDescription& robot, const RobotTree& tree,
                      const std::vector<ChosenBody>& bodies,
                      const std::map<std::string, RobotMesh>& meshes, const fs::path& file) {
  return PartMaker(robot, tree, meshes, file).make(bodies);
}

}  // namespace swingroom
