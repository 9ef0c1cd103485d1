#include <gtest/gtest.h>

#include <cstdlib>
#include <functional>
#include <iostream>
#include <map>
#include <mutex>
#include <random>

#include "core/base/parallel.h"
#include "core/files/mesh_file.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

// Files damaged at random. Whatever the reader program does with them, the answer is a mesh that
// may be used or one problem. 200 damages a format; 2000 with SWINGROOM_LONG=1 in the environment.

namespace swingroom {
namespace {

constexpr std::uint64_t kSeed = 20240607;

std::string damaged(std::string bytes, std::mt19937_64& random) {
  const auto below = [&](std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
  };
  const std::size_t at = below(bytes.size());
  const std::size_t length = 1 + below(std::min<std::size_t>(64, bytes.size() - at));
  switch (below(6)) {
    case 0:
      return bytes.substr(0, at);
    case 1:
      return bytes.erase(at, length);
    case 2:
      return bytes.insert(below(bytes.size()), bytes.substr(at, length));
    case 3:
      return bytes.replace(at, length, length, '\0');
    default:
      for (std::size_t i = 1 + below(8); i > 0; --i)
        bytes[below(bytes.size())] = static_cast<char>(below(256));
      return bytes;
  }
}

std::string judged(const Outcome<MeshFile>& outcome, const std::filesystem::path& file) {
  if (!outcome.ok()) {
    const Problem& problem = outcome.problems().front();
    EXPECT_EQ(problem.where.rfind(file.string(), 0), 0u) << toText(problem);
    EXPECT_FALSE(problem.what.empty());
    const bool ofChild = problem.what.find("crashed") != std::string::npos ||
                         problem.what.find("took longer") != std::string::npos ||
                         problem.what.find("memory") != std::string::npos;
    return ofChild ? problem.what : "refused";
  }
  EXPECT_FALSE(outcome->mesh.triangles.empty());
  for (const auto& vertex : outcome->mesh.vertices) EXPECT_TRUE(vertex.allFinite());
  examine(outcome->mesh);  // Throws if an index is out of range.
  return "read";
}

/// @param wrap  Makes the file of the damaged bytes.
void expectAnswers(
    const std::string& ending, const std::string& sound,
    const std::function<std::string(std::string)>& wrap = [](std::string bytes) { return bytes; }) {
  const bool isLong = std::getenv("SWINGROOM_LONG") != nullptr;
  const std::size_t count = isLong ? 2000 : 200;
  ReadLimits limits;
  limits.time = std::chrono::milliseconds(2000);
  const MeshReader reader = MeshReader::besideThisProgram(limits);
  const TempFolder folder;
  std::mutex mutex;
  std::map<std::string, int> answers;
  parallelFor(count, defaultThreads(), [&](std::size_t i) {
    std::mt19937_64 random(kSeed + i);
    const auto file = folder.write(std::to_string(i) + ending, wrap(damaged(sound, random)));
    const std::string answer = judged(reader.read(file), file);
    std::filesystem::remove(file);
    const std::lock_guard lock(mutex);
    ++answers[answer];
  });
  std::cout << ending << ", seed " << kSeed << ":";
  for (const auto& [answer, times] : answers) std::cout << "  " << answer << " " << times;
  std::cout << std::endl;
}

TriangleMesh ring() {
  return shapes::torus(30, 10, 16, 8);
}

TEST(DamagedMeshFiles, StlGivesAMeshOrAProblem) {
  expectAnswers(".stl", writers::binaryStl(ring()));
  expectAnswers(".stl", writers::asciiStl(ring()));
}

TEST(DamagedMeshFiles, ObjGivesAMeshOrAProblem) {
  expectAnswers(".obj", writers::obj(ring()));
}

TEST(DamagedMeshFiles, PlyGivesAMeshOrAProblem) {
  expectAnswers(".ply", writers::ply(ring(), writers::PlyEncoding::ascii));
  expectAnswers(".ply", writers::ply(ring(), writers::PlyEncoding::littleEndian));
}

TEST(DamagedMeshFiles, GlbGivesAMeshOrAProblem) {
  expectAnswers(".glb", writers::glb(ring()));
}

TEST(DamagedMeshFiles, ThreeMfGivesAMeshOrAProblem) {
  const std::string object = writers::threeMfObject(1, "ring", ring());
  const auto packed = [](const std::string& resources) {
    return writers::threeMf(resources, R"(<item objectid="1"/>)", "inch");
  };
  expectAnswers(".3mf", packed(object));  // The archive's check sums tell nearly all.
  expectAnswers(".3mf", object, packed);
}

}  // namespace
}  // namespace swingroom
