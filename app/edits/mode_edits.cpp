#include "app/edits/mode_edits.h"

#include <QCoreApplication>
#include <algorithm>

#include "core/files/document/json_value.h"
#include "core/files/loading/load_sequences.h"

namespace swingroom::edits {
namespace {

struct ModeText {
  Q_DECLARE_TR_FUNCTIONS(ModeText)
};

std::string modeCalled(const std::string& name) {
  return ModeText::tr("mode %1").arg(QString::fromStdString(inQuotes(name))).toStdString();
}

/// Why no mode can stand so; none: one can.
std::optional<Problem> standingProblem(const WrittenMotion& motion, const std::string& name,
                                       const WrittenStanding& standing) {
  const std::string complaint = motion.complaint(standing);
  if (complaint.empty()) return std::nullopt;
  return Problem{modeCalled(name),
                 ModeText::tr("cannot be as it stands: a joint %1")
                     .arg(QString::fromStdString(complaint))
                     .toStdString(),
                 ModeText::tr("move it there first").toStdString()};
}

bool isZero(const DocumentValue& value) {
  return value == DocumentValue(0.0) || value == DocumentValue(ThreeNumbers{0, 0, 0});
}

}  // namespace

Edited addMode(const AssemblyDocument& document, const std::string& wanted,
               const WrittenStanding& standing) {
  const std::string name = trimmed(wanted);
  if (const auto problem = nameProblem(modeCalled(name), name, namesIn(document.modes)))
    return *problem;
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  if (const auto problem = standingProblem(*motion, name, standing)) return *problem;
  DocumentMode mode;
  mode.name = name;
  mode.values.emplace();
  for (const auto& [joint, value] : standing.values) {
    if (motion->joint(joint) && motion->holds(joint, standing)) (*mode.values)[joint] = value;
  }
  mode.mounts = standing.mounts;
  AssemblyDocument changed = document;
  changed.modes.push_back(mode);
  return changed;
}

Edited renameMode(const AssemblyDocument& document, const std::string& name,
                  const std::string& wanted) {
  const std::string to = trimmed(wanted);
  AssemblyDocument changed = document;
  DocumentMode* mode = findNamed(changed.modes, name);
  if (!mode) return notThere(modeCalled(name));
  if (to == name) return changed;
  if (const auto problem = nameProblem(modeCalled(name), to, namesIn(document.modes)))
    return *problem;
  mode->name = to;
  for (DocumentSequence& way : changed.sequences) {
    if (way.from == name) way.from = to;
    if (way.to == name) way.to = to;
  }
  for (DocumentDrawing& drawing : changed.drawings) {
    if (drawing.mode == name) drawing.mode = to;
  }
  forEachContact(changed, [&](std::vector<std::string>& modes, std::vector<std::string>&) {
    replaceName(modes, name, to);
  });
  return changed;
}

Edited duplicateMode(const AssemblyDocument& document, const std::string& name,
                     const std::string& wanted) {
  const std::string copyName = trimmed(wanted);
  AssemblyDocument changed = document;
  const DocumentMode* mode = findNamed(changed.modes, name);
  if (!mode) return notThere(modeCalled(name));
  if (const auto problem = nameProblem(modeCalled(name), copyName, namesIn(document.modes)))
    return *problem;
  DocumentMode copy = *mode;
  copy.name = copyName;
  changed.modes.insert(changed.modes.begin() + (mode - changed.modes.data()) + 1, copy);
  forEachContact(changed, [&](std::vector<std::string>& modes, std::vector<std::string>&) {
    addBehind(modes, name, copyName);
  });
  return changed;
}

Edited setMode(const AssemblyDocument& document, const std::string& name,
               const WrittenStanding& standing) {
  AssemblyDocument changed = document;
  DocumentMode* mode = findNamed(changed.modes, name);
  if (!mode) return notThere(modeCalled(name));
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  if (const auto problem = standingProblem(*motion, name, standing)) return *problem;
  if (!mode->values) mode->values.emplace();
  const bool wasPlaced = mode->placements.has_value();
  mode->placements.reset();
  // Without the placements no one would know of the joints that they needed.
  if (wasPlaced) {
    for (const DocumentJoint& joint : motion->impliedJoints()) changed.joints.push_back(joint);
  }
  DocumentValues& values = *mode->values;
  for (const auto& [joint, value] : standing.values) {
    if (!motion->joint(joint) || !motion->holds(joint, standing)) continue;
    const auto named = values.find(joint);
    if (named == values.end()) {
      if (wasPlaced || !isZero(value)) values[joint] = value;
    } else if (!motion->same(joint, named->second, value)) {
      named->second = value;
    }
  }
  for (const auto& [part, joint] : standing.mounts) {
    const auto named = mode->mounts.find(part);
    // Any joint of a mount says which it is.
    if (named != mode->mounts.end() && motion->holds(named->second, standing)) continue;
    mode->mounts[part] = joint;
  }
  return changed;
}

Edited setModeValue(const AssemblyDocument& document, const std::string& name,
                    const std::string& joint, const DocumentValue& value) {
  AssemblyDocument changed = document;
  DocumentMode* mode = findNamed(changed.modes, name);
  if (!mode) return notThere(modeCalled(name));
  if (!mode->values) {
    return Problem{modeCalled(name), ModeText::tr("is given by placements").toStdString(),
                   ModeText::tr("set it to where it stands").toStdString()};
  }
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  const std::string complaint = motion->complaint(joint, value);
  if (!complaint.empty()) return Problem{joint, complaint, ""};
  (*mode->values)[joint] = value;
  return changed;
}

Outcome<Removal> removeMode(const AssemblyDocument& document, const std::string& name) {
  Removal removal{document, {}};
  AssemblyDocument& changed = removal.document;
  if (!findNamed(changed.modes, name)) return notThere(modeCalled(name));
  std::erase_if(changed.modes, [&](const DocumentMode& mode) { return mode.name == name; });
  for (DocumentDrawing& drawing : changed.drawings) {
    if (drawing.mode == name) drawing.mode.reset();
  }
  std::set<std::string> stepsGone;
  std::erase_if(changed.sequences, [&](const DocumentSequence& way) {
    if (way.from != name && way.to != name) return false;
    removal.also.push_back(
        ModeText::tr("the way %1").arg(QString::fromStdString(inQuotes(way.name))).toStdString());
    for (const std::string& step : stepNamesOf(way)) stepsGone.insert(step);
    return true;
  });
  for (const DocumentSequence& way : changed.sequences) {
    for (const std::string& step : stepNamesOf(way)) stepsGone.erase(step);
  }
  const std::size_t contacts = forget(changed, {name}, stepsGone);
  if (contacts == 1) removal.also.push_back(ModeText::tr("1 contact").toStdString());
  if (contacts > 1) {
    removal.also.push_back(ModeText::tr("%1 contacts").arg(contacts).toStdString());
  }
  return removal;
}

}  // namespace swingroom::edits
