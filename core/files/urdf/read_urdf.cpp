#include "core/files/urdf/read_urdf.h"

#include <tinyxml2.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <set>

#include "core/files/document/document_problems.h"
#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

using tinyxml2::XMLElement;

struct RobotColour {
  std::string hex;
  bool seeThrough = false;
};

const std::map<std::string, RobotJointKind>& jointKinds() {
  static const std::map<std::string, RobotJointKind> kinds{
      {"revolute", RobotJointKind::revolute},   {"continuous", RobotJointKind::continuous},
      {"prismatic", RobotJointKind::prismatic}, {"fixed", RobotJointKind::fixed},
      {"floating", RobotJointKind::floating},   {"planar", RobotJointKind::planar}};
  return kinds;
}

class UrdfReader {
 public:
  explicit UrdfReader(XmlProblems& problems) : problems_(problems) {}

  RobotDescription read(const XMLElement& robot);

 private:
  void mistake(const XMLElement& at, std::string what, std::string hint = "") {
    problems_.mistake(at.GetLineNum(), std::move(what), std::move(hint));
  }
  void tellMacros(const XMLElement& robot);
  /// The name, which must be there.
  std::string nameOf(const XMLElement& element);
  Pose originOf(const XMLElement& element);
  std::optional<RobotColour> colourOf(const XMLElement& material);
  void gatherMaterials(const XMLElement& robot);
  void gather(const XMLElement& material);
  RobotLink link(const XMLElement& element);
  std::vector<RobotBody> bodies(const XMLElement& link, const char* kind);
  void paint(const XMLElement& visual, RobotBody& body);
  std::optional<RobotShape> shapeOf(const XMLElement& body);
  std::optional<RobotShape> shapeFrom(const XMLElement& element);
  RobotJoint joint(const XMLElement& element);
  std::string linkNamed(const XMLElement& joint, const char* which);
  void readAxis(const XMLElement& element, RobotJoint& joint);
  void readLimits(const XMLElement& element, RobotJoint& joint);
  void readMimic(const XMLElement& element, RobotJoint& joint);

  XmlProblems& problems_;
  std::map<std::string, RobotColour> materials_;
};

std::string UrdfReader::nameOf(const XMLElement& element) {
  std::string name = attributeText(element, "name");
  if (name.empty()) mistake(element, std::string("a <") + element.Name() + "> has no name");
  return name;
}

/// Origin: shift, then turns about the fixed axes x, y, z (roll, pitch, yaw).
Pose UrdfReader::originOf(const XMLElement& element) {
  Pose X = Pose::Identity();
  const XMLElement* origin = element.FirstChildElement("origin");
  if (!origin) return X;
  const std::vector<double> none{0, 0, 0};
  const auto xyz = attributeNumbers(*origin, "xyz", 3, none, problems_);
  const auto rpy = attributeNumbers(*origin, "rpy", 3, none, problems_);
  X.translation() = Vector3d(xyz[0], xyz[1], xyz[2]);
  X.linear() =
      (Eigen::AngleAxisd(rpy[2], Vector3d::UnitZ()) * Eigen::AngleAxisd(rpy[1], Vector3d::UnitY()) *
       Eigen::AngleAxisd(rpy[0], Vector3d::UnitX()))
          .toRotationMatrix();
  return X;
}

std::optional<RobotColour> UrdfReader::colourOf(const XMLElement& material) {
  const XMLElement* colour = material.FirstChildElement("color");
  if (!colour) return std::nullopt;
  const auto rgba =
      attributeNumbers(*colour, "rgba", 4, std::vector<double>{0.5, 0.5, 0.5, 1}, problems_);
  const auto byte = [&](std::size_t i) {
    return static_cast<unsigned>(std::lround(255 * std::clamp(rgba[i], 0.0, 1.0)));
  };
  char hex[8];
  std::snprintf(hex, sizeof hex, "#%02X%02X%02X", byte(0), byte(1), byte(2));
  return RobotColour{hex, rgba[3] < 0.99};
}

void UrdfReader::gather(const XMLElement& material) {
  const std::string name = attributeText(material, "name");
  if (name.empty() || !material.FirstChildElement("color")) return;
  if (materials_.contains(name)) return;
  if (const auto colour = colourOf(material)) materials_[name] = *colour;
}

/// Those of the robot first, then those that a link's shape gives a name.
void UrdfReader::gatherMaterials(const XMLElement& robot) {
  for (auto* m = robot.FirstChildElement("material"); m; m = m->NextSiblingElement("material")) {
    gather(*m);
  }
  for (auto* l = robot.FirstChildElement("link"); l; l = l->NextSiblingElement("link")) {
    for (auto* v = l->FirstChildElement("visual"); v; v = v->NextSiblingElement("visual")) {
      if (const XMLElement* m = v->FirstChildElement("material")) gather(*m);
    }
  }
}

