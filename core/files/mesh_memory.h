#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/files/watching/companions.h"
#include "core/mesh/features.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A mesh file, or one part of a file that holds several, as a part wants it.
struct MeshWish {
  std::filesystem::path file;
  double scale = 1;
  std::optional<DocumentMirror> mirror;
  std::string inFile = {};  ///< The part of the file; empty: all of it.
  double deviationMm = 0;   ///< Of a mesh made of surfaces (STEP); 0 for all that are meshes.

  bool operator==(const MeshWish&) const = default;
};

/// What became of a wish.
struct MadeMesh {
  std::shared_ptr<const TriangleMesh> mesh;       ///< mm.
  bool unitAssumed = false;                       ///< The format has no unit: mm was taken.
  std::vector<std::string> notes;                 ///< What is wrong or unusual in it.
  std::shared_ptr<const Features> exactFeatures;  ///< Null if the file gives none.
};

/// Size, time of the last change and number of a plain file; empty if it cannot be asked. Two equal
/// ones are taken for the same content: a file that is put in another's place has another number.
std::string fileStamp(const std::filesystem::path& file);

/// Meshes from earlier loads, so that files that have not changed are not read again and parts
/// keep the very mesh that they had. Safe from several threads.
class MeshMemory {
 public:
  /// @param stamp  Of the file now.
  std::optional<MadeMesh> find(const MeshWish& wish, const std::string& stamp) const;
  /// In whatever state of the file it was read last.
  std::optional<MadeMesh> findLast(const MeshWish& wish) const;
  /// Of a mesh file and the files that it is made of.
  std::string stampOf(const std::filesystem::path& meshFile) {
    return companions_.stampOf(meshFile);
  }
  /// @param stamp  Of the file before it was read. An empty one is not kept.
  void keep(const MeshWish& wish, const std::string& stamp, const MadeMesh& made);

 private:
  struct Entry {
    MeshWish wish;
    std::string stamp;
    MadeMesh made;
  };
  mutable std::mutex mutex_;
  std::multimap<std::string, Entry> byFile_;
  Companions companions_;
};

}  // namespace swingroom
