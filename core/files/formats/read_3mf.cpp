#include "core/files/formats/read_3mf.h"

#include <Common/NMR_ErrorConst.h>
#include <Model/COM/NMR_DLLInterfaces.h>

#include <cstdio>
#include <new>
#include <set>
#include <stdexcept>
#include <string>
#include <utility>

#include "core/files/formats/hints.h"
#include "core/files/formats/plain_reason.h"

namespace swingroom {
namespace {

/// One object of lib3mf, released with it. The library calls every kind of object a pointer to
/// void.
class Handle {
 public:
  Handle() = default;
  ~Handle() {
    if (object_) NMR::lib3mf_release(object_);
  }
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;

  NMR::PLib3MFBase* get() const { return object_; }
  NMR::PLib3MFBase** out() { return &object_; }

 private:
  NMR::PLib3MFBase* object_ = nullptr;
};

/// Throws lib3mf's reason if a call on `object` failed; caught in readThreeMf.
void require(LIB3MFRESULT result, const Handle& object) {
  if (result == LIB3MF_OK) return;
  DWORD code = 0;
  LPCSTR text = nullptr;
  NMR::lib3mf_getlasterror(object.get(), &code, &text);
  throw std::runtime_error(plainReason("3MF", text ? text : ""));
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

std::string hexOf(unsigned red, unsigned green, unsigned blue) {
  char text[8];
  std::snprintf(text, sizeof text, "#%02X%02X%02X", red, green, blue);
  return text;
}

/// Walks the build and gathers what it meets.
class Build {
 public:
  explicit Build(const Handle& model) : model_(model) {}

  void addItems() {
    Handle items;
    require(NMR::lib3mf_model_getbuilditems(model_.get(), items.out()), model_);
    for (BOOL more = next(items); more; more = next(items)) {
      Handle item, object;
      require(NMR::lib3mf_builditemiterator_getcurrent(items.get(), item.out()), items);
      require(NMR::lib3mf_builditem_getobjectresource(item.get(), object.out()), item);
      NMR::MODELTRANSFORM transform;
      require(NMR::lib3mf_builditem_getobjecttransform(item.get(), &transform), item);
      addObject(object, affineOf(transform), true);
    }
  }

  MeshFile take() {
    if (colours_.size() == 1) file_.colour = *colours_.begin();
    return std::move(file_);
  }

 private:
  static BOOL next(const Handle& iterator) {
    BOOL more = 0;
    require(NMR::lib3mf_builditemiterator_movenext(iterator.get(), &more), iterator);
    return more;
  }

  /// @param X_BO  Where the object stands in the build's frame B, in the file's unit.
  /// @param wantsName  No object above it gave its name.
  void addObject(const Handle& object, const Eigen::Affine3d& X_BO, bool wantsName) {
    DWORD type = 0;
    require(NMR::lib3mf_object_gettype(object.get(), &type), object);
    if (type == NMR::MODELOBJECTTYPE_SUPPORT || type == NMR::MODELOBJECTTYPE_SOLIDSUPPORT) return;
    if (wantsName) {
      std::string name = nameOf(object);
      wantsName = name.empty();
      if (!wantsName) file_.objects.push_back(std::move(name));
    }
    BOOL isMesh = 0;
    require(NMR::lib3mf_object_ismeshobject(object.get(), &isMesh), object);
    if (isMesh) {
      addMesh(transformed(meshOf(object), X_BO));
      addColours(object);
    } else {
      addComponents(object, X_BO, wantsName);
    }
  }

  void addComponents(const Handle& object, const Eigen::Affine3d& X_BO, bool wantsName) {
    DWORD count = 0;
    require(NMR::lib3mf_componentsobject_getcomponentcount(object.get(), &count), object);
    for (DWORD i = 0; i < count; ++i) {
      Handle component, child;
      require(NMR::lib3mf_componentsobject_getcomponent(object.get(), i, component.out()), object);
      require(NMR::lib3mf_component_getobjectresource(component.get(), child.out()), component);
      NMR::MODELTRANSFORM transform;
      require(NMR::lib3mf_component_gettransform(component.get(), &transform), component);
      addObject(child, X_BO * affineOf(transform), wantsName);
    }
  }

  void addMesh(const TriangleMesh& mesh) {
    TriangleMesh& all = file_.mesh;
    const auto first = static_cast<std::uint32_t>(all.vertices.size());
    all.vertices.insert(all.vertices.end(), mesh.vertices.begin(), mesh.vertices.end());
    for (const auto& [a, b, c] : mesh.triangles) {
      all.triangles.push_back({a + first, b + first, c + first});
    }
  }

  void addColours(const Handle& mesh) {
    DWORD triangleCount = 0;
    require(NMR::lib3mf_meshobject_gettrianglecount(mesh.get(), &triangleCount), mesh);
    Handle properties;
    require(NMR::lib3mf_meshobject_createpropertyhandler(mesh.get(), properties.out()), mesh);
    for (DWORD t = 0; t < triangleCount && colours_.size() < 2; ++t) addColour(properties, t);
  }

  void addColour(const Handle& properties, DWORD triangle) {
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

  void addMaterial(DWORD group, DWORD index) {
    Handle materials;
    require(NMR::lib3mf_model_getbasematerialbyid(model_.get(), group, materials.out()), model_);
    BYTE red = 0, green = 0, blue = 0, alpha = 0;
    require(NMR::lib3mf_basematerial_getdisplaycolor(materials.get(), index, &red, &green, &blue,
                                                     &alpha),
            materials);
    colours_.insert(hexOf(red, green, blue));
  }

  const Handle& model_;
  MeshFile file_;
  std::set<std::string> colours_;
  std::set<std::pair<DWORD, DWORD>> materials_;
};

struct Unit {
  const char* name;
  double mm;
};

/// 3MF Core Specification 1.2, 3.4: the units and their default, the millimetre.
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

Outcome<MeshFile> readThreeMf(const std::filesystem::path& file) {
  try {
    Handle model, reader;
    if (NMR::lib3mf_createmodel(model.out()) != LIB3MF_OK) throw std::bad_alloc();
    require(NMR::lib3mf_model_queryreader(model.get(), "3mf", reader.out()), model);
    require(NMR::lib3mf_reader_readfromfileutf8(reader.get(), file.c_str()), reader);
    if (warnsOfUnit(reader)) return Problem{"", "has a unit that 3MF does not know", kRepairHint};
    Build build(model);
    build.addItems();
    MeshFile result = build.take();
    if (result.mesh.triangles.empty()) {
      return Problem{"", "has nothing to build: no object of it is placed", kRepairHint};
    }
    const Unit unit = unitOf(model);
    result.unit = unit.name;
    for (auto& vertex : result.mesh.vertices) vertex *= unit.mm;
    return result;
  } catch (const std::runtime_error& error) {
    return Problem{"", error.what(), kRepairHint};
  }
}

}  // namespace swingroom