std::optional<RobotShape> UrdfReader::shapeFrom(const XMLElement& element) {
  RobotShape shape;
  shape.line = element.GetLineNum();
  const std::string kind = element.Name();
  const auto size = [&](const char* attribute, std::size_t first, std::size_t count) {
    const std::size_t before = problems_.mistakes.size();
    const auto numbers = attributeNumbers(element, attribute, count, std::nullopt, problems_);
    const bool wrong = problems_.mistakes.size() > before;
    for (std::size_t i = 0; i < count; ++i) {
      shape.sizeM[first + i] = numbers[i];
      if (wrong || numbers[i] > 0) continue;
      return mistake(element, "\"" + std::string(attribute) + "\" of <" + kind +
                                  "> must be above 0, but is " +
                                  inQuotes(attributeText(element, attribute)));
    }
  };
  if (kind == "box") {
    shape.kind = RobotShapeKind::box;
    size("size", 0, 3);
  } else if (kind == "cylinder") {
    shape.kind = RobotShapeKind::cylinder;
    size("radius", 0, 1);
    size("length", 1, 1);
  } else if (kind == "sphere") {
    shape.kind = RobotShapeKind::sphere;
    size("radius", 0, 1);
  } else if (kind == "mesh") {
    shape.file = attributeText(element, "filename");
    if (shape.file.empty()) mistake(element, "a <mesh> names no file");
    const auto scale =
        attributeNumbers(element, "scale", 3, std::vector<double>{1, 1, 1}, problems_);
    std::copy(scale.begin(), scale.end(), shape.scale.begin());
  } else {
    mistake(element, "<" + kind + "> is no shape that is known",
            "box, cylinder, sphere and mesh are");
    return std::nullopt;
  }
  return shape;
}

std::optional<RobotShape> UrdfReader::shapeOf(const XMLElement& body) {
  const XMLElement* geometry = body.FirstChildElement("geometry");
  const XMLElement* first = geometry ? geometry->FirstChildElement() : nullptr;
  if (!first) {
    mistake(body, std::string("a <") + body.Name() + "> has no shape",
            "give it a <geometry> with a mesh, box, cylinder or sphere, or take it out");
    return std::nullopt;
  }
  if (first->NextSiblingElement()) {
    problems_.note(geometry->GetLineNum(),
                   std::string("a <geometry> holds several shapes; only the first, <") +
                       first->Name() + ">, counts",
                   "write one <" + std::string(body.Name()) + "> for each");
  }
  return shapeFrom(*first);
}

void UrdfReader::paint(const XMLElement& visual, RobotBody& body) {
  const XMLElement* material = visual.FirstChildElement("material");
  if (!material) return;
  std::optional<RobotColour> colour = colourOf(*material);
  const std::string name = attributeText(*material, "name");
  if (!colour && materials_.contains(name)) colour = materials_.at(name);
  if (!colour && !material->FirstChildElement("texture") && !name.empty()) {
    problems_.note(material->GetLineNum(), "there is no material " + inQuotes(name),
                   "its colour is left open");
  }
  if (!colour) return;
  body.colour = colour->hex;
  body.seeThrough = colour->seeThrough;
}

std::vector<RobotBody> UrdfReader::bodies(const XMLElement& link, const char* kind) {
  std::vector<RobotBody> all;
  for (auto* e = link.FirstChildElement(kind); e; e = e->NextSiblingElement(kind)) {
    const auto shape = shapeOf(*e);
    if (!shape) continue;
    RobotBody body;
    body.name = attributeText(*e, "name");
    body.X_LB = originOf(*e);
    body.shape = *shape;
    body.line = e->GetLineNum();
    paint(*e, body);
    all.push_back(std::move(body));
  }
  return all;
}

RobotLink UrdfReader::link(const XMLElement& element) {
  RobotLink link;
  link.name = nameOf(element);
  link.line = element.GetLineNum();
  link.visuals = bodies(element, "visual");
  link.collisions = bodies(element, "collision");
  return link;
}

std::string UrdfReader::linkNamed(const XMLElement& joint, const char* which) {
  const XMLElement* end = joint.FirstChildElement(which);
  const std::string link = end ? attributeText(*end, "link") : "";
  if (link.empty()) {
    mistake(joint,
            "joint " + inQuotes(attributeText(joint, "name")) + " names no " + which + " link",
            std::string("add <") + which + " link=\"...\"/>");
  }
  return link;
}

