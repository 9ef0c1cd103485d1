#include "app/edits/step_edits.h"

#include <algorithm>

#include "app/edits/step_at.h"
#include "app/edits/step_names.h"
#include "core/files/document/json_value.h"

namespace swingroom::edits {
namespace {

struct StepText {
  Q_DECLARE_TR_FUNCTIONS(StepText)
};

auto placeOf(std::vector<DocumentStep>& steps, std::size_t at) {
  return steps.begin() + static_cast<std::ptrdiff_t>(at);
}

/// Parts that hang elsewhere than where the step begins; only a replug step may do that.
std::optional<Problem> mountProblem(const std::string& where, const WrittenStanding& start,
                                    const WrittenStanding& standing) {
  for (const auto& [part, mount] : standing.mounts) {
    const auto was = start.mounts.find(part);
    if (was == start.mounts.end() || was->second == mount) continue;
    return Problem{where,
                   StepText::tr("cannot take %1 to another mount")
                       .arg(QString::fromStdString(inQuotes(part)))
                       .toStdString(),
                   StepText::tr("stand where it hangs as it does in the step").toStdString()};
  }
  return std::nullopt;
}

std::optional<Problem> valuesProblem(const WrittenMotion& motion, const std::string& where,
                                     const DocumentValues& values) {
  for (const auto& [joint, value] : values) {
    const std::string complaint = motion.complaint(joint, value);
    if (complaint.empty()) continue;
    return Problem{where,
                   StepText::tr("cannot end there: a joint %1")
                       .arg(QString::fromStdString(complaint))
                       .toStdString(),
                   ""};
  }
  return std::nullopt;
}

Problem isReplug(const std::string& where) {
  return {where, StepText::tr("moves a part over by hand, and no joints").toStdString(), ""};
}

}  // namespace

Outcome<StepEdit> StepEdit::begin(const AssemblyDocument& document, const StepAt& at, bool past) {
  const DocumentSequence* way = findNamed(document.sequences, at.way);
  const std::string called =
      StepText::tr("way %1").arg(QString::fromStdString(inQuotes(at.way))).toStdString();
  if (!way) return notThere(called);
  Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  StepEdit edit{document, std::move(motion).value(),
                static_cast<std::size_t>(way - document.sequences.data())};
  nameOnlyStep(edit.motion, edit.way());
  fixStepNames(document, edit.way());
  if (at.step >= edit.way().steps.size() + (past ? 1 : 0)) return notThere(edit.called(at.step));
  return edit;
}

Edited renameStep(const AssemblyDocument& document, const StepAt& at, const std::string& wanted) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at);
  if (!edit) return edit.problems();
  DocumentSequence& way = edit->way();
  const std::string to = trimmed(wanted);
  const std::string from = stepNamesOf(way)[at.step];
  if (to == from) return document;
  std::set<std::string> taken;
  for (const std::string& name : stepNamesOf(way)) taken.insert(name);
  if (const auto problem = nameProblem(edit->called(at.step), to, taken)) return *problem;
  if (const auto problem = stepRenameProblem(document, at.way, from, to)) return *problem;
  renameInContacts(edit->changed, at.way, from, to);
  way.steps[at.step].name = to;
  return edit->changed;
}

Edited addStep(const AssemblyDocument& document, const StepAt& at, const std::string& wanted,
               const WrittenStanding& standing) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at, true);
  if (!edit) return edit.problems();
  DocumentSequence& way = edit->way();
  const WrittenStanding start = edit->motion.stands(way)[at.step];
  DocumentStep step;
  step.name = trimmed(wanted);
  const std::string where =
      StepText::tr("step %1").arg(QString::fromStdString(inQuotes(step.name))).toStdString();
  if (const auto problem = nameProblem(where, step.name, allStepNames(document))) return *problem;
  if (const auto problem = mountProblem(where, start, standing)) return *problem;
  step.moves = edit->motion.difference(start, standing);
  if (step.moves.empty()) {
    return Problem{where, StepText::tr("would move nothing").toStdString(),
                   StepText::tr("move joints to where the step shall end first").toStdString()};
  }
  if (const auto problem = valuesProblem(edit->motion, where, step.moves)) return *problem;
  way.steps.insert(placeOf(way.steps, at.step), step);
  return edit->changed;
}

