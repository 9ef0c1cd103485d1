// Splitting a step, and joining two.
#include <algorithm>

#include "app/edits/step_at.h"
#include "app/edits/step_names.h"
#include "core/files/document/json_value.h"

namespace swingroom::edits {
namespace {

struct PartsText {
  Q_DECLARE_TR_FUNCTIONS(PartsText)
};

/// Contacts that cover one of two names and not the other.
bool coveredAlike(const AssemblyDocument& document, const std::string& a, const std::string& b) {
  bool alike = true;
  forEachContact(document,
                 [&](const std::vector<std::string>&, const std::vector<std::string>& steps) {
                   alike = alike && contains(steps, a) == contains(steps, b);
                 });
  return alike;
}

/// The other half's name. Where the step has none, neither has it.
std::string secondName(const AssemblyDocument& document, const std::string& first) {
  return first.empty() ? "" : freeName(first, allStepNames(document));
}

}  // namespace

Edited splitStep(const AssemblyDocument& document, const StepAt& at, double part) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at);
  if (!edit) return edit.problems();
  auto& steps = edit->way().steps;
  const std::string where = edit->called(at.step);
  if (steps[at.step].replug) {
    return Problem{where, PartsText::tr("is done by hand at once: it has no middle").toStdString(),
                   ""};
  }
  if (!(part > 0 && part < 1)) {
    return Problem{where, PartsText::tr("cannot be split at its end").toStdString(),
                   PartsText::tr("stand somewhere between its beads").toStdString()};
  }
  const auto stands = edit->motion.stands(edit->way());
  const WrittenStanding middle = edit->motion.between(stands[at.step], stands[at.step + 1], part);
  DocumentStep first = steps[at.step];
  DocumentStep second;
  second.name = secondName(document, first.name);
  second.moves = first.moves;
  second.order = first.order;
  for (auto& [joint, value] : first.moves) {
    const auto there = middle.values.find(joint);
    if (there == middle.values.end()) continue;
    value = there->second;
    const std::string complaint = edit->motion.complaint(joint, value);
    if (complaint.empty()) continue;
    return Problem{where,
                   PartsText::tr("cannot be split here: a joint %1")
                       .arg(QString::fromStdString(complaint))
                       .toStdString(),
                   PartsText::tr("split it where the joint may stand").toStdString()};
  }
  steps[at.step] = first;
  steps.insert(steps.begin() + static_cast<std::ptrdiff_t>(at.step) + 1, second);
  if (!second.name.empty()) {
    forEachContact(edit->changed, [&](std::vector<std::string>&, std::vector<std::string>& names) {
      addBehind(names, first.name, second.name);
    });
  }
  return edit->changed;
}

Edited joinSteps(const AssemblyDocument& document, const StepAt& at) {
  Outcome<StepEdit> edit = StepEdit::begin(document, at);
  if (!edit) return edit.problems();
  auto& steps = edit->way().steps;
  const std::string where = edit->called(at.step);
  if (at.step + 1 >= steps.size()) {
    return Problem{where, PartsText::tr("is the last: there is none to join it with").toStdString(),
                   ""};
  }
  DocumentStep& first = steps[at.step];
  const DocumentStep second = steps[at.step + 1];
  if (first.replug || second.replug) {
    return Problem{where,
                   PartsText::tr("cannot be joined with the next: what a hand moves over is a step "
                                 "of its own")
                       .toStdString(),
                   ""};
  }
  if (first.order != second.order) {
    return Problem{where,
                   PartsText::tr("cannot be joined with the next: in one the joints go together, "
                                 "in the other in any order")
                       .toStdString(),
                   PartsText::tr("make them alike first").toStdString()};
  }
  const std::vector<std::string> names = stepNamesOf(edit->way());
  const std::string firstName = names[at.step], secondName = names[at.step + 1];
  if (!coveredAlike(document, firstName, secondName)) {
    return Problem{where,
                   PartsText::tr("cannot be joined with the next: contacts cover only one of them")
                       .toStdString(),
                   PartsText::tr("let them cover both, or none").toStdString()};
  }
  for (const auto& [joint, value] : second.moves) first.moves[joint] = value;
  first.extra.insert(second.extra.begin(), second.extra.end());
  steps.erase(steps.begin() + static_cast<std::ptrdiff_t>(at.step) + 1);
  if (!allStepNames(edit->changed).contains(secondName)) {
    forEachContact(edit->changed, [&](std::vector<std::string>&, std::vector<std::string>& list) {
      std::erase(list, secondName);
    });
  }
  return edit->changed;
}

}  // namespace swingroom::edits
