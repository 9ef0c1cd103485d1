#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iomanip>
#include <string>
#include <vector>

#include "core/files/loading/load_assembly.h"
#include "tests/support/shapes.h"

namespace swingroom {

/// A boat whose arm lifts, whose hand slides out of it, and whose axe hangs on the deck or in the
/// hand; a wheel turns against the arm. Right in every respect: tests change it.
inline const std::string kBoat = R"({
  "swingroom": 1, "name": "Boat",
  "parts": [
    {"name": "hull", "stages": {"block": "hull.stl"}},
    {"name": "arm", "stages": {"block": "arm.stl"}},
    {"name": "hand", "stages": {"block": "hand.stl"}},
    {"name": "axe", "stages": {"block": "axe.stl"}},
    {"name": "head", "stages": {"block": "head.stl"}},
    {"name": "wheel", "stages": {"block": "wheel.stl"}}
  ],
  "joints": [
    {"name": "shoulder", "type": "hinge", "parent": "hull", "child": "arm", "through": [0, 0, 10], "along": [0, 2, 0], "range": [-90, 90]},
    {"name": "wrist", "type": "slide", "parent": "arm", "child": "hand", "along": [0, 0, 5], "range": [0, 20], "clicks": [0, 10, 20]},
    {"name": "deck clip", "type": "slide", "parent": "hull", "child": "axe", "along": [1, 0, 0]},
    {"name": "hand clip", "type": "slide", "parent": "hand", "child": "axe", "along": [1, 0, 0]},
    {"name": "neck", "type": "ball", "parent": "hull", "child": "head", "through": [0, 0, 20], "along": [0, 0, 1], "range": {"swing": 40, "twist": [-10, 10]}},
    {"name": "axle", "type": "hinge", "parent": "hull", "child": "wheel", "through": [5, 0, 0], "along": [0, 1, 0], "follows": {"joint": "shoulder", "ratio": -2}}
  ],
  "modes": [
    {"name": "boat", "values": {"shoulder": 0, "wrist": 0, "neck": [0, 0, 0], "deck clip": 0}, "mounts": {"axe": "deck clip"}},
    {"name": "robot", "values": {"shoulder": 90, "wrist": 10, "neck": [0, 0, 5], "hand clip": 3}, "mounts": {"axe": "hand clip"}}
  ],
  "sequences": [
    {"name": "rise", "from": "boat", "to": "robot", "steps": [
      {"name": "lift", "moves": {"shoulder": 90}},
      {"name": "reach", "moves": {"wrist": 10, "neck": [0, 0, 5]}, "order": "free"},
      {"name": "grab", "replug": {"part": "axe", "onto": "hand clip"}}]}
  ],
  "pairs": [
    {"parts": ["hull", "arm"], "requiredGap": 0.2, "contacts": [{"kind": "rest", "modes": ["boat"], "steps": ["lift"]}]},
    {"parts": ["hull", "head"], "allow": "glued"}
  ],
  "variants": [{"name": "big head", "replace": {"parts": [{"name": "head", "stages": {"block": "big.stl"}}]}}]
})";

/// All of them, one a line.
inline std::string textOf(const Problems& problems) {
  std::string text;
  for (const Problem& problem : problems) text += toText(problem) + "\n";
  return text;
}

/// A folder of its own with an assembly file and meshes, gone at the end.
class LoadFixture : public ::testing::Test {
 protected:
  void SetUp() override {
    std::filesystem::create_directories(folder_);
    for (const char* name : {"hull", "arm", "hand", "axe", "head", "wheel"}) {
      writeStl(std::string(name) + ".stl", shapes::box({0, 0, 0}, {10, 20, 30}));
    }
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  void writeStl(const std::string& name, const TriangleMesh& mesh) const {
    std::ofstream stl(folder_ / name);
    stl << std::setprecision(9) << "solid test\n";
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
      stl << "facet normal 0 0 0\nouter loop\n";
      for (int i = 0; i < 3; ++i) stl << "vertex " << mesh.corner(t, i).transpose() << "\n";
      stl << "endloop\nendfacet\n";
    }
    stl << "endsolid test\n";
  }

  Outcome<LoadedAssembly> load(const std::string& text, unsigned threads = 2) const {
    std::ofstream(file()) << text;
    return loadAssembly(file(), MeshReader::besideThisProgram(), threads);
  }
  /// Fails the test if the file does not load.
  LoadedAssembly loadWell(const std::string& text) const {
    Outcome<LoadedAssembly> loaded = load(text);
    std::string told;
    for (const Problem& problem : loaded.problems()) told += toText(problem) + "\n";
    if (!loaded) throw std::runtime_error("does not load: " + told);
    return std::move(loaded).value();
  }
  std::filesystem::path file() const { return folder_ / "boat.swing.json"; }

  const std::filesystem::path folder_ =
      std::filesystem::temp_directory_path() / ("swingroom_load_" + std::to_string(::getpid()));
};

/// One mistake put into the boat.
struct Mistake {
  const char* name;
  const char* patch;    ///< JSON Patch (RFC 6902).
  const char* pointer;  ///< Where it must be told.
  std::vector<const char*> words;
};

inline void PrintTo(const Mistake& mistake, std::ostream* out) {
  *out << mistake.name;
}

std::string patchedBoat(const char* patch);

/// A test of one mistake: told once, at its place, with its words.
class MistakeFixture : public LoadFixture, public ::testing::WithParamInterface<Mistake> {
 protected:
  void expectTold() const {
    const Outcome<LoadedAssembly> loaded = load(patchedBoat(GetParam().patch));
    ASSERT_FALSE(loaded.ok());
    const std::string where = file().string() + "#" + GetParam().pointer;
    const auto told = std::find_if(loaded.problems().begin(), loaded.problems().end(),
                                   [&](const Problem& problem) { return problem.where == where; });
    ASSERT_NE(told, loaded.problems().end()) << textOf(loaded.problems());
    for (const char* word : GetParam().words) {
      EXPECT_NE(toText(*told).find(word), std::string::npos) << word << " in: " << toText(*told);
    }
    EXPECT_EQ(loaded.problems().size(), 1u) << "one mistake, one message:\n"
                                            << textOf(loaded.problems());
  }
};

inline std::string nameOfMistake(const ::testing::TestParamInfo<Mistake>& info) {
  return info.param.name;
}

}  // namespace swingroom
