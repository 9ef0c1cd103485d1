#pragma once

#include <QCoreApplication>

#include "app/edits/step_edits.h"
#include "core/files/loading/load_sequences.h"

/// What the edits of steps share.
namespace swingroom::edits {

/// "step 3 lift".
inline std::string stepCalled(const DocumentSequence& way, std::size_t step) {
  const std::vector<std::string> names = stepNamesOf(way);
  return QCoreApplication::translate("swingroom::StepEdits", "step %1 %2", "number and name")
      .arg(step + 1)
      .arg(QString::fromStdString(step < names.size() ? names[step] : ""))
      .toStdString();
}

/// A document that is being changed, with the way in it and what its joints and modes say.
struct StepEdit {
  AssemblyDocument changed;
  WrittenMotion motion;
  std::size_t wayIndex = 0;

  DocumentSequence& way() { return changed.sequences[wayIndex]; }
  std::string called(std::size_t step) { return stepCalled(way(), step); }

  /// Refuses a way or step that is not there; the way has steps then.
  /// @param past  The position after the last step is one too.
  static Outcome<StepEdit> begin(const AssemblyDocument& document, const StepAt& at,
                                 bool past = false);
};

}  // namespace swingroom::edits
