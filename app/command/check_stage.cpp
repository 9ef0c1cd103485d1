#include "app/command/check_stage.h"

#include <algorithm>

#include "core/files/document/read_document.h"
#include "core/measure/stage_check.h"

namespace swingroom {

Outcome<LoadedAssembly> loadForCheck(const std::string& file, const std::string& stage,
                                     unsigned threads) {
  const MeshReader reader = MeshReader::besideThisProgram();
  Outcome<ReadDocument> read = readDocument(file);
  if (!read) return loadAssembly(file, reader, threads);  // Tells all other mistakes too.
  AssemblyDocument& document = read->document;
  if (!stage.empty()) {
    const auto has = [&](const DocumentPart& part) { return part.stages.contains(stage); };
    if (std::none_of(document.parts.begin(), document.parts.end(), has)) {
      return Problem{file, "no part has a mesh of stage " + stage,
                     "leave --stage out: what the file says is checked"};
    }
    document = withStage(document, stage);
  }
  MeshMemory memory;
  const MeshSource source{&reader, threads, &memory};
  Outcome<LoadedAssembly> loaded = loadAssembly(document, file, source);
  if (!loaded) return loaded;
  loaded->notes.insert(loaded->notes.begin(), read->notes.begin(), read->notes.end());
  const Problems told = stageNotesOf(document, file, loaded->assembly, source);
  loaded->notes.insert(loaded->notes.end(), told.begin(), told.end());
  return loaded;
}

}  // namespace swingroom
