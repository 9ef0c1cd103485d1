#include "app/edits/step_names.h"

#include <QCoreApplication>
#include <algorithm>

#include "core/files/document/json_value.h"
#include "core/files/loading/load_sequences.h"

namespace swingroom::edits {
namespace {

struct StepNameText {
  Q_DECLARE_TR_FUNCTIONS(StepNameText)
};

}  // namespace

bool isElsewhere(const AssemblyDocument& document, const std::string& way,
                 const std::string& step) {
  return std::any_of(document.sequences.begin(), document.sequences.end(),
                     [&](const DocumentSequence& other) {
                       return other.name != way && contains(stepNamesOf(other), step);
                     });
}

std::optional<Problem> stepRenameProblem(const AssemblyDocument& document, const std::string& way,
                                         const std::string& from, const std::string& to) {
  if (!isElsewhere(document, way, to)) return std::nullopt;
  bool differs = false;
  forEachContact(document,
                 [&](const std::vector<std::string>&, const std::vector<std::string>& steps) {
                   differs = differs || contains(steps, from) != contains(steps, to);
                 });
  if (!differs) return std::nullopt;
  return Problem{
      StepNameText::tr("step %1").arg(QString::fromStdString(inQuotes(from))).toStdString(),
      StepNameText::tr("cannot be called %1: another way has a step of that name, and contacts "
                       "excuse only one of the two")
          .arg(QString::fromStdString(inQuotes(to)))
          .toStdString(),
      StepNameText::tr("choose another name").toStdString()};
}

void renameInContacts(AssemblyDocument& document, const std::string& way, const std::string& from,
                      const std::string& to) {
  const bool keeps = isElsewhere(document, way, from);
  forEachContact(document, [&](std::vector<std::string>&, std::vector<std::string>& steps) {
    if (keeps) {
      addBehind(steps, from, to);
    } else {
      replaceName(steps, from, to);
    }
  });
}

std::set<std::string> allStepNames(const AssemblyDocument& document) {
  std::set<std::string> names;
  for (const DocumentSequence& way : document.sequences) {
    for (const std::string& step : stepNamesOf(way)) names.insert(step);
  }
  return names;
}

void fixStepNames(const AssemblyDocument& document, DocumentSequence& way) {
  const std::vector<std::string> names = stepNamesOf(way);
  for (std::size_t s = 0; s < way.steps.size(); ++s) {
    if (!way.steps[s].name.empty()) continue;
    if (std::count(names.begin(), names.end(), names[s]) > 1) continue;
    bool covered = false;
    forEachContact(document,
                   [&](const std::vector<std::string>&, const std::vector<std::string>& steps) {
                     covered = covered || contains(steps, names[s]);
                   });
    if (covered) way.steps[s].name = names[s];
  }
}

void nameOnlyStep(const WrittenMotion& motion, DocumentSequence& way) {
  if (!way.steps.empty()) return;
  const std::vector<WrittenStanding> stands = motion.stands(way);
  DocumentStep step;
  step.name = way.name;
  step.moves = motion.difference(stands.front(), stands.back());
  way.steps.push_back(step);
}

}  // namespace swingroom::edits
