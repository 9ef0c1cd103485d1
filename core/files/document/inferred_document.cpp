#include "core/files/document/inferred_document.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <system_error>

#include "core/assembly/assembly.h"
#include "core/files/mesh_path.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

constexpr double kToleranceMm = 1e-4;
constexpr double kToleranceDeg = 1e-4;
constexpr double kToleranceOfDirection = 1e-6;  // 0.0001 mm over 100 mm.
const char* const kStepName = "all together";

/// Softened Okabe-Ito colours: told apart by most eyes, calm enough to see shape by.
constexpr const char* kPalette[] = {"#7FB2D6", "#E3B36A", "#79BFA5", "#D99A7E",
                                    "#C39BBF", "#D9CE7A", "#8FA3C4", "#B4B4AC"};

ThreeNumbers rounded(const Vector3d& v, double tolerance) {
  return {roundedWithin(v.x(), tolerance), roundedWithin(v.y(), tolerance),
          roundedWithin(v.z(), tolerance)};
}

/// Outwards to whole twentieths, so that a zone says a round size and is not smaller than meant.
double outwards(double value, double way) {
  return way * std::ceil(way * value * 20 - 1e-3) / 20;
}

DocumentValue valueOf(const InferredJoint& joint) {
  if (joint.joint.type == JointType::ball) {
    return rounded(joint.value * degFromRad(1), kToleranceDeg / 2);
  }
  const bool turns = joint.joint.type == JointType::hinge;
  return turns ? roundedWithin(degFromRad(joint.value.x()), kToleranceDeg)
               : roundedWithin(joint.value.x(), kToleranceMm);
}

DocumentValue zeroOf(const InferredJoint& joint) {
  if (joint.joint.type == JointType::ball) return ThreeNumbers{0, 0, 0};
  return 0.0;
}

DocumentJoint documentJoint(const InferredJoint& inferred, const std::vector<DocumentPart>& parts) {
  const Joint& joint = inferred.joint;
  DocumentJoint written;
  written.name = joint.name;
  written.type = joint.type;
  written.child = parts.at(joint.child.index).name;
  if (joint.parent) written.parent = parts.at(joint.parent->index).name;
  if (joint.type == JointType::fixed) return written;
  written.through = rounded(joint.through, kToleranceMm);
  const bool isBall = joint.type == JointType::ball;
  if (!isBall) written.along = rounded(joint.along, kToleranceOfDirection);
  for (const JointZone& zone : joint.zones) {
    DocumentZone writtenZone;
    writtenZone.radius = outwards(zone.radiusMm, 1);
    if (!isBall) {
      writtenZone.from = outwards(zone.fromMm, -1);
      writtenZone.to = outwards(zone.toMm, 1);
    }
    written.zones.push_back(writtenZone);
  }
  return written;
}

DocumentPair restingPair(const NearPair& near, const AssemblyDocument& document) {
  DocumentContact contact;
  contact.kind = ContactKind::rest;
  for (const DocumentMode& mode : document.modes) contact.modes.push_back(mode.name);
  for (const DocumentSequence& sequence : document.sequences) {
    for (const DocumentStep& step : sequence.steps) {
      const std::string& name = step.name;
      if (!name.empty() && std::find(contact.steps.begin(), contact.steps.end(), name) ==
                               contact.steps.end()) {
        contact.steps.push_back(name);
      }
    }
  }
  contact.reason = "they never move against each other and are this near as modelled";
  DocumentPair pair;
  pair.parts = {document.parts[near.a.index].name, document.parts[near.b.index].name};
  pair.contacts.push_back(contact);
  return pair;
}

void addModes(const InferredMotion& motion, const std::string& firstMode,
              const std::string& secondMode, AssemblyDocument& document) {
  DocumentValues atFirst, atSecond;
  for (const InferredJoint& joint : motion.joints) {
    if (joint.joint.type == JointType::fixed) continue;
    atFirst[joint.joint.name] = zeroOf(joint);
    atSecond[joint.joint.name] = valueOf(joint);
  }
  document.modes.push_back({firstMode, atFirst, {}, {}, {}});
  document.modes.push_back({secondMode, atSecond, {}, {}, {}});
  if (atSecond.empty()) return;
  DocumentSequence sequence{firstMode + " to " + secondMode, firstMode, secondMode, {}, {}};
  DocumentStep step;
  step.name = kStepName;
  step.moves = atSecond;
  sequence.steps.push_back(step);
  document.sequences.push_back(sequence);
}

}  // namespace

