#include "core/files/formats/writing/model_objects.h"

#include <new>
#include <stdexcept>
#include <vector>

#include "core/files/formats/lib3mf_objects.h"

namespace swingroom::lib3mf {
namespace {

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

}  // namespace

void requireWritten(LIB3MFRESULT result, const Handle& object) {
  if (result == LIB3MF_OK) return;
  DWORD code = 0;
  LPCSTR text = nullptr;
  NMR::lib3mf_getlasterror(object.get(), &code, &text);
  throw std::runtime_error(std::string("cannot be written as 3MF") +
                           (text && *text ? std::string(": ") + text : ""));
}

void startModel(Handle& model) {
  if (NMR::lib3mf_createmodel(model.out()) != LIB3MF_OK) throw std::bad_alloc();
  requireWritten(NMR::lib3mf_model_setunit(model.get(), NMR::MODELUNIT_MILLIMETER), model);
}

void addMesh(const Handle& model, const TriangleMesh& mesh, const std::string& name,
             Handle& object) {
  requireWritten(NMR::lib3mf_model_addmeshobject(model.get(), object.out()), model);
  requireWritten(NMR::lib3mf_object_setnameutf8(object.get(), name.c_str()), object);
  auto vertices = verticesOf(mesh);
  auto triangles = trianglesOf(mesh);
  requireWritten(NMR::lib3mf_meshobject_setgeometry(
                     object.get(), vertices.data(), static_cast<DWORD>(vertices.size()),
                     triangles.data(), static_cast<DWORD>(triangles.size())),
                 object);
}

std::string bytesOf(const Handle& model) {
  Handle writer;
  requireWritten(NMR::lib3mf_model_querywriter(model.get(), "3mf", writer.out()), model);
  ULONG64 size = 0;
  requireWritten(NMR::lib3mf_writer_getstreamsize(writer.get(), &size), writer);
  std::string bytes(size, '\0');
  requireWritten(
      NMR::lib3mf_writer_writetobuffer(writer.get(), reinterpret_cast<BYTE*>(bytes.data()), size),
      writer);
  return bytes;
}

}  // namespace swingroom::lib3mf
