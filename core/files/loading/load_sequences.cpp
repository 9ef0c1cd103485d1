#include "core/files/loading/load_sequences.h"

#include <algorithm>
#include <set>

#include "core/files/document/json_value.h"
#include "core/files/loading/joint_values.h"
#include "core/files/loading/load_joints.h"
#include "core/files/loading/placed_modes.h"

namespace swingroom {
namespace {

/// A step of which the names are found.
struct ReadStep {
  std::string pointer;
  std::string name;
  StepOrder order = StepOrder::together;
  std::vector<NamedValue> moves;
  struct Replug {
    PartId part;
    JointId onto;
  };
  std::optional<Replug> replug;
};

/// Turns one sequence of the file into one of core.
class SequenceLoader {
 public:
  SequenceLoader(const MotionContext& context, const AssemblyDocument& document,
                 const std::vector<std::optional<Mode>>& modes, std::size_t index)
      : context_(context),
        document_(document),
        modes_(modes),
        written_(document.sequences[index]),
        pointer_(pointerTo("/sequences", index)) {}

  std::optional<Sequence> load();

 private:
  std::vector<ReadStep> readSteps();
  ReadStep readStep(const DocumentStep& written, const std::string& pointer);
  void checkStepNames();
  Configuration after(const ReadStep& step, const Configuration& before);
  void replug(const ReadStep& step, Configuration& configuration);
  void addSteps(Sequence& sequence);
  void checkArrival(const Sequence& sequence);
  bool arrives(JointId joint, const Configuration& end);
  void checkMounts(const Configuration& end);

  const Assembly& assembly() const { return *context_.assembly; }
  const Mode& to() const { return *modes_[to_.value()]; }

