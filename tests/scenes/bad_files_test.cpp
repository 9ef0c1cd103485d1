// Every model of the test collection in a format that is read: a scene with parts, or a refusal in
// words; never a crash of ours, never a hang. The collection is Debian's assimp-testmodels.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <random>

#include "core/files/mesh_format.h"
#include "tests/scenes/read_back.h"
#include "tests/scenes/writers/gltf_writer.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

const char* const kModels = "/usr/share/assimp/models";

void expectSoundOrTold(const fs::path& file, const Outcome<SceneFile>& scene) {
  if (scene.ok()) {
    EXPECT_FALSE(scene->parts.empty()) << file;
    for (const ScenePart& part : scene->parts) EXPECT_FALSE(part.name.empty()) << file;
    return;
  }
  for (const Problem& problem : scene.problems()) {
    EXPECT_TRUE(problem.where.starts_with(file.string())) << toText(problem);
    EXPECT_FALSE(problem.what.empty()) << file;
  }
}

TEST(TestModels, EachIsReadOrRefusedInWords) {
  if (!fs::exists(kModels)) GTEST_SKIP() << "needs assimp-testmodels";
  const MeshReader reader = MeshReader::besideThisProgram();
  std::size_t read = 0, refused = 0, crashed = 0;
  for (const auto& entry : fs::recursive_directory_iterator(kModels)) {
    if (!entry.is_regular_file() || !MeshReader::knows(entry.path())) continue;
    const Outcome<SceneFile> scene = reader.readScene(entry.path());
    expectSoundOrTold(entry.path(), scene);
    scene.ok() ? ++read : ++refused;
    if (!scene.ok()) {
      const std::string text = toText(scene.problems().front());
      const bool broke = text.find("crashed") != std::string::npos ||
                         text.find("took longer") != std::string::npos;
      crashed += broke;
      if (broke) std::printf("guarded: %s\n", text.c_str());
    }
  }
  std::printf("%zu read, %zu refused, of which %zu by the guard\n", read, refused, crashed);
  EXPECT_GT(read, 60u);
}

// A scene with an animation, a byte of which is another, or that is cut off.
TEST(DamagedScenes, AreReadOrRefusedInWords) {
  constexpr unsigned kSeed = 7301;
  std::printf("seed %u\n", kSeed);
  std::mt19937 random(kSeed);
  const TempFolder folder;
  writers::GltfWriter writer;
  const int mesh = writer.addMesh("m", shapes::box({0, 0, 0}, {0.01, 0.02, 0.03}));
  const int node = writer.addNode({"a", mesh});
  writer.addNode({"b", mesh, node, Vector3d(0.1, 0, 0)});
  const int animation = writer.addAnimation("x");
  writer.addTrack(animation, node, "translation", {0, 1},
                  {Eigen::Vector4d::Zero(), Eigen::Vector4d(0.01, 0, 0, 0)});
  writer.write(folder.path() / "sound.glb");
  std::ifstream in(folder.path() / "sound.glb", std::ios::binary);
  const std::string sound((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  const MeshReader reader = MeshReader::besideThisProgram();
  for (int i = 0; i < 60; ++i) {
    std::string bytes = sound;
    if (i % 4 == 0) bytes.resize(random() % bytes.size());
    for (int k = 0; k < 1 + i % 5 && !bytes.empty(); ++k) {
      bytes[random() % bytes.size()] = static_cast<char>(random());
    }
    const fs::path file = folder.write("damaged.glb", bytes);
    expectSoundOrTold(file, reader.readScene(file));
  }
}

}  // namespace
}  // namespace swingroom
