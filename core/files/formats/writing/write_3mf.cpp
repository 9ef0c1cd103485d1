#include <Model/COM/NMR_DLLInterfaces.h>

#include <new>
#include <stdexcept>
#include <utility>
#include <vector>

#include "core/files/formats/lib3mf_objects.h"
#include "core/files/formats/writing/write_mesh.h"

namespace swingroom {
namespace {

using lib3mf::Handle;

void check(LIB3MFRESULT result, const Handle& object) {
  if (result == LIB3MF_OK) return;
  DWORD code = 0;
  LPCSTR text = nullptr;
  NMR::lib3mf_getlasterror(object.get(), &code, &text);
  throw std::runtime_error(std::string("cannot be written as 3MF") + (text && *text ? std::string(": ") + text : ""));
}

std::vector<NMR::MODELMESHVERTEX> verticesOf(const TriangleMesh& mesh) {
  std::vector<NMR::MODELMESHVERTEX> vertices;
  vertices.reserve(mesh.vertices.size());
  for (const Eigen::Vector3d& p : mesh.vertices) {
    NMR::MODELMESHVERTEX vertex;
    for (int d = 0; d < 3; ++d) vertex.m_fPosition[d] = static_cast<float>(p[d]) + 0.0f;
    vertices.push_back(vertex);
  }
  return vertices;
}

std::vector<NMR::MODELMESHTRIANGLE> trianglesOf(const TriangleMesh& mesh) {
  std::vector<NMR::MODELMESHTRIANGLE> triangles;
  triangles.reserve(mesh.triangles.size());
  for (const Triangle& corners : mesh.triangles) {
    triangles.push_back({{corners[0], corners[1], corners[2]}});
  }
  return triangles;
}

std::string packageOf(const TriangleMesh& mesh, const std::string& name) {
  Handle model, object, item, writer;
  if (NMR::lib3mf_createmodel(model.out()) != LIB3MF_OK) throw std::bad_alloc();
  check(NMR::lib3mf_model_setunit(model.get(), NMR::MODELUNIT_MILLIMETER), model);
  check(NMR::lib3mf_model_addmeshobject(model.get(), object.out()), model);
  check(NMR::lib3mf_object_setnameutf8(object.get(), name.c_str()), object);
  auto vertices = verticesOf(mesh);
  auto triangles = trianglesOf(mesh);
  check(NMR::lib3mf_meshobject_setgeometry(object.get(), vertices.data(), static_cast<DWORD>(vertices.size()),
                                           triangles.data(), static_cast<DWORD>(triangles.size())),
        object);
  check(NMR::lib3mf_model_addbuilditem(model.get(), object.get(), nullptr, item.out()), model);
  check(NMR::lib3mf_model_querywriter(model.get(), "3mf", writer.out()), model);
  ULONG64 size = 0;
  check(NMR::lib3mf_writer_getstreamsize(writer.get(), &size), writer);
  std::string bytes(size, '\0');
  check(NMR::lib3mf_writer_writetobuffer(writer.get(), reinterpret_cast<BYTE*>(bytes.data()), size), writer);
  return bytes;
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
