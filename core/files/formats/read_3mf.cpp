#include "core/files/formats/read_3mf.h"

#include <functional>
#include <stdexcept>

#include "core/files/formats/append_mesh.h"
#include "core/files/formats/hints.h"
#include "core/files/formats/lib3mf_objects.h"
#include "core/files/formats/scene_builder.h"

namespace swingroom {
namespace {

using lib3mf::Handle;
using lib3mf::require;

/// A mesh object where it stands.
struct PlacedMesh {
  const Handle& object;
  Eigen::Affine3d X_BO;            ///< In the build's frame B, in the file's unit.
  std::vector<std::string> names;  ///< Its own, then of the objects that hold it; may be empty.
};

/// Walks the build: every mesh as often as it is placed, without supports.
class Walk3mf {
 public:
  using Visit = std::function<void(const PlacedMesh&)>;

  Walk3mf(const Handle& model, Visit visit) : model_(model), visit_(std::move(visit)) {}

  void run() {
    Handle items;
    require(NMR::lib3mf_model_getbuilditems(model_.get(), items.out()), model_);
    for (BOOL more = next(items); more; more = next(items)) {
      Handle item, object;
      require(NMR::lib3mf_builditemiterator_getcurrent(items.get(), item.out()), items);
      require(NMR::lib3mf_builditem_getobjectresource(item.get(), object.out()), item);
      NMR::MODELTRANSFORM transform;
      require(NMR::lib3mf_builditem_getobjecttransform(item.get(), &transform), item);
      visitObject(object, lib3mf::affineOf(transform), {});
    }
  }

 private:
  static BOOL next(const Handle& iterator) {
    BOOL more = 0;
    require(NMR::lib3mf_builditemiterator_movenext(iterator.get(), &more), iterator);
    return more;
  }

  void visitObject(const Handle& object, const Eigen::Affine3d& X_BO,
                   std::vector<std::string> names) {
    DWORD type = 0;
    require(NMR::lib3mf_object_gettype(object.get(), &type), object);
    if (type == NMR::MODELOBJECTTYPE_SUPPORT || type == NMR::MODELOBJECTTYPE_SOLIDSUPPORT) return;
    names.insert(names.begin(), lib3mf::nameOf(object));
    BOOL isMesh = 0;
    require(NMR::lib3mf_object_ismeshobject(object.get(), &isMesh), object);
    isMesh ? visit_({object, X_BO, names}) : visitComponents(object, X_BO, names);
  }

  void visitComponents(const Handle& object, const Eigen::Affine3d& X_BO,
                       const std::vector<std::string>& names) {
    DWORD count = 0;
    require(NMR::lib3mf_componentsobject_getcomponentcount(object.get(), &count), object);
    for (DWORD i = 0; i < count; ++i) {
      Handle component, child;
      require(NMR::lib3mf_componentsobject_getcomponent(object.get(), i, component.out()), object);
      require(NMR::lib3mf_component_getobjectresource(component.get(), child.out()), component);
      NMR::MODELTRANSFORM transform;
      require(NMR::lib3mf_component_gettransform(component.get(), &transform), component);
      visitObject(child, X_BO * lib3mf::affineOf(transform), names);
    }
  }

  const Handle& model_;
  Visit visit_;
};

Problem nothingToBuild() {
  return {"", "has nothing to build: no object of it is placed", kRepairHint};
}

/// The outermost name, which is what the maker called all of it.
void addName(const std::vector<std::string>& names, std::vector<std::string>& objects) {
  for (auto name = names.rbegin(); name != names.rend(); ++name) {
    if (name->empty()) continue;
    // Several meshes of one object come one after the other.
    if (objects.empty() || objects.back() != *name) objects.push_back(*name);
    return;
  }
}

Outcome<MeshFile> joined(const Handle& model) {
  MeshFile file;
  lib3mf::Colours colours(model);
  const lib3mf::Unit unit = lib3mf::unitOf(model);
  Walk3mf(model, [&](const PlacedMesh& placed) {
    append(file.mesh, transformed(lib3mf::meshOf(placed.object), placed.X_BO));
    colours.addOf(placed.object);
    addName(placed.names, file.objects);
  }).run();
  if (file.mesh.triangles.empty()) return nothingToBuild();
  file.unit = unit.name;
  for (auto& vertex : file.mesh.vertices) vertex *= unit.mm;
  file.colour = colours.one();
  return file;
}

Outcome<SceneFile> apart(const Handle& model, const std::string& ownName) {
  SceneBuilder builder(ownName);
  const lib3mf::Unit unit = lib3mf::unitOf(model);
  const Eigen::Affine3d X_SF(Eigen::Scaling(unit.mm));
  Walk3mf(model, [&](const PlacedMesh& placed) {
    DWORD resource = 0;
    require(NMR::lib3mf_resource_getresourceid(placed.object.get(), &resource), placed.object);
    lib3mf::Colours colours(model);
    colours.addOf(placed.object);
    ScenePart part;
    part.colour = colours.one();
    part.X_SP = X_SF * placed.X_BO * X_SF.inverse();
    builder.add(part, placed.names, {resource},
                [&] { return transformed(lib3mf::meshOf(placed.object), X_SF); });
  }).run();
  builder.scene().unit = unit.name;
  builder.scene().X_SF = X_SF;
  if (builder.scene().parts.empty()) return nothingToBuild();
  return builder.take();
}

/// Runs `make` on the file's model.
template <typename Result, typename Make>
Outcome<Result> withModel(const std::filesystem::path& file, Make make) {
  try {
    Handle model;
    lib3mf::readModel(file, model);
    return make(model);
  } catch (const std::runtime_error& error) {
    return Problem{"", error.what(), kRepairHint};
  }
}

}  // namespace

Outcome<MeshFile> readThreeMf(const std::filesystem::path& file) {
  return withModel<MeshFile>(file, joined);
}

Outcome<SceneFile> readThreeMfScene(const std::filesystem::path& file) {
  return withModel<SceneFile>(
      file, [&](const Handle& model) { return apart(model, file.stem().string()); });
}

}  // namespace swingroom
