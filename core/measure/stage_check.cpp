#include "core/measure/stage_check.h"

#include <algorithm>

#include "core/base/parallel.h"
#include "core/files/document/document_problems.h"

namespace swingroom {
namespace {

/// That stage of parts that have both; the others without a mesh, so that nothing is read for them.
std::vector<Part> partsInStage(AssemblyDocument document, const std::string& stage,
                               const std::filesystem::path& file, const MeshSource& source) {
  for (DocumentPart& part : document.parts) {
    if (hasBothStages(part)) {
      part.use = stage;
    } else {
      part.stages.clear();
      part.use = DocumentPart().use;
    }
  }
  DocumentProblems unheard(file.string());  // Told where the parts are loaded.
  std::vector<Part> parts = loadParts(document, unheard);
  loadMeshes(document, file.parent_path(), source, parts, unheard);
  return parts;
}

}  // namespace

bool hasBothStages(const DocumentPart& part) {
  const auto has = [&](const std::string& stage) {
    const auto found = part.stages.find(stage);
    return found != part.stages.end() && !found->second.empty();
  };
  return has(kBlockStage) && has(kDetailStage);
}

AssemblyDocument withStage(const AssemblyDocument& document, const std::string& stage) {
  AssemblyDocument changed = document;
  for (DocumentPart& part : changed.parts) {
    if (part.stages.contains(stage)) part.use = stage;
  }
  return changed;
}

std::string detailFileOf(const DocumentPart& part) {
  const auto found = part.stages.find(kDetailStage);
  return found == part.stages.end() ? part.name : found->second;
}

std::vector<StageMeshes> loadBothStages(const AssemblyDocument& document,
                                        const std::filesystem::path& file, const MeshSource& source) {
  std::vector<StageMeshes> meshes(document.parts.size());
  if (std::none_of(document.parts.begin(), document.parts.end(), hasBothStages)) return meshes;
  const std::vector<Part> blocks = partsInStage(document, kBlockStage, file, source);
  const std::vector<Part> details = partsInStage(document, kDetailStage, file, source);
  for (std::size_t i = 0; i < meshes.size(); ++i) {
    if (hasBothStages(document.parts[i])) meshes[i] = {blocks[i].mesh, details[i].mesh};
  }
  return meshes;
}

Problems stageNotesOf(const AssemblyDocument& document, const std::filesystem::path& file,
                      const Assembly& assembly, const MeshSource& source) {
  AssemblyDocument inDetail = document;  // Only what is checked is held against its block.
  for (DocumentPart& part : inDetail.parts) {
    if (part.use != kDetailStage) part.stages.erase(kDetailStage);
  }
  const std::vector<StageMeshes> meshes = loadBothStages(inDetail, file, source);
  std::vector<Problems> notes(meshes.size());
  parallelFor(meshes.size(), source.threads, [&](std::size_t i) {
    const std::string where = detailFileOf(document.parts[i]);
    if (!meshes[i].detail || isCancelled(source.monitor)) return;
    if (!meshes[i].block) {
      notes[i] = {{where, "its block cannot be read, so the two are not held against each other", ""}};
      return;
    }
    const StageSurface block(meshes[i].block), detail(meshes[i].detail);
    notes[i] = stageNotes(where, stageFaultsOf(block, detail, jointLinesOf(assembly, PartId{i})));
  });
  Problems all;
  for (const Problems& some : notes) addStageNotes(all, some);
  return all;
}

}  // namespace swingroom