  const MotionContext& context_;
  const AssemblyDocument& document_;
  const std::vector<std::optional<Mode>>& modes_;
  const DocumentSequence& written_;
  std::string pointer_;
  std::optional<std::size_t> from_;
  std::optional<std::size_t> to_;
  std::vector<ReadStep> steps_;
  std::set<JointId> moved_;  ///< By any step.
};

void SequenceLoader::checkStepNames() {
  std::set<std::string> seen;
  for (std::size_t i = 0; i < written_.steps.size(); ++i) {
    const std::string& name = written_.steps[i].name;
    if (name.empty() || seen.insert(name).second) continue;
    context_.problems.mistake(
        pointerTo(pointerTo(pointerTo(pointer_, "steps"), i), "name"),
        "is " + inQuotes(name) + ", the name of an earlier step of this sequence",
        "give each step a name of its own");
  }
}

ReadStep SequenceLoader::readStep(const DocumentStep& written, const std::string& pointer) {
  ReadStep step;
  step.pointer = pointer;
  step.order = written.order == DocumentOrder::free ? StepOrder::free : StepOrder::together;
  step.moves = readValues(context_, written.moves, pointerTo(pointer, "moves"));
  if (!written.replug) {
    if (written.moves.empty() && !context_.problems.anyIn(pointer)) {
      context_.problems.note(pointer, "moves nothing");
    }
    return step;
  }
  step.order = StepOrder::replug;
  const std::string at = pointerTo(pointer, "replug");
  if (!written.moves.empty()) {
    context_.problems.mistake(pointer, "has both moves and a replug", "make two steps of it");
  }
  const auto part = context_.partNames.find(written.replug->part, at + "/part", context_.problems);
  const auto onto = context_.jointNames.find(written.replug->onto, at + "/onto", context_.problems);
  if (part && onto) step.replug = ReadStep::Replug{PartId{*part}, JointId{*onto}};
  return step;
}

std::vector<ReadStep> SequenceLoader::readSteps() {
  const std::vector<std::string> names = stepNamesOf(written_);
  std::vector<ReadStep> steps;
  for (std::size_t i = 0; i < written_.steps.size(); ++i) {
    const std::string pointer = pointerTo(pointerTo(pointer_, "steps"), i);
    steps.push_back(readStep(written_.steps[i], pointer));
    steps.back().name = names[i];
    for (const NamedValue& move : steps.back().moves) moved_.insert(move.joint);
  }
  return steps;
}

void SequenceLoader::replug(const ReadStep& step, Configuration& configuration) {
  const auto [part, onto] = step.replug.value();
  const std::string& name = assembly().part(part).name;
  const auto mount = mountWith(assembly(), part, onto);
  if (!mount) {
    context_.problems.mistake(
        step.pointer + "/replug/onto",
        "is " + inQuotes(assembly().joint(onto).name) + ", which does not carry " + inQuotes(name));
    return;
  }
  if (configuration.mounts[part.index] == *mount) {
    context_.problems.mistake(step.pointer + "/replug",
                              "puts " + inQuotes(name) + " where it hangs already");
    return;
  }
  for (const std::size_t changed : {configuration.mounts[part.index], *mount}) {
    for (const JointId joint : assembly().mountsOf(part)[changed].joints) {
      if (moved_.contains(joint)) continue;
      configuration.values[joint.index] = to().configuration.values[joint.index];
    }
  }
  configuration.mounts[part.index] = *mount;
  const std::string ring = ringText(assembly(), configuration);
  if (!ring.empty()) {
    context_.problems.mistake(step.pointer + "/replug", "closes a ring of parts: " + ring);
  }
}

Configuration SequenceLoader::after(const ReadStep& step, const Configuration& before) {
  Configuration end = before;
  if (step.replug) replug(step, end);
  setValues(context_, step.moves, step.pointer, end.values);
  for (const NamedValue& move : step.moves) {
    const PartId part = assembly().joint(move.joint).child;
    if (mountWith(assembly(), part, move.joint) == end.mounts[part.index]) continue;
    context_.problems.note(move.pointer, "moves nothing: " + inQuotes(assembly().part(part).name) +
                                             " does not hang by this joint then");
  }
  return end;
}

void SequenceLoader::addSteps(Sequence& sequence) {
  Configuration here = modes_[*from_]->configuration;
  if (steps_.empty()) {
    Configuration end = to().configuration;
    end.mounts = here.mounts;  // only a replug changes them
    sequence.steps.push_back({stepNamesOf(written_).front(), StepOrder::together, here, end});
    return;
  }
  for (const ReadStep& step : steps_) {
    Configuration end = after(step, here);
    sequence.steps.push_back({step.name, step.order, here, end});
    here = std::move(end);
  }
}

void SequenceLoader::checkMounts(const Configuration& end) {
  for (std::size_t i = 0; i < end.mounts.size(); ++i) {
    if (end.mounts[i] == to().configuration.mounts[i]) continue;
    const auto& mounts = assembly().mountsOf(PartId{i});
    const auto nameOf = [&](std::size_t mount) {
      return inQuotes(assembly().joint(mounts[mount].joints.front()).name);
    };
    context_.problems.mistake(pointer_,
                              "leaves " + inQuotes(assembly().part(PartId{i}).name) + " on " +
                                  nameOf(end.mounts[i]) + ", but mode " + inQuotes(to().name) +
                                  " has it on " + nameOf(to().configuration.mounts[i]),
                              "a \"replug\" step moves it over");
  }
}

bool SequenceLoader::arrives(JointId id, const Configuration& end) {
  const Joint& joint = assembly().joint(id);
  const std::size_t holding = to().configuration.mounts[joint.child.index];
  // Joints that do not hold their part do not matter; a part on the wrong mount was told.
  if (mountWith(assembly(), joint.child, id) != holding) return true;
  if (end.mounts[joint.child.index] != holding) return true;
  // Values that were worked out from placements are as good as their fit.
  const bool fitted = document_.modes[*to_].placements || document_.modes[*from_].placements;
  const JointValue& value = end.values[id.index];
  const JointValue& wanted = to().configuration.values[id.index];
  const double missing = differenceOf(joint, value, wanted);
  if (missing <= (fitted ? kFitTolerance : kValueTolerance)) return true;
  context_.problems.mistake(pointer_,
                            "leaves joint " + inQuotes(joint.name) + " at " +
                                valueText(joint, value) + ", " + differenceText(joint, missing) +
                                " short of mode " + inQuotes(to().name) + ", where it is at " +
                                valueText(joint, wanted),
                            "a step must move it there");
  return false;
}

void SequenceLoader::checkArrival(const Sequence& sequence) {
  const Configuration& end = sequence.steps.back().end;
  checkMounts(end);
  std::vector<bool> isShort(end.values.size(), false);
  for (std::size_t j = 0; j < isShort.size(); ++j) {
    if (!assembly().joint(JointId{j}).follows) isShort[j] = !arrives(JointId{j}, end);
  }
  for (const JointId id : context_.followers) {
    // One that lags behind because its leader does needs no message of its own.
    const std::size_t leader = assembly().joint(id).follows->leader.index;
    isShort[id.index] = isShort[leader] || !arrives(id, end);
  }
}

std::optional<Sequence> SequenceLoader::load() {
  from_ = context_.modeNames.find(written_.from, pointerTo(pointer_, "from"), context_.problems);
  to_ = context_.modeNames.find(written_.to, pointerTo(pointer_, "to"), context_.problems);
  checkStepNames();
  steps_ = readSteps();
  if (!context_.assembly || context_.problems.anyIn(pointer_)) return std::nullopt;
  if (!modes_[*from_] || !modes_[*to_]) return std::nullopt;
  Sequence sequence{written_.name, ModeId{*from_}, ModeId{*to_}, {}};
  addSteps(sequence);
  if (context_.problems.anyIn(pointer_)) return std::nullopt;
  checkArrival(sequence);
  if (context_.problems.anyIn(pointer_)) return std::nullopt;
  sequence.steps.back().end = to().configuration;
  return sequence;
}

}  // namespace

std::vector<std::string> stepNamesOf(const DocumentSequence& sequence) {
  if (sequence.steps.empty()) return {sequence.name};
  std::vector<std::string> names;
  for (std::size_t i = 0; i < sequence.steps.size(); ++i) {
    const std::string& name = sequence.steps[i].name;
    names.push_back(name.empty() ? "step " + std::to_string(i + 1) : name);
  }
  return names;
}

std::vector<Sequence> loadSequences(const MotionContext& context, const AssemblyDocument& document,
                                    const std::vector<std::optional<Mode>>& modes) {
  std::vector<Sequence> sequences;
  for (std::size_t i = 0; i < document.sequences.size(); ++i) {
    auto sequence = SequenceLoader(context, document, modes, i).load();
    if (sequence) sequences.push_back(std::move(*sequence));
  }
  return sequences;
}

}  // namespace swingroom