Assembly motionOf(const AssemblyDocument& document, const std::vector<PartInTwoModes>& parts) {
  AssemblyParts made;
  std::map<std::string, PartId> ids;
  for (const PartInTwoModes& part : parts) {
    ids[part.name] = PartId{made.parts.size()};
    made.parts.push_back({part.name, PartKind::printed, nullptr, Pose::Identity()});
  }
  for (const DocumentJoint& written : document.joints) {
    Joint joint;
    joint.name = written.name;
    joint.type = written.type;
    joint.child = ids.at(written.child);
    if (written.parent) joint.parent = ids.at(*written.parent);
    if (written.through) joint.through = Vector3d(written.through->data());
    if (written.along) joint.along = Vector3d(written.along->data()).normalized();
    made.joints.push_back(joint);
  }
  return Assembly(std::move(made));
}

void addPairs(const InferredMotion& motion, AssemblyDocument& document) {
  for (const NearPair& near : motion.touching) {
    document.pairs.push_back(restingPair(near, document));
  }
  for (const NearPair& pin : motion.otherPins) {
    const double gapMm = std::floor(pin.gapMm * 100) / 100;
    if (gapMm <= 0) continue;
    DocumentPair pair;
    pair.parts = {document.parts[pin.a.index].name, document.parts[pin.b.index].name};
    pair.requiredGap = gapMm;
    document.pairs.push_back(pair);
  }
}

std::string pathFrom(const fs::path& file, const fs::path& mesh) {
  std::error_code error;
  const fs::path folder = fs::weakly_canonical(fs::absolute(file).parent_path(), error);
  const fs::path relative = mesh.lexically_relative(folder);
  return (relative.empty() ? mesh : relative).generic_string();
}

std::string calmColour(std::size_t position) {
  return kPalette[position % std::size(kPalette)];
}

double roundedWithin(double value, double tolerance) {
  for (double scale = 1; scale < 1e9; scale *= 10) {
    const double rounded = std::round(value * scale) / scale;
    if (std::abs(rounded - value) <= tolerance) return rounded == 0 ? 0 : rounded;
  }
  return value;
}

std::vector<DocumentPart> documentParts(const GivenParts& given, const fs::path& file) {
  std::vector<DocumentPart> parts;
  for (const GivenPart& part : given.parts) {
    DocumentPart written;
    written.name = part.name;
    written.colour = part.mesh.colour.value_or(calmColour(parts.size()));
    written.stages["block"] = writtenMeshPath({pathFrom(file, part.file), part.inFile});
    written.scale = part.scale;
    written.mirror = part.mirror;
    written.placement = part.placement;
    parts.push_back(std::move(written));
  }
  return parts;
}

std::vector<DocumentJoint> documentJoints(const InferredMotion& motion,
                                          const std::vector<DocumentPart>& parts) {
  std::vector<DocumentJoint> joints;
  for (const InferredJoint& joint : motion.joints) joints.push_back(documentJoint(joint, parts));
  return joints;
}

void addMotion(const InferredMotion& motion, const std::string& firstMode,
               const std::string& secondMode, AssemblyDocument& document) {
  document.joints = documentJoints(motion, document.parts);
  addModes(motion, firstMode, secondMode, document);
  addPairs(motion, document);
}

std::vector<double> misfitsOf(const AssemblyDocument& document,
                              const std::vector<PartInTwoModes>& parts,
                              const std::vector<Pose>& D) {
  const Assembly assembly = motionOf(document, parts);
  Configuration second = assembly.home();
  for (const auto& [name, value] : *document.modes.back().values) {
    const JointId id = *assembly.findJoint(name);
    JointValue& in = second.values[id.index];
    if (const auto* number = std::get_if<double>(&value)) {
      in.x() = assembly.joint(id).type == JointType::hinge ? radFromDeg(*number) : *number;
    } else {
      in = Vector3d(std::get<ThreeNumbers>(value).data()) * radFromDeg(1);
    }
  }
  const std::vector<Pose> reached = displacementsOf(assembly, second);
  std::vector<double> misfits;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    double most = 0;
    for (const Vector3d& v : parts[i].mesh->vertices) {
      most = std::max(most, (reached[i] * v - D[i] * v).norm());
    }
    misfits.push_back(most);
  }
  return misfits;
}

}  // namespace swingroom
