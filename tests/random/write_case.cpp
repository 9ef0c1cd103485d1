#include <filesystem>
#include <fstream>

#include "core/files/document/write_document.h"
#include "tests/random/random_motion.h"
#include "tests/support/mesh_writers.h"

namespace swingroom::random_suite {
namespace {

ThreeNumbers three(const Eigen::Vector3d& p) {
  return {p.x(), p.y(), p.z()};
}

DocumentValue documentValue(const Joint& joint, const JointValue& value) {
  if (joint.type == JointType::ball) return three(value * (180 / kPi));
  return joint.type == JointType::hinge ? degFromRad(value.x()) : value.x();
}

DocumentValues documentValues(const RandomCase& c, const Configuration& at) {
  DocumentValues values;
  for (std::size_t j = 0; j < c.parts.joints.size(); ++j) {
    values[c.parts.joints[j].name] = documentValue(c.parts.joints[j], at.values[j]);
  }
  return values;
}

DocumentPart documentPart(const Part& part, const std::string& file) {
  DocumentPart written;
  written.name = part.name;
  written.stages = {{"block", file}};
  const Eigen::Quaterniond turn(part.X_WP_home.linear());
  written.placement = DocumentPlacement{
      three(part.X_WP_home.translation()), {turn.w(), turn.x(), turn.y(), turn.z()}, {}};
  return written;
}

DocumentJoint documentJoint(const RandomCase& c, const Joint& joint) {
  DocumentJoint written;
  written.name = joint.name;
  written.type = joint.type;
  if (joint.parent) written.parent = c.parts.parts[joint.parent->index].name;
  written.child = c.parts.parts[joint.child.index].name;
  if (joint.type != JointType::slide) written.through = three(joint.through);
  if (joint.type != JointType::ball) written.along = three(joint.along);
  return written;
}

}  // namespace

void writeCase(const RandomCase& c, const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder);
  AssemblyDocument document;
  document.name = std::string(nameOf(c.kind)) + " " + std::to_string(c.number);
  document.requiredGap = c.parts.requiredGapMm;
  for (const Part& part : c.parts.parts) {
    const std::string file = "part_" + std::to_string(document.parts.size() + 1) + ".stl";
    std::ofstream(folder / file, std::ios::binary) << writers::binaryStl(*part.mesh);
    document.parts.push_back(documentPart(part, file));
  }
  for (const Joint& joint : c.parts.joints) document.joints.push_back(documentJoint(c, joint));
  for (const Mode& mode : c.modes) {
    document.modes.push_back({mode.name, documentValues(c, mode.configuration), {}, {}, {}});
  }
  DocumentSequence sequence{c.sequence.name, "start", "end", {}, {}};
  for (const Step& step : c.sequence.steps) {
    const auto order =
        step.order == StepOrder::free ? DocumentOrder::free : DocumentOrder::together;
    sequence.steps.push_back({step.name, documentValues(c, step.end), order, {}, {}});
  }
  document.sequences = {sequence};
  saveDocument(document, folder / "case.swing.json");
}

}  // namespace swingroom::random_suite
