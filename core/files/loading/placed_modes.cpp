#include "core/files/loading/placed_modes.h"

#include <algorithm>
#include <cmath>

#include "core/files/document/json_value.h"
#include "core/files/loading/joint_values.h"
#include "core/files/loading/load_joints.h"
#include "core/files/loading/load_parts.h"
#include "core/motion/joint_fit.h"

namespace swingroom {
namespace {

constexpr double kWorthTelling = 1e-3;

/// Points of the part as it stands at home, in the assembly frame.
std::vector<Vector3d> pointsOf(const Part& part) {
  if (!part.mesh) return {part.X_WP_home.translation()};
  std::vector<Vector3d> points = part.mesh->vertices;
  for (Vector3d& p : points) p = part.X_WP_home * p;
  return points;
}

std::string misfitText(const Misfit& misfit) {
  const auto rounded = [](double x) { return numberText(std::round(x * 1e4) / 1e4); };
  return rounded(misfit.mm) + " mm and " + rounded(degFromRad(misfit.rad)) + "°";
}

bool isOver(const Misfit& misfit, double limit) {
  return misfit.mm > limit || degFromRad(misfit.rad) > limit;
}

std::string vectorText(const Vector3d& v) {
  const auto rounded = [](double x) { return numberText(std::round(x * 1e4) / 1e4); };
  return "[" + rounded(v.x()) + ", " + rounded(v.y()) + ", " + rounded(v.z()) + "]";
}

std::string motionText(const std::vector<Joint>& joints) {
  const Joint& first = joints.front();
  std::string text = first.type == JointType::hinge ? "turns about " + vectorText(first.along) +
                                                          " through " + vectorText(first.through)
                                                    : "travels along " + vectorText(first.along);
  if (joints.size() > 1) text += " and travels along it";
  return text;
}

std::string freeName(const std::string& wanted, const NameIndex& taken) {
  std::string name = wanted;
  for (int i = 2; taken.has(name); ++i) name = wanted + " " + std::to_string(i);
  return name;
}

/// A worked-out value without the noise of its working out: rounded to 1e-6, onto the range's end
/// or click that it misses by less than the fit's tolerance.
JointValue tidied(const Joint& joint, JointValue value) {
  if (joint.type == JointType::ball || joint.type == JointType::fixed) return value;
  const double unit = unitOf(joint.type);
  double& x = value.x();
  x = std::round(x / unit * 1e6) / 1e6 * unit;
  const double slack = kFitTolerance * unit;
  const double inRange = std::clamp(x, joint.range.min, joint.range.max);
  if (std::abs(inRange - x) <= slack) x = inRange;
  for (const double click : joint.clicks) {
    if (std::abs(click - x) > slack) continue;
    x = click;
    break;
  }
  return value;
}

/// Fits one mode, parents before children.
class PlacementFitter {
 public:
  PlacementFitter(const MotionContext& context, const WantedPlacements& wanted, std::string pointer,
                  Configuration& configuration)
      : context_(context),
        assembly_(*context.assembly),
        wanted_(wanted),
        pointer_(std::move(pointer)),
        configuration_(configuration),
        displacements_(wanted.size()),
        told_(wanted.size(), false) {}

  void fit() {
    for (std::size_t i = 0; i < wanted_.size(); ++i) place(PartId{i});
    setValues(context_, {}, pointer_, configuration_.values);
    // Tidied values and followers may stand a little elsewhere than the fit.
    fitting_ = false;
    displacements_.assign(wanted_.size(), std::nullopt);
    judge();
  }

 private:
  std::string pointerOf(PartId part) const {
    return pointerTo(pointerTo(pointer_, "placements"), assembly_.part(part).name);
  }
  /// The part's displacement; while fitting, with its joints' values worked out first.
  const Pose& place(PartId part);
  void fitPart(PartId part, const Mount& mount, const Pose& D_parent);
  void leavePart(const Mount& mount);
  void tellMisfit(PartId part, const Misfit& misfit);
  void judge();

