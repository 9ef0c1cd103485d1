#include <new>
#include <stdexcept>

#include "core/files/formats/lib3mf_objects.h"
#include "core/files/formats/writing/model_objects.h"
#include "core/files/formats/writing/write_mesh.h"

namespace swingroom {
namespace {

using lib3mf::Handle;

std::string packageOf(const TriangleMesh& mesh, const std::string& name) {
  Handle model, object, item;
  lib3mf::startModel(model);
  lib3mf::addMesh(model, mesh, name, object);
  lib3mf::requireWritten(
      NMR::lib3mf_model_addbuilditem(model.get(), object.get(), nullptr, item.out()), model);
  return lib3mf::bytesOf(model);
}

}  // namespace

Outcome<std::string> threeMfBytes(const TriangleMesh& mesh, const std::string& name) {
  try {
    return packageOf(mesh, name);
  } catch (const std::runtime_error& error) {
    return Problem{"", error.what(), ""};
  } catch (const std::bad_alloc&) {
    return Problem{"", "needs more memory to write as 3MF than there is", "write it as STL"};
  }
}

}  // namespace swingroom
