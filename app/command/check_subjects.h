#pragma once

#include <deque>
#include <memory>
#include <string>

#include "core/files/document/variant_document.h"
#include "core/files/loading/load_assembly.h"
#include "core/measure/print_asked.h"
#include "core/report/check_report.h"
#include "core/report/print/print_report.h"

namespace swingroom {

/// The print checks of a subject, and what they were asked of.
struct CheckedPrint {
  PrintAsked asked;
  AssemblyGeometry geometry;
  PrintSubject subject;
  PrintResult result;
  PrintReport report;
};

/// An assembly file with one of its variants, ready to be checked.
struct CheckSubject {
  VariantDocument written;  ///< Its name is empty for the plain file.
  LoadedAssembly loaded;
  std::unique_ptr<CheckedPrint> print;  ///< Null: not asked for.
  CheckReport report;  ///< Filled in by the check; its `loaded` is to be set when this stands still.
};

/// In place of a variant's name: the plain file and each of its variants.
constexpr const char* kAllVariants = "all";

struct SubjectWords {
  std::string stage;    ///< In use by all parts that have it; empty: what the file says.
  std::string variant;  ///< Its name, or `kAllVariants`; empty: the plain file alone.
};

/// What `check` looks at. Detail meshes in use are held against their blocks; what is told of them is among
/// the notes.
/// A mesh that several share is read once. Everything that is wrong comes back in one go.
Outcome<std::deque<CheckSubject>> loadSubjects(const std::string& file, const SubjectWords& words,
                                               unsigned threads);

/// All notes, each once.
Problems notesOf(const std::deque<CheckSubject>& subjects);

}  // namespace swingroom
