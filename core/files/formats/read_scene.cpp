#include "core/files/formats/read_scene.h"

#include <new>

#include "core/files/formats/read_3mf.h"
#include "core/files/formats/read_mesh.h"
#include "core/files/formats/scene_with_assimp.h"

namespace swingroom {

Outcome<SceneFile> readSceneHere(const std::filesystem::path& file) {
  try {
    const Outcome<MeshFormat> format = checkedFormat(file);
    if (!format) return format.problems();
    if (*format == MeshFormat::threeMf) return readThreeMfScene(file);
    return readSceneWithAssimp(file, *format);
  } catch (const std::filesystem::filesystem_error& error) {
    return Problem{"", "cannot be read: " + error.code().message(), ""};
  } catch (const std::bad_alloc&) {
    return Problem{"", "needs more memory to read than is allowed",
                   "export it with fewer triangles"};
  }
}

}  // namespace swingroom
