#include "core/files/formats/writing/write_set.h"

#include <algorithm>
#include <new>
#include <stdexcept>

#include "core/files/formats/lib3mf_objects.h"
#include "core/files/formats/writing/model_objects.h"
#include "core/files/replace_file.h"

namespace swingroom {
namespace {

using lib3mf::Handle;
using lib3mf::requireWritten;

NMR::MODELTRANSFORM transformOf(const Pose& X) {
  NMR::MODELTRANSFORM transform;
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 4; ++column) {
      transform.m_fFields[row][column] = static_cast<float>(X.matrix()(row, column)) + 0.0f;
    }
  }
  return transform;
}

/// Gives the object a base material; each kind is in the file once.
class SetMaterials {
 public:
  explicit SetMaterials(const Handle& model) {
    requireWritten(NMR::lib3mf_model_addbasematerialgroup(model.get(), group_.out()), model);
    requireWritten(NMR::lib3mf_basematerial_getresourceid(group_.get(), &groupId_), group_);
  }

  void give(const SetObject& object, const Handle& mesh) {
    Handle properties;
    requireWritten(NMR::lib3mf_object_createdefaultpropertyhandler(mesh.get(), properties.out()),
                   mesh);
    requireWritten(NMR::lib3mf_defaultpropertyhandler_setbasematerial(properties.get(), groupId_,
                                                                      indexOf(object)),
                   properties);
  }

 private:
  struct Known {
    std::string material;
    std::array<std::uint8_t, 3> rgb;
    DWORD index;
  };

  DWORD indexOf(const SetObject& object) {
    const auto& rgb = *object.rgb;
    for (const Known& known : known_) {
      if (known.material == object.material && known.rgb == rgb) return known.index;
    }
    const std::string name = object.material.empty() ? "material" : object.material;
    DWORD index = 0;
    requireWritten(NMR::lib3mf_basematerial_addmaterialutf8(group_.get(), name.c_str(), rgb[0],
                                                            rgb[1], rgb[2], &index),
                   group_);
    known_.push_back({object.material, rgb, index});
    return index;
  }

  Handle group_;
  DWORD groupId_ = 0;
  std::vector<Known> known_;
};

void addPlaces(const Handle& model, const SetObject& object, const Handle& mesh) {
  const std::string of = " of " + std::to_string(object.places.size());
  for (std::size_t i = 0; i < object.places.size(); ++i) {
    NMR::MODELTRANSFORM transform = transformOf(object.places[i]);
    Handle item;
    requireWritten(NMR::lib3mf_model_addbuilditem(model.get(), mesh.get(), &transform, item.out()),
                   model);
    const std::string number = object.name + " " + std::to_string(i + 1) + of;
    requireWritten(NMR::lib3mf_builditem_setpartnumberutf8(item.get(), number.c_str()), item);
  }
}

std::string setPackage(const std::vector<SetObject>& objects, const std::string& title) {
  Handle model;
  lib3mf::startModel(model);
  if (!title.empty()) {
    requireWritten(NMR::lib3mf_model_addmetadatautf8(model.get(), "Title", title.c_str()), model);
  }
  std::optional<SetMaterials> materials;
  for (const SetObject& object : objects) {
    Handle mesh;
    lib3mf::addMesh(model, *object.mesh, object.name, mesh);
    if (object.rgb) {
      if (!materials) materials.emplace(model);
      materials->give(object, mesh);
    }
    addPlaces(model, object, mesh);
  }
  return lib3mf::bytesOf(model);
}

}  // namespace

std::optional<std::array<std::uint8_t, 3>> rgbOf(const std::string& colour) {
  constexpr const char* kHex = "0123456789ABCDEFabcdef";
  if (colour.size() != 7 || colour[0] != '#' ||
      colour.find_first_not_of(kHex, 1) != std::string::npos) {
    return std::nullopt;
  }
  std::array<std::uint8_t, 3> rgb;
  for (std::size_t i = 0; i < 3; ++i) {
    rgb[i] = static_cast<std::uint8_t>(std::stoul(colour.substr(1 + 2 * i, 2), nullptr, 16));
  }
  return rgb;
}

Outcome<std::string> threeMfSetBytes(const std::vector<SetObject>& objects,
                                     const std::string& title) {
  for (const SetObject& object : objects) {
    if (!object.mesh || object.mesh->triangles.empty() || object.places.empty()) {
      throw std::invalid_argument("threeMfSetBytes: " + object.name + " has nothing to print");
    }
  }
  try {
    return setPackage(objects, title);
  } catch (const std::runtime_error& error) {
    return Problem{"", error.what(), ""};
  } catch (const std::bad_alloc&) {
    return Problem{"", "needs more memory to write as 3MF than there is", ""};
  }
}

std::optional<Problem> writeSet(const std::filesystem::path& file,
                                const std::vector<SetObject>& objects, const std::string& title) {
  const Outcome<std::string> bytes = threeMfSetBytes(objects, title);
  if (bytes) return replaceFile(file, *bytes);
  Problem problem = bytes.problems().front();
  problem.where = file.string();
  return problem;
}

}  // namespace swingroom
