#include "tests/benchmarks/write_mechanism.h"

#include <fstream>

#include "core/files/document/write_document.h"
#include "tests/support/mesh_writers.h"

namespace swingroom::bench {
namespace {

ThreeNumbers numbersOf(const Vector3d& p) {
  return {p.x(), p.y(), p.z()};
}

DocumentValues valuesOf(const Assembly& assembly, const Configuration& at) {
  DocumentValues values;
  for (std::size_t j = 0; j < assembly.joints().size(); ++j) {
    const Joint& joint = assembly.joints()[j];
    const JointValue& value = at.values[j];
    if (joint.type == JointType::hinge) values[joint.name] = degFromRad(value.x());
    if (joint.type == JointType::slide) values[joint.name] = value.x();
    if (joint.type == JointType::ball) values[joint.name] = numbersOf(value * degFromRad(1));
  }
  return values;
}

DocumentJoint written(const Assembly& assembly, const Joint& joint) {
  DocumentJoint document;
  document.name = joint.name;
  document.type = joint.type;
  if (joint.parent) document.parent = assembly.part(*joint.parent).name;
  document.child = assembly.part(joint.child).name;
  const bool turns = joint.type == JointType::hinge || joint.type == JointType::ball;
  const bool hasAxis = joint.type == JointType::hinge || joint.type == JointType::slide;
  if (turns) document.through = numbersOf(joint.through);
  if (hasAxis) document.along = numbersOf(joint.along);
  return document;
}

}  // namespace

std::filesystem::path writeMechanism(const Mechanism& mechanism,
                                     const std::filesystem::path& folder) {
  const Assembly assembly = mechanism.assembly();
  AssemblyDocument document;
  document.name = "figure";
  document.requiredGap = assembly.parts().empty() ? 0.3 : assembly.requiredGapMm({}, {});
  document.resolution = assembly.resolutionMm();
  for (const Part& part : assembly.parts()) {
    DocumentPart& one = document.parts.emplace_back();
    one.name = part.name;
    one.stages = {{"block", part.name + ".stl"}};
    std::ofstream(folder / (part.name + ".stl"), std::ios::binary)
        << writers::binaryStl(*part.mesh);
  }
  for (const Joint& joint : assembly.joints()) document.joints.push_back(written(assembly, joint));
  for (const Mode& mode : mechanism.modes()) {
    DocumentMode& one = document.modes.emplace_back();
    one.name = mode.name;
    one.values = valuesOf(assembly, mode.configuration);
  }
  const Sequence sequence = mechanism.sequence();
  DocumentSequence& way = document.sequences.emplace_back();
  way.name = sequence.name;
  way.from = document.modes.at(sequence.from.index).name;
  way.to = document.modes.at(sequence.to.index).name;
  for (const Step& step : sequence.steps) {
    DocumentStep& one = way.steps.emplace_back();
    one.name = step.name;
    one.moves = valuesOf(assembly, step.end);
    if (step.order == StepOrder::free) one.order = DocumentOrder::free;
  }
  const auto file = folder / "figure.swing.json";
  saveDocument(document, file);
  return file;
}

}  // namespace swingroom::bench
