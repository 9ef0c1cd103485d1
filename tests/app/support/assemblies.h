#pragma once

#include <filesystem>
#include <string>

#include "app/session/check/check_board.h"
#include "core/files/mesh_memory.h"
#include "tests/support/temp_folder.h"

namespace swingroom {

std::filesystem::path sampleFile(const std::string& pathInSamples);
std::string bytesOf(const std::filesystem::path& file);
void writeBytes(const std::filesystem::path& file, const std::string& bytes);
MeshReader testReader();
/// @throws std::runtime_error with what is wrong.
AssemblyDocument documentOf(const std::filesystem::path& file);

/// An assembly file with its meshes in a folder of its own, and the scenes made of it.
class Bench {
 public:
  /// A copy of the sample hatch_box: sample_assemblies/hatch_box/README.md has its gaps.
  static Bench hatchBox();
  /// Boxes, mm. A sled slides 5 into a block: at instant t of the way "push" their gap is 4 - 5 t,
  /// from t = 0.8 on they overlap, in the end by 1. A rail stays 0.2 above the sled, 2 from the
  /// block. A cap fixed to the block touches it, a post is far from all. Mode "parked", of no
  /// sequence, has the sled 3 from the block. The required gap is 0.3.
  static Bench press();
  /// The boat of tests/core/files/load_fixture.h: a ball, a follower, a part with two mounts. All
  /// its meshes are the same box, so that its check means nothing.
  static Bench boat();

  const std::filesystem::path& folder() const { return folder_->path(); }
  const std::filesystem::path& file() const { return file_; }
  AssemblyDocument document() const { return documentOf(file_); }
  void write(const AssemblyDocument& document) const;

  /// Meshes that have not changed are the same in all scenes of this bench.
  /// @throws std::runtime_error with what is wrong.
  ScenePtr scene(const AssemblyDocument& document, const Scene* before = nullptr) const;
  ScenePtr scene() const { return scene(document()); }

 private:
  explicit Bench(const std::string& fileName);

  std::shared_ptr<const TempFolder> folder_ = std::make_shared<TempFolder>();
  std::shared_ptr<MeshMemory> memory_ = std::make_shared<MeshMemory>();
  std::filesystem::path file_;
};

/// What core's check says of each way: what the check in the background must come to.
std::vector<SequenceResult> swept(const Scene& scene);
/// A board that knows everything, by core's check.
CheckBoard checkedBoard(const ScenePtr& scene);
/// A result with the curve that the window draws.
CheckedResult checkedOnce(const Scene& scene, std::size_t way, std::size_t pair,
                          const PairResult& result);

PartId part(const Scene& scene, const std::string& name);
JointId joint(const Scene& scene, const std::string& name);
/// Index of a pair in each way of a board.
std::size_t pairOf(const CheckBoard& board, const std::string& a, const std::string& b);
const PairResult& resultOf(const CheckBoard& board, std::size_t way, const std::string& a,
                           const std::string& b);

/// Takes one triangle out of a binary STL: no closed solid any more.
void openStl(const std::filesystem::path& file);
/// Moves every vertex of a binary STL.
void moveStl(const std::filesystem::path& file, const Vector3d& by);

/// All numbers in a text, in order: "between 0.29 and 0.3 mm" has two.
std::vector<double> numbersIn(const std::string& text);

}  // namespace swingroom