Edited moveStep(const AssemblyDocument& document, const StepAt& at, std::size_t to) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at);
  if (!edit) return edit.problems();
  auto& steps = edit->way().steps;
  if (to >= steps.size()) return notThere(edit->called(to));
  if (to == at.step) return document;
  const auto from = placeOf(steps, at.step), wanted = placeOf(steps, to);
  if (to > at.step) {
    std::rotate(from, from + 1, wanted + 1);
  } else {
    std::rotate(wanted, from, from + 1);
  }
  return edit->changed;
}

Outcome<Removal> removeStep(const AssemblyDocument& document, const StepAt& at) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at);
  if (!edit) return edit.problems();
  DocumentSequence& way = edit->way();
  const std::string name = stepNamesOf(way)[at.step];
  way.steps.erase(placeOf(way.steps, at.step));
  Removal removal{std::move(edit->changed), {}};
  if (allStepNames(removal.document).contains(name)) return removal;
  const std::size_t contacts = forget(removal.document, {}, {name});
  if (contacts > 0) {
    removal.also.push_back(contacts == 1 ? StepText::tr("1 contact").toStdString()
                                         : StepText::tr("%1 contacts").arg(contacts).toStdString());
  }
  return removal;
}

Edited setStepEnd(const AssemblyDocument& document, const StepAt& at,
                  const WrittenStanding& standing) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at);
  if (!edit) return edit.problems();
  DocumentStep& step = edit->way().steps[at.step];
  const std::string where = edit->called(at.step);
  if (step.replug) return isReplug(where);
  const WrittenStanding start = edit->motion.stands(edit->way())[at.step];
  if (const auto problem = mountProblem(where, start, standing)) return *problem;
  DocumentValues moves = edit->motion.difference(start, standing);
  if (moves.empty()) {
    return Problem{where, StepText::tr("would move nothing").toStdString(),
                   StepText::tr("remove the step instead").toStdString()};
  }
  if (const auto problem = valuesProblem(edit->motion, where, moves)) return *problem;
  for (auto& [joint, value] : moves) {
    // What stands where it did keeps its digits.
    const auto was = step.moves.find(joint);
    if (was != step.moves.end() && edit->motion.same(joint, was->second, value)) {
      value = was->second;
    }
  }
  step.moves = std::move(moves);
  return edit->changed;
}

Edited setStepOrder(const AssemblyDocument& document, const StepAt& at, DocumentOrder order) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at);
  if (!edit) return edit.problems();
  DocumentStep& step = edit->way().steps[at.step];
  if (step.replug) return isReplug(edit->called(at.step));
  if (step.order == order) return document;
  step.order = order;
  return edit->changed;
}

Edited setMove(const AssemblyDocument& document, const StepAt& at, const std::string& joint,
               const DocumentValue& value) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at);
  if (!edit) return edit.problems();
  DocumentStep& step = edit->way().steps[at.step];
  if (step.replug) return isReplug(edit->called(at.step));
  if (const auto problem = valuesProblem(edit->motion, edit->called(at.step), {{joint, value}}))
    return *problem;
  step.moves[joint] = value;
  return edit->changed;
}

Edited removeMove(const AssemblyDocument& document, const StepAt& at, const std::string& joint) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at);
  if (!edit) return edit.problems();
  if (edit->way().steps[at.step].moves.erase(joint) == 0) {
    return Problem{
        edit->called(at.step),
        StepText::tr("does not move %1").arg(QString::fromStdString(inQuotes(joint))).toStdString(),
        ""};
  }
  return edit->changed;
}

Edited giveMove(const AssemblyDocument& document, const StepAt& at, const std::string& joint,
                std::size_t to) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at);
  if (!edit) return edit.problems();
  auto& steps = edit->way().steps;
  if (to >= steps.size()) return notThere(edit->called(to));
  if (steps[to].replug) return isReplug(edit->called(to));
  const auto move = steps[at.step].moves.find(joint);
  if (move == steps[at.step].moves.end()) return removeMove(document, at, joint);
  if (to == at.step) return document;
  steps[to].moves[joint] = move->second;
  steps[at.step].moves.erase(joint);
  return edit->changed;
}

}  // namespace swingroom::edits
