#include "core/files/document/moved_document.h"

#include <algorithm>

#include "core/files/document/json_value.h"
#include "core/files/mesh_path.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

class PathTurner {
 public:
  PathTurner(const fs::path& from, const fs::path& to)
      : from_(fs::absolute(from)), to_(fs::absolute(to).lexically_normal()) {}

  void turn(std::string& path) const {
    if (path.empty() || fs::path(path).is_absolute()) return;
    const MeshPath mesh = meshPathOf(from_, path);
    const fs::path seen = mesh.file.lexically_relative(to_);
    path = writtenMeshPath({seen.empty() ? mesh.file : seen, mesh.part});
  }

 private:
  fs::path from_, to_;
};

JsonValue* memberOf(JsonValue& object, std::string_view key) {
  const auto found = std::find_if(object.members.begin(), object.members.end(),
                                  [&](const JsonMember& member) { return member.key == key; });
  return found == object.members.end() ? nullptr : &found->value;
}

/// `replace` of a variant, as compact JSON; untouched if it is of another form.
void turnVariant(std::string& replace, const PathTurner& turner) {
  Outcome<JsonValue> json = parseJson(replace, "variant");
  if (!json) return;
  JsonValue* parts = memberOf(*json, "parts");
  if (!parts) return;
  for (JsonValue& part : parts->items) {
    JsonValue* stages = memberOf(part, "stages");
    if (!stages) continue;
    for (JsonMember& stage : stages->members) {
      if (stage.value.kind == JsonValue::Kind::text) turner.turn(stage.value.text);
    }
  }
  replace = compactJson(*json);
}

}  // namespace

AssemblyDocument movedDocument(AssemblyDocument document, const fs::path& from,
                               const fs::path& to) {
  const PathTurner turner(from, to);
  for (DocumentPart& part : document.parts) {
    for (auto& [stage, path] : part.stages) turner.turn(path);
  }
  for (DocumentDrawing& drawing : document.drawings) turner.turn(drawing.picture);
  for (DocumentVariant& variant : document.variants) turnVariant(variant.replace, turner);
  return document;
}

std::vector<fs::path> meshFilesOf(const AssemblyDocument& document, const fs::path& from) {
  std::vector<fs::path> files;
  for (const DocumentPart& part : document.parts) {
    const auto stage = part.stages.find(part.use);
    if (stage == part.stages.end() || stage->second.empty()) continue;
    files.push_back(meshPathOf(from, stage->second).file);
  }
  std::sort(files.begin(), files.end());
  files.erase(std::unique(files.begin(), files.end()), files.end());
  return files;
}

}  // namespace swingroom
