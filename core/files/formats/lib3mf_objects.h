#pragma once

#include <Model/COM/NMR_DLLInterfaces.h>

#include <Eigen/Geometry>
#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "core/mesh/triangle_mesh.h"

/// What we ask of lib3mf 1.8. Each call throws std::runtime_error with the library's reason in a
/// maker's words.
namespace swingroom::lib3mf {

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

/// Throws lib3mf's reason if a call on `object` failed.
void require(LIB3MFRESULT result, const Handle& object);

/// Reads a file into `model`; throws too if it has a unit that 3MF does not know.
void readModel(const std::filesystem::path& file, Handle& model);

Eigen::Affine3d affineOf(const NMR::MODELTRANSFORM& transform);

/// Of a mesh object, in the file's unit.
TriangleMesh meshOf(const Handle& object);

std::string nameOf(const Handle& object);

/// Gathers the colours of mesh objects.
class Colours {
 public:
  explicit Colours(const Handle& model) : model_(model) {}

  void addOf(const Handle& mesh);
  /// "#RRGGBB" if there is exactly one.
  std::optional<std::string> one() const;

 private:
  void addColour(const Handle& properties, DWORD triangle);
  void addMaterial(DWORD group, DWORD index);

  const Handle& model_;
  std::set<std::string> colours_;
  std::set<std::pair<DWORD, DWORD>> materials_;
};

struct Unit {
  const char* name;
  double mm;
};

/// 3MF Core Specification 1.2, 3.4: the units and their default, the millimetre.
Unit unitOf(const Handle& model);

}  // namespace swingroom::lib3mf