  const MotionContext& context_;
  const Assembly& assembly_;
  const WantedPlacements& wanted_;
  std::string pointer_;
  Configuration& configuration_;
  std::vector<std::optional<Pose>> displacements_;
  std::vector<bool> told_;
  bool fitting_ = true;
};

const Pose& PlacementFitter::place(PartId part) {
  std::optional<Pose>& D = displacements_[part.index];
  if (D) return *D;
  const Mount* mount = holdingMount(assembly_, configuration_, part);
  if (!mount) return D.emplace(Pose::Identity());
  const Pose D_parent = mount->parent ? place(*mount->parent) : Pose::Identity();
  if (fitting_ && wanted_[part.index]) fitPart(part, *mount, D_parent);
  if (fitting_ && !wanted_[part.index]) leavePart(*mount);
  if (told_[part.index])
    return D.emplace(*wanted_[part.index]);  // its children are judged by themselves
  Pose displacement = D_parent;
  for (const JointId id : mount->joints) {
    displacement =
        displacement * displacementOf(assembly_.joint(id), configuration_.values[id.index]);
  }
  return D.emplace(displacement);
}

void PlacementFitter::fitPart(PartId part, const Mount& mount, const Pose& D_parent) {
  std::vector<Joint> chain;
  for (const JointId id : mount.joints) chain.push_back(assembly_.joint(id));
  const Pose D_wanted = D_parent.inverse() * *wanted_[part.index];
  const JointFit fit = fitJoints(chain, D_wanted, pointsOf(assembly_.part(part)));
  for (std::size_t i = 0; i < chain.size(); ++i) {
    configuration_.values[mount.joints[i].index] = tidied(chain[i], fit.values[i]);
  }
  if (isOver(fit.misfit, kFitTolerance)) return tellMisfit(part, fit.misfit);
  for (std::size_t i = 0; i < chain.size(); ++i) {
    const JointValue& value = configuration_.values[mount.joints[i].index];
    const std::string complaint = complaintAbout(chain[i], value);
    if (complaint.empty() || chain[i].follows) continue;
    context_.problems.mistake(pointerOf(part), "needs a joint value that " + complaint);
    told_[part.index] = true;
  }
}

void PlacementFitter::leavePart(const Mount& mount) {
  for (const JointId id : mount.joints) {
    const Joint& joint = assembly_.joint(id);
    const std::string complaint = complaintAbout(joint, JointValue::Zero());
    if (complaint.empty() || joint.follows) continue;
    context_.problems.mistake(pointer_, "does not place " +
                                            inQuotes(assembly_.part(joint.child).name) +
                                            ", whose joint then " + complaint);
  }
}

void PlacementFitter::tellMisfit(PartId part, const Misfit& misfit) {
  told_[part.index] = true;
  const Mount* mount = holdingMount(assembly_, configuration_, part);
  std::vector<std::string> joints;
  if (mount) {
    for (const JointId id : mount->joints) joints.push_back(assembly_.joint(id).name);
  }
  const std::string by = joints.empty() ? "" : " by " + listed(joints);
  context_.problems.mistake(
      pointerOf(part),
      "cannot be reached" + by + ": the part stays " + misfitText(misfit) + " away",
      "the joint's type or axis, or this placement, is not what was meant");
}

void PlacementFitter::judge() {
  std::vector<std::string> unplaced;
  for (std::size_t i = 0; i < wanted_.size(); ++i) {
    const Part& part = assembly_.part(PartId{i});
    if (!wanted_[i]) {
      if (!assembly_.mountsOf(PartId{i}).empty()) unplaced.push_back(part.name);
      continue;
    }
    if (told_[i]) continue;
    const Misfit misfit = misfitOf(place(PartId{i}), *wanted_[i], pointsOf(part));
    if (isOver(misfit, kFitTolerance)) {
      tellMisfit(PartId{i}, misfit);
    } else if (isOver(misfit, kWorthTelling)) {
      context_.problems.note(pointerOf(PartId{i}), "is met to within " + misfitText(misfit));
    }
  }
  if (unplaced.empty()) return;
  context_.problems.note(pointer_, "the joints of parts not placed are at 0: " + listed(unplaced));
}

}  // namespace

std::vector<WantedPlacements> readPlacements(const AssemblyDocument& document,
                                             const std::vector<Part>& parts,
                                             const NameIndex& partNames,
                                             DocumentProblems& problems) {
  std::vector<WantedPlacements> all(document.modes.size());
  for (std::size_t m = 0; m < document.modes.size(); ++m) {
    if (!document.modes[m].placements) continue;
    all[m].resize(parts.size());
    const std::string pointer = pointerTo(pointerTo("/modes", m), "placements");
    for (const auto& [name, placement] : *document.modes[m].placements) {
      const std::string at = pointerTo(pointer, name);
      const auto part = partNames.find(name, at, problems);
      const auto X_WP = poseOf(placement, at, problems);
      if (part && X_WP) all[m][*part] = *X_WP * parts[*part].X_WP_home.inverse();
    }
  }
  return all;
}

std::vector<Joint> impliedJoints(const Assembly& assembly,
                                 const std::vector<WantedPlacements>& wanted, NameIndex& jointNames,
                                 DocumentProblems& problems) {
  std::vector<Joint> implied;
  for (std::size_t i = 0; i < assembly.parts().size(); ++i) {
    const Part& part = assembly.part(PartId{i});
    if (!assembly.mountsOf(PartId{i}).empty()) continue;
    for (std::size_t m = 0; m < wanted.size(); ++m) {
      if (wanted[m].empty() || !wanted[m][i]) continue;
      std::vector<Joint> joints = jointsFromScrew(part.name, PartId{i}, *wanted[m][i]);
      if (joints.empty()) continue;
      std::vector<std::string> names;
      for (Joint& joint : joints) {
        joint.name = freeName(joint.name, jointNames);
        jointNames.append(joint.name, assembly.joints().size() + implied.size());
        names.push_back(joint.name);
        implied.push_back(joint);
      }
      problems.note(pointerTo(pointerTo(pointerTo("/modes", m), "placements"), part.name),
                    "moves " + inQuotes(part.name) + ", which has no joint: it " +
                        motionText(joints) + ", as " + listed(names),
                    "a joint in the file would say it for good");
      break;
    }
  }
  return implied;
}

void fitPlacements(const MotionContext& context, const WantedPlacements& wanted,
                   const std::string& pointer, Configuration& configuration) {
  PlacementFitter(context, wanted, pointer, configuration).fit();
}

}  // namespace swingroom
