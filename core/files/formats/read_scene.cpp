#include "core/files/formats/read_scene.h"

#include "core/files/formats/guarded.h"
#include "core/files/formats/read_3mf.h"
#include "core/files/formats/read_mesh.h"
#include "core/files/formats/scene_with_assimp.h"

namespace swingroom {

Outcome<SceneFile> readSceneHere(const std::filesystem::path& file) {
  return guarded([&]() -> Outcome<SceneFile> {
    const Outcome<MeshFormat> format = checkedFormat(file);
    if (!format) return format.problems();
    if (*format == MeshFormat::threeMf) return readThreeMfScene(file);
    return readSceneWithAssimp(file, *format);
  });
}

}  // namespace swingroom
