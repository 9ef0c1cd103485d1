#include "app/edits/way_edits.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/edits/step_names.h"
#include "core/files/document/json_value.h"
#include "core/files/loading/load_sequences.h"

namespace swingroom::edits {
namespace {

struct WayText {
  Q_DECLARE_TR_FUNCTIONS(WayText)
};

QString quoted(const std::string& name) {
  return QString::fromStdString(inQuotes(name));
}

std::string wayCalled(const std::string& name) {
  return WayText::tr("way %1").arg(quoted(name)).toStdString();
}

/// Adds steps that bring everything to the last mode: parts to their mounts by hand, then every
/// joint together.
void addRest(const WrittenMotion& motion, DocumentSequence& way, const std::string& name,
             std::set<std::string> taken) {
  const WrittenStanding wanted = motion.mode(way.to);
  WrittenStanding here = way.steps.empty() ? motion.mode(way.from) : motion.stands(way).back();
  for (const auto& [part, mount] : wanted.mounts) {
    const auto was = here.mounts.find(part);
    if (was == here.mounts.end() || was->second == mount) continue;
    DocumentStep step;
    step.name = freeName(
        WayText::tr("move %1 over").arg(QString::fromStdString(part)).toStdString(), taken);
    step.replug = DocumentReplug{part, mount, {}};
    taken.insert(step.name);
    way.steps.push_back(step);
  }
  // The hand that moved a part over has set its joints.
  if (!way.steps.empty()) here = motion.stands(way).back();
  DocumentStep last;
  last.name = freeName(name, taken);
  last.moves = motion.difference(here, wanted);
  if (!last.moves.empty()) way.steps.push_back(last);
}

}  // namespace

Edited addWay(const AssemblyDocument& document, const std::string& wanted, const std::string& from,
              const std::string& to) {
  const std::string name = trimmed(wanted);
  if (const auto problem = nameProblem(wayCalled(name), name, namesIn(document.sequences)))
    return *problem;
  for (const std::string& mode : {from, to}) {
    if (!findNamed(document.modes, mode)) {
      return notThere(WayText::tr("mode %1").arg(quoted(mode)).toStdString());
    }
  }
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  DocumentSequence way;
  way.name = name;
  way.from = from;
  way.to = to;
  addRest(*motion, way, WayText::tr("all together", "name of a step").toStdString(),
          allStepNames(document));
  AssemblyDocument changed = document;
  changed.sequences.push_back(way);
  return changed;
}

Edited renameWay(const AssemblyDocument& document, const std::string& name,
                 const std::string& wanted) {
  const std::string to = trimmed(wanted);
  AssemblyDocument changed = document;
  DocumentSequence* way = findNamed(changed.sequences, name);
  if (!way) return notThere(wayCalled(name));
  if (to == name) return changed;
  if (const auto problem = nameProblem(wayCalled(name), to, namesIn(document.sequences)))
    return *problem;
  // The only step of a way without steps is called as the way is.
  if (way->steps.empty()) {
    if (const auto problem = stepRenameProblem(changed, name, name, to)) return *problem;
    renameInContacts(changed, name, name, to);
  }
  way->name = to;
  return changed;
}

Edited duplicateWay(const AssemblyDocument& document, const std::string& name,
                    const std::string& wanted) {
  const std::string copyName = trimmed(wanted);
  AssemblyDocument changed = document;
  const DocumentSequence* way = findNamed(changed.sequences, name);
  if (!way) return notThere(wayCalled(name));
  if (const auto problem = nameProblem(wayCalled(name), copyName, namesIn(document.sequences)))
    return *problem;
  DocumentSequence copy = *way;
  copy.name = copyName;
  changed.sequences.insert(changed.sequences.begin() + (way - changed.sequences.data()) + 1, copy);
  if (copy.steps.empty()) {
    forEachContact(changed, [&](std::vector<std::string>&, std::vector<std::string>& steps) {
      addBehind(steps, name, copyName);
    });
  }
  return changed;
}

Edited reverseWay(const AssemblyDocument& document, const std::string& name,
                  const std::string& wanted) {
  const std::string backName = trimmed(wanted);
  const DocumentSequence* way = findNamed(document.sequences, name);
  if (!way) return notThere(wayCalled(name));
  if (const auto problem = nameProblem(wayCalled(name), backName, namesIn(document.sequences)))
    return *problem;
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  if (!motion->missing(*way).empty() || !motion->wronglyMounted(*way).empty()) {
    return Problem{wayCalled(name),
                   WayText::tr("is not whole, so it has no way back").toStdString(),
                   WayText::tr("finish the way first").toStdString()};
  }
  DocumentSequence back;
  back.name = backName;
  back.from = way->to;
  back.to = way->from;
  const std::vector<WrittenStanding> stands = motion->stands(*way);
  const std::vector<std::string> names = stepNamesOf(*way);
  for (std::size_t s = way->steps.size(); s-- > 0;) {
    const DocumentStep& step = way->steps[s];
    DocumentStep reversed = step;
    reversed.name = step.name.empty() ? "" : names[s];
    for (auto& [joint, value] : reversed.moves) {
      const auto start = stands[s].values.find(joint);
      if (start != stands[s].values.end()) value = start->second;
    }
    if (reversed.replug) {
      const auto mount = stands[s].mounts.find(reversed.replug->part);
      if (mount != stands[s].mounts.end()) reversed.replug->onto = mount->second;
    }
    back.steps.push_back(reversed);
  }
  AssemblyDocument changed = document;
  changed.sequences.insert(changed.sequences.begin() + (way - document.sequences.data()) + 1, back);
  return changed;
}

Outcome<Removal> removeWay(const AssemblyDocument& document, const std::string& name) {
  Removal removal{document, {}};
  AssemblyDocument& changed = removal.document;
  const DocumentSequence* way = findNamed(document.sequences, name);
  if (!way) return notThere(wayCalled(name));
  std::set<std::string> gone;
  for (const std::string& step : stepNamesOf(*way)) gone.insert(step);
  std::erase_if(changed.sequences, [&](const DocumentSequence& one) { return one.name == name; });
  for (const DocumentSequence& other : changed.sequences) {
    for (const std::string& step : stepNamesOf(other)) gone.erase(step);
  }
  const std::size_t contacts = forget(changed, {}, gone);
  if (contacts > 0) {
    removal.also.push_back(contacts == 1 ? WayText::tr("1 contact").toStdString()
                                         : WayText::tr("%1 contacts").arg(contacts).toStdString());
  }
  return removal;
}

Edited finishWay(const AssemblyDocument& document, const std::string& name) {
  AssemblyDocument changed = document;
  DocumentSequence* way = findNamed(changed.sequences, name);
  if (!way) return notThere(wayCalled(name));
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  if (motion->missing(*way).empty() && motion->wronglyMounted(*way).empty()) return changed;
  if (way->steps.empty()) nameOnlyStep(*motion, *way);
  addRest(*motion, *way, WayText::tr("finish", "name of a step").toStdString(),
          allStepNames(document));
  return changed;
}

std::vector<std::string> shortBy(const AssemblyDocument& document, const std::string& name) {
  const DocumentSequence* way = findNamed(document.sequences, name);
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  std::vector<std::string> clauses;
  if (!way || !motion) return clauses;
  for (const ShortOf& missing : motion->missing(*way)) {
    clauses.push_back(WayText::tr("%1 at %2, %3 short")
                          .arg(quoted(missing.joint),
                               QString::fromStdString(motion->text(missing.joint, missing.at)),
                               QString::fromStdString(missing.amount))
                          .toStdString());
  }
  for (const std::string& part : motion->wronglyMounted(*way)) {
    clauses.push_back(WayText::tr("%1 on another mount").arg(quoted(part)).toStdString());
  }
  return clauses;
}

}  // namespace swingroom::edits
