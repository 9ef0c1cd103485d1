#include "app/command/check_subjects.h"

#include <algorithm>

#include "core/files/document/read_document.h"
#include "core/measure/stage_check.h"

namespace swingroom {
namespace {

/// What stands under these names, and what is wrong with any.
Outcome<std::deque<VariantDocument>> writtenFor(const AssemblyDocument& document,
                                                const std::vector<std::string>& names,
                                                const std::string& file) {
  std::deque<VariantDocument> written;
  Problems mistakes;
  for (const std::string& name : names) {
    if (name.empty()) {
      written.push_back({"", document, {}});
      continue;
    }
    Outcome<VariantDocument> made = documentOfVariant(document, name, file);
    if (made) {
      written.push_back(std::move(*made));
    } else {
      mistakes.insert(mistakes.end(), made.problems().begin(), made.problems().end());
    }
  }
  if (!mistakes.empty()) return mistakes;
  return written;
}

std::vector<std::string> namesOf(const AssemblyDocument& document, const std::string& variant) {
  if (variant != kAllVariants) return {variant};
  std::vector<std::string> names{""};
  for (const DocumentVariant& one : document.variants) names.push_back(one.name);
  return names;
}

std::optional<Problem> stageIsMissing(const AssemblyDocument& document, const std::string& stage,
                                      const std::string& file) {
  const auto has = [&](const DocumentPart& part) { return part.stages.contains(stage); };
  if (stage.empty() || std::any_of(document.parts.begin(), document.parts.end(), has)) return std::nullopt;
  return Problem{file, "no part has a mesh of stage " + stage, "leave --stage out: what the file says is checked"};
}

/// One subject, with what is told of its detail meshes.
Outcome<CheckSubject> loadSubject(VariantDocument written, const std::string& file, const MeshSource& source) {
  auto loaded = loadAssembly(written.document, file, source);
  if (!loaded) {
    return written.name.empty() ? loaded.problems() : inFile(written, loaded.problems());
  }
  const Problems told = stageNotesOf(written.document, file, loaded->assembly, source);
  loaded->notes.insert(loaded->notes.end(), told.begin(), told.end());
  return CheckSubject{std::move(written), std::move(*loaded), nullptr, {}};
}

}  // namespace

Outcome<std::deque<CheckSubject>> loadSubjects(const std::string& file, const SubjectWords& words,
                                               unsigned threads) {
  const MeshReader reader = MeshReader::besideThisProgram();
  const Outcome<ReadDocument> read = readDocument(file);
  if (!read) return loadAssembly(file, reader, threads).problems();  // Tells all other mistakes too.
  if (const auto missing = stageIsMissing(read->document, words.stage, file)) return *missing;
  auto written = writtenFor(read->document, namesOf(read->document, words.variant), file);
  if (!written) return written.problems();
  MeshMemory memory;
  std::deque<CheckSubject> subjects;
  Problems mistakes;
  for (VariantDocument& one : *written) {
    const bool isPlain = one.name.empty();
    if (!words.stage.empty()) one.document = withStage(one.document, words.stage);
    auto subject = loadSubject(std::move(one), file, {&reader, threads, &memory});
    if (subject) {
      subjects.push_back(std::move(*subject));
      continue;
    }
    mistakes.insert(mistakes.end(), subject.problems().begin(), subject.problems().end());
    if (isPlain) break;  // The variants would tell the same.
  }
  if (!mistakes.empty()) return mistakes;
  Problems& notes = subjects.front().loaded.notes;
  notes.insert(notes.begin(), read->notes.begin(), read->notes.end());
  return subjects;
}

Problems notesOf(const std::deque<CheckSubject>& subjects) {
  Problems notes;
  for (const CheckSubject& subject : subjects) {
    for (const Problem& note : subject.loaded.notes) {
      if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(note);
    }
  }
  return notes;
}

}  // namespace swingroom
