#include "app/edits/instance_edits.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/edits/joint_uses.h"
#include "app/edits/part_edits.h"
#include "app/edits/sound_edit.h"
#include "core/files/document/json_value.h"

namespace swingroom::edits {
namespace {

struct InstanceText {
  Q_DECLARE_TR_FUNCTIONS(InstanceText)
};

/// "pin 2", or "pin_2" where names are written so.
std::string nextName(const std::string& name, const std::set<std::string>& taken) {
  const bool underscores = name.find('_') != std::string::npos;
  for (int i = 2;; ++i) {
    const std::string next = name + (underscores ? "_" : " ") + std::to_string(i);
    if (!taken.contains(next)) return next;
  }
}

std::optional<Problem> placeProblem(const std::string& part, const DocumentPlacement& placement) {
  double squares = 0;
  for (const double q : placement.turn) squares += q * q;
  if (squares > 1e-24) return std::nullopt;
  return Problem{partCalled(part), InstanceText::tr("needs a turn that is not 0").toStdString(),
                 InstanceText::tr("no turn is 1, 0, 0, 0").toStdString()};
}

std::string counted(std::size_t count, const QString& one, const QString& many) {
  return (count == 1 ? one : many.arg(count)).toStdString();
}

bool hasPart(const DocumentPair& pair, const std::set<std::string>& parts) {
  return parts.contains(pair.parts[0]) || parts.contains(pair.parts[1]);
}

void forgetPlaces(AssemblyDocument& document, const std::set<std::string>& parts) {
  for (DocumentMode& mode : document.modes) {
    for (const std::string& part : parts) {
      mode.mounts.erase(part);
      if (mode.placements) mode.placements->erase(part);
    }
  }
}

void add(std::vector<std::string>& all, const std::vector<std::string>& more) {
  all.insert(all.end(), more.begin(), more.end());
}

bool isSameThing(const DocumentPart& a, const DocumentPart& b) {
  const auto fileOf = [](const DocumentPart& part) {
    const auto stage = part.stages.find(part.use);
    return stage == part.stages.end() ? std::string() : stage->second;
  };
  return !fileOf(a).empty() && fileOf(a) == fileOf(b) && a.scale == b.scale &&
         a.deviation == b.deviation &&
         a.mirror.has_value() == b.mirror.has_value() && a.colour == b.colour &&
         a.material == b.material && a.kind == b.kind && a.process == b.process &&
         a.clear.value_or(false) == b.clear.value_or(false);
}

}  // namespace

Edited addPart(const AssemblyDocument& document, const DocumentPart& wanted) {
  DocumentPart part = wanted;
  part.name = trimmed(part.name);
  if (part.name.empty()) {
    return Problem{InstanceText::tr("a new part").toStdString(),
                   InstanceText::tr("needs a name").toStdString(), ""};
  }
  part.name = freeName(part.name, namesIn(document.parts));
  if (part.placement) {
    if (const auto problem = placeProblem(part.name, *part.placement)) return *problem;
  }
  AssemblyDocument changed = document;
  changed.parts.push_back(part);
  return soundEdit(document, std::move(changed), partCalled(part.name));
}

Edited addInstances(const AssemblyDocument& document, const std::string& name,
                    const std::vector<Place>& places, bool first) {
  const DocumentPart* original = findNamed(document.parts, name);
  if (!original) return notThere(partCalled(name));
  for (const Place& place : places) {
    if (const auto problem = placeProblem(name, place.placement)) return *problem;
  }
  AssemblyDocument changed = document;
  std::vector<Place> more = places;
  std::string called = name;
  if (first && !more.empty()) {
    const std::string wanted = trimmed(more.front().name);
    if (!wanted.empty() && wanted != name) {
      const Edited renamed = renamePart(changed, name, freeName(wanted, namesIn(document.parts)));
      if (!renamed) return renamed.problems();
      changed = *renamed;
      called = freeName(wanted, namesIn(document.parts));
    }
    findNamed(changed.parts, called)->placement = more.front().placement;
    more.erase(more.begin());
  }
  std::set<std::string> taken = namesIn(changed.parts);
  auto at = findNamed(changed.parts, called) - changed.parts.data();
  for (const Place& place : more) {
    DocumentPart copy = changed.parts[static_cast<std::size_t>(at)];
    const std::string wanted = trimmed(place.name);
    copy.name = wanted.empty() ? nextName(name, taken) : freeName(wanted, taken);
    copy.id.reset();
    copy.placement = place.placement;
    taken.insert(copy.name);
    changed.parts.insert(changed.parts.begin() + ++at, copy);
  }
  return soundEdit(document, std::move(changed), partCalled(name));
}

Edited placePart(const AssemblyDocument& document, const std::string& name,
                 const std::optional<DocumentPlacement>& placement) {
  AssemblyDocument changed = document;
  DocumentPart* part = findNamed(changed.parts, name);
  if (!part) return notThere(partCalled(name));
  if (placement) {
    if (const auto problem = placeProblem(name, *placement)) return *problem;
  }
  part->placement = placement == DocumentPlacement() ? std::nullopt : placement;
  return soundEdit(document, std::move(changed), partCalled(name));
}

Outcome<Removal> removeParts(const AssemblyDocument& document, const std::set<std::string>& parts) {
  for (const std::string& part : parts) {
    if (!findNamed(document.parts, part)) return notThere(partCalled(part));
  }
  const std::string where = parts.size() == 1
                                ? partCalled(*parts.begin())
                                : InstanceText::tr("%1 parts").arg(parts.size()).toStdString();
  Removal removal{document, {}};
  AssemblyDocument& changed = removal.document;
  std::vector<std::string> joints;
  for (const DocumentJoint& joint : document.joints) {
    if (parts.contains(joint.child) || (joint.parent && parts.contains(*joint.parent))) {
      joints.push_back(joint.name);
    }
  }
  // What goes too need not be given values of its own first.
  for (const std::string& joint : joints) findNamed(changed.joints, joint)->follows.reset();
  for (const std::string& joint : joints) add(removal.also, takeJointOut(changed, joint));
  if (!joints.empty())
    removal.also.push_back(
        counted(joints.size(), InstanceText::tr("1 joint"), InstanceText::tr("%1 joints")));
  const std::size_t rules =
      std::erase_if(changed.pairs, [&](const DocumentPair& pair) { return hasPart(pair, parts); });
  if (rules > 0)
    removal.also.push_back(counted(rules, InstanceText::tr("1 rule of a pair"),
                                   InstanceText::tr("%1 rules of pairs")));
  forgetPlaces(changed, parts);
  add(removal.also, removeSteps(changed, [&](const DocumentSequence& way, std::size_t step) {
        const auto& replug = way.steps[step].replug;
        return replug && parts.contains(replug->part);
      }));
  std::erase_if(changed.parts, [&](const DocumentPart& part) { return parts.contains(part.name); });
  if (forgetInVariants(changed, parts, {}) > 0) {
    removal.also.push_back(InstanceText::tr("what variants put in its place").toStdString());
  }
  add(removal.also, settleMounts(changed));
  add(removal.also, keepWhole(document, changed));
  return soundRemoval(document, std::move(removal), where);
}

std::vector<PartsListRow> partsList(const AssemblyDocument& document) {
  std::vector<PartsListRow> rows;
  std::vector<const DocumentPart*> firsts;
  for (const DocumentPart& part : document.parts) {
    const auto same = std::find_if(firsts.begin(), firsts.end(), [&](const DocumentPart* first) {
      return isSameThing(*first, part);
    });
    const auto index = static_cast<std::size_t>(same - firsts.begin());
    if (same == firsts.end()) {
      const auto stage = part.stages.find(part.use);
      rows.push_back(
          {stage == part.stages.end() ? "" : stage->second, part.mirror.has_value(), 0, {}});
      firsts.push_back(&part);
    }
    rows[index].count += part.count.value_or(1);
    rows[index].parts.push_back(part.name);
  }
  return rows;
}

}  // namespace swingroom::edits
