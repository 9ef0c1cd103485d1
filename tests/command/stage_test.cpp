// What is told of detail meshes before any gap is, and `--stage`.
#include <gtest/gtest.h>

#include "tests/command/program.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"

namespace swingroom::command {
namespace {

/// Two boxes 2 mm apart, each with a detail mesh.
std::string twoBoxes(const TemporaryFolder& folder, const TriangleMesh& leftDetail) {
  writeText(folder / "left.obj", writers::obj(shapes::box({0, 0, 0}, {20, 12, 8})));
  writeText(folder / "left_detail.obj", writers::obj(leftDetail));
  writeText(folder / "right.obj", writers::obj(shapes::box({22, 0, 0}, {40, 12, 8})));
  const auto file = folder / "two.swing.json";
  writeText(file, R"({"swingroom": 1,
    "parts": [{"name": "left", "stages": {"block": "left.obj", "detail": "left_detail.obj"}},
              {"name": "right", "stages": {"block": "right.obj"}}],
    "modes": [{"name": "whole", "values": {}}]})");
  return file.string();
}

TEST(StageOfTheCheck, DetailIsCheckedWithoutEditingTheFile) {
  const TemporaryFolder folder;
  // 0.1 mm are left of 2 mm.
  const std::string file = twoBoxes(folder, shapes::box({0, 0, 0}, {21.9, 12, 8}));
  const std::string before = readText(file);
  EXPECT_EQ(run({"check", file}).exitCode, 0);
  EXPECT_EQ(run({"check", file, "--stage", "block"}).exitCode, 0);
  const Ran ran = run({"check", file, "--stage", "detail"});
  EXPECT_EQ(ran.exitCode, 1) << ran.err;
  EXPECT_NE(ran.out.find("tight    left and right"), std::string::npos) << ran.out;
  EXPECT_EQ(ran.err.find("off its block"), std::string::npos) << ran.err;
  EXPECT_EQ(readText(file), before);
}

TEST(StageOfTheCheck, AnOriginThatMovedIsTold) {
  const TemporaryFolder folder;
  const std::string file = twoBoxes(folder, shapes::box({0, 0, -3.2}, {20, 12, 4.8}));
  EXPECT_EQ(run({"check", file}).err.find("off its block"), std::string::npos) << "it is not in use";
  const Ran ran = run({"check", file, "--stage", "detail"});
  EXPECT_NE(ran.err.find("note: left_detail.obj: stands 3.20 mm off its block, towards -z"),
            std::string::npos)
      << ran.err;
}

TEST(StageOfTheCheck, AStageThatNoPartHasIsRefused) {
  const Ran ran = run({"check", sample("hatch_box/hatch_box.swing.json").string(), "--stage", "detail"});
  EXPECT_EQ(ran.exitCode, 2);
  EXPECT_NE(ran.err.find("no part has a mesh of stage detail"), std::string::npos) << ran.err;
  EXPECT_EQ(run({"check", sample("hatch_box/hatch_box.swing.json").string(), "--stage", "sketch"}).exitCode, 2);
}

}  // namespace
}  // namespace swingroom::command