void UrdfReader::readAxis(const XMLElement& element, RobotJoint& joint) {
  const XMLElement* axis = element.FirstChildElement("axis");
  if (!axis) return;
  const auto xyz = attributeNumbers(*axis, "xyz", 3, std::vector<double>{1, 0, 0}, problems_);
  joint.axis_J = Vector3d(xyz[0], xyz[1], xyz[2]);
  if (!moves(joint.kind) || joint.axis_J.norm() > 1e-12) return;
  mistake(*axis, "the axis of joint " + inQuotes(joint.name) + " is zero, which is no direction");
  joint.axis_J = Vector3d::UnitX();
}

void UrdfReader::readLimits(const XMLElement& element, RobotJoint& joint) {
  if (joint.kind != RobotJointKind::revolute && joint.kind != RobotJointKind::prismatic) return;
  const XMLElement* limit = element.FirstChildElement("limit");
  if (!limit) {
    problems_.note(joint.line,
                   "joint " + inQuotes(joint.name) + " has no <limit>: it may go any way");
    return;
  }
  const std::vector<double> zero{0};
  const double lower = attributeNumbers(*limit, "lower", 1, zero, problems_)[0];
  const double upper = attributeNumbers(*limit, "upper", 1, zero, problems_)[0];
  if (lower > upper) {
    return mistake(*limit,
                   "joint " + inQuotes(joint.name) + " is limited from " + numberText(lower) +
                       " down to " + numberText(upper),
                   "\"lower\" must not be above \"upper\"");
  }
  if (lower == upper) {
    problems_.note(limit->GetLineNum(),
                   "joint " + inQuotes(joint.name) + " is limited to one value: it cannot move",
                   "write \"lower\" and \"upper\", or make it continuous");
  }
  joint.limits = {lower, upper};
}

void UrdfReader::readMimic(const XMLElement& element, RobotJoint& joint) {
  const XMLElement* mimic = element.FirstChildElement("mimic");
  if (!mimic) return;
  RobotMimic read;
  read.joint = attributeText(*mimic, "joint");
  read.line = mimic->GetLineNum();
  read.multiplier = attributeNumbers(*mimic, "multiplier", 1, std::vector<double>{1}, problems_)[0];
  read.offset = attributeNumbers(*mimic, "offset", 1, std::vector<double>{0}, problems_)[0];
  if (moves(joint.kind)) joint.mimic = read;
}

RobotJoint UrdfReader::joint(const XMLElement& element) {
  RobotJoint joint;
  joint.name = nameOf(element);
  joint.line = element.GetLineNum();
  const std::string type = attributeText(element, "type");
  if (const auto kind = jointKinds().find(type); kind != jointKinds().end()) {
    joint.kind = kind->second;
  } else {
    mistake(element,
            "joint " + inQuotes(joint.name) +
                (type.empty() ? " has no type"
                              : " is of type " + inQuotes(type) + ", which is not known"),
            "revolute, continuous, prismatic, fixed, floating and planar are");
  }
  joint.parent = linkNamed(element, "parent");
  joint.child = linkNamed(element, "child");
  joint.X_PJ = originOf(element);
  readAxis(element, joint);
  readLimits(element, joint);
  readMimic(element, joint);
  return joint;
}

/// Macro files look like URDF and are not: their numbers are still to be worked out.
void UrdfReader::tellMacros(const XMLElement& robot) {
  for (auto* e = robot.FirstChildElement(); e; e = e->NextSiblingElement()) {
    if (!std::string_view(e->Name()).starts_with("xacro:")) continue;
    return mistake(*e, "holds macros (<" + std::string(e->Name()) + ">), which are not worked out",
                   "make a plain URDF of it first: xacro FILE > ROBOT.urdf");
  }
}

RobotDescription UrdfReader::read(const XMLElement& robot) {
  RobotDescription read;
  read.file = problems_.file();
  read.name = attributeText(robot, "name");
  tellMacros(robot);
  if (!problems_.mistakes.empty()) return read;  // All else would only be a flood.
  gatherMaterials(robot);
  for (auto* e = robot.FirstChildElement("link"); e; e = e->NextSiblingElement("link")) {
    read.links.push_back(link(*e));
  }
  for (auto* e = robot.FirstChildElement("joint"); e; e = e->NextSiblingElement("joint")) {
    read.joints.push_back(joint(*e));
  }
  if (read.links.empty()) {
    problems_.mistake(robot.GetLineNum(), "holds no <link>", "a robot needs at least one");
  }
  return read;
}

}  // namespace

std::optional<RobotDescription> readUrdf(XmlProblems& problems) {
  tinyxml2::XMLDocument document;
  const XMLElement* robot = readXml(document, "robot", "a URDF file holds one <robot>", problems);
  if (!robot) return std::nullopt;
  return UrdfReader(problems).read(*robot);
}

}  // namespace swingroom
