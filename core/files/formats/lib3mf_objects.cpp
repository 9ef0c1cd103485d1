#include "core/files/formats/lib3mf_objects.h"

#include <Common/NMR_ErrorConst.h>

#include <algorithm>
#include <cstdio>
#include <new>
#include <stdexcept>

#include "core/files/formats/plain_reason.h"

namespace swingroom::lib3mf {
namespace {

std::string hexOf(unsigned red, unsigned green, unsigned blue) {
  char text[8];
  std::snprintf(text, sizeof text, "#%02X%02X%02X", red, green, blue);
  return text;
}

/// The library takes a unit that it does not know for the default and only warns.
bool warnsOfUnit(const Handle& reader) {
  DWORD count = 0;
  require(NMR::lib3mf_reader_getwarningcount(reader.get(), &count), reader);
  for (DWORD i = 0; i < count; ++i) {
    DWORD code = 0;
    ULONG length = 0;
    char text[256];
    require(NMR::lib3mf_reader_getwarningutf8(reader.get(), i, &code, text, sizeof text, &length),
            reader);
    if (code == NMR_ERROR_INVALIDMODELUNIT) return true;
  }
  return false;
}

}  // namespace

void require(LIB3MFRESULT result, const Handle& object) {
  if (result == LIB3MF_OK) return;
  DWORD code = 0;
  LPCSTR text = nullptr;
  NMR::lib3mf_getlasterror(object.get(), &code, &text);
  throw std::runtime_error(plainReason("3MF", text ? text : ""));
}

void readModel(const std::filesystem::path& file, Handle& model) {
  Handle reader;
  if (NMR::lib3mf_createmodel(model.out()) != LIB3MF_OK) throw std::bad_alloc();
  require(NMR::lib3mf_model_queryreader(model.get(), "3mf", reader.out()), model);
  require(NMR::lib3mf_reader_readfromfileutf8(reader.get(), file.c_str()), reader);
  if (warnsOfUnit(reader)) throw std::runtime_error("has a unit that 3MF does not know");
}

Eigen::Affine3d affineOf(const NMR::MODELTRANSFORM& transform) {
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 4; ++column) {
      X.matrix()(row, column) = static_cast<double>(transform.m_fFields[row][column]);
    }
  }
  return X;
}

TriangleMesh meshOf(const Handle& object) {
  DWORD vertexCount = 0, triangleCount = 0;
  require(NMR::lib3mf_meshobject_getvertexcount(object.get(), &vertexCount), object);
  require(NMR::lib3mf_meshobject_gettrianglecount(object.get(), &triangleCount), object);
  std::vector<NMR::MODELMESHVERTEX> vertices(vertexCount);
  std::vector<NMR::MODELMESHTRIANGLE> triangles(triangleCount);
  if (vertexCount > 0) {
    require(NMR::lib3mf_meshobject_getvertices(object.get(), vertices.data(), vertexCount, nullptr),
            object);
  }
  if (triangleCount > 0) {
    require(NMR::lib3mf_meshobject_gettriangleindices(object.get(), triangles.data(), triangleCount,
                                                      nullptr),
            object);
  }
  TriangleMesh mesh;
  mesh.vertices.reserve(vertexCount);
  for (const auto& vertex : vertices) {
    mesh.vertices.emplace_back(vertex.m_fPosition[0], vertex.m_fPosition[1], vertex.m_fPosition[2]);
  }
  mesh.triangles.reserve(triangleCount);
  for (const auto& triangle : triangles) {
    mesh.triangles.push_back(
        {triangle.m_nIndices[0], triangle.m_nIndices[1], triangle.m_nIndices[2]});
  }
  return mesh;
}

std::string nameOf(const Handle& object) {
  ULONG length = 0;
  require(NMR::lib3mf_object_getnameutf8(object.get(), nullptr, 0, &length), object);
  std::string name(length + 1, '\0');
  require(NMR::lib3mf_object_getnameutf8(object.get(), name.data(), static_cast<ULONG>(name.size()),
                                         &length),
          object);
  name.resize(std::min<std::size_t>(length, name.find('\0')));
  return name;
}

void Colours::addOf(const Handle& mesh) {
  DWORD triangleCount = 0;
  require(NMR::lib3mf_meshobject_gettrianglecount(mesh.get(), &triangleCount), mesh);
  Handle properties;
  require(NMR::lib3mf_meshobject_createpropertyhandler(mesh.get(), properties.out()), mesh);
  for (DWORD t = 0; t < triangleCount && colours_.size() < 2; ++t) addColour(properties, t);
}

void Colours::addColour(const Handle& properties, DWORD triangle) {
  NMR::eModelPropertyType type = NMR::MODELPROPERTYTYPE_NONE;
  require(NMR::lib3mf_propertyhandler_getpropertytype(properties.get(), triangle, &type),
          properties);
  if (type == NMR::MODELPROPERTYTYPE_COLOR) {
    NMR::MODELMESH_TRIANGLECOLOR_SRGB corners;
    require(NMR::lib3mf_propertyhandler_getcolor(properties.get(), triangle, &corners),
            properties);
    for (const auto& corner : corners.m_Colors) {
      colours_.insert(hexOf(corner.m_Red, corner.m_Green, corner.m_Blue));
    }
  } else if (type == NMR::MODELPROPERTYTYPE_BASEMATERIALS) {
    std::pair<DWORD, DWORD> material;
    require(NMR::lib3mf_propertyhandler_getbasematerial(properties.get(), triangle,
                                                        &material.first, &material.second),
            properties);
    if (materials_.insert(material).second) addMaterial(material.first, material.second);
  }
}

void Colours::addMaterial(DWORD group, DWORD index) {
  Handle materials;
  require(NMR::lib3mf_model_getbasematerialbyid(model_.get(), group, materials.out()), model_);
  BYTE red = 0, green = 0, blue = 0, alpha = 0;
  require(NMR::lib3mf_basematerial_getdisplaycolor(materials.get(), index, &red, &green, &blue,
                                                   &alpha),
          materials);
  colours_.insert(hexOf(red, green, blue));
}

std::optional<std::string> Colours::one() const {
  if (colours_.size() != 1) return std::nullopt;
  return *colours_.begin();
}

Unit unitOf(const Handle& model) {
  DWORD unit = NMR::MODELUNIT_MILLIMETER;
  require(NMR::lib3mf_model_getunit(model.get(), &unit), model);
  switch (unit) {
    case NMR::MODELUNIT_MICROMETER:
      return {"micrometre", 0.001};
    case NMR::MODELUNIT_CENTIMETER:
      return {"cm", 10};
    case NMR::MODELUNIT_INCH:
      return {"inch", 25.4};
    case NMR::MODELUNIT_FOOT:
      return {"foot", 304.8};
    case NMR::MODELUNIT_METER:
      return {"m", 1000};
    default:
      return {"mm", 1};
  }
}

}  // namespace swingroom::lib3mf
