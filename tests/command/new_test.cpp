// From two folders of part files to a checked assembly, without writing JSON.
#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <nlohmann/json.hpp>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

using Json = nlohmann::json;


using Triple = std::array<double, 3>;

double dot(const Triple& a, const Triple& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

/// Angle between two axes, degrees, whichever way each points.
double angleBetween(const Triple& a, const Triple& b) {
  const Triple cross = {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
  return std::atan2(std::sqrt(dot(cross, cross)), std::abs(dot(a, b))) * 180 / M_PI;
}

/// Distance of point `q` from the line through `p` along unit `d`.
double fromLine(const Triple& q, const Triple& p, const Triple& d) {
  const Triple r = {q[0] - p[0], q[1] - p[1], q[2] - p[2]};
  const double along = dot(r, d);
  return std::sqrt(std::max(0.0, dot(r, r) - along * along));
}

/// Moves every vertex of a binary STL (80 bytes heading, count, 50 bytes a triangle).
void moveStl(const std::filesystem::path& file, const std::array<float, 3>& by) {
  std::string bytes = readText(file);
  for (std::size_t at = 84; at + 50 <= bytes.size(); at += 50) {
    for (std::size_t v = 0; v < 9; ++v) {
      float x = 0;
      std::memcpy(&x, bytes.data() + at + 12 + 4 * v, 4);
      x += by[v % 3];
      std::memcpy(bytes.data() + at + 12 + 4 * v, &x, 4);
    }
  }
  writeText(file, bytes);
}

/// True joints of the lamp: sample_assemblies/folding_lamp/folding_lamp.swing.json, made by its generator from
/// the same numbers as the meshes.
TEST(NewCommand, LampFromItsTwoFoldersHasTheRightJointsAndChecksClear) {
  const TemporaryFolder folder;
  const auto file = folder / "lamp.swing.json";
  const Ran made = run({"new", sample("folding_lamp/folded").string(), sample("folding_lamp/reading").string(), "-o", file.string()});
  ASSERT_EQ(made.exitCode, 0) << made.err;
  const Json found = Json::parse(readText(file));
  const Json truth = Json::parse(readText(sample("folding_lamp/folding_lamp.swing.json")));
  int moving = 0;
  for (const Json& joint : truth.at("joints")) {
    if (joint.at("type") == "fixed") continue;
    ++moving;
    const Json* match = nullptr;
    for (const Json& candidate : found.at("joints")) {
      if (candidate.at("type") != joint.at("type")) continue;
      const Triple along = joint.at("along"), other = candidate.at("along");
      if (angleBetween(along, other) > 0.01) continue;
      if (joint.at("type") == "hinge" &&
          fromLine(candidate.at("through").get<Triple>(), joint.at("through").get<Triple>(), along) > 0.01) {
        continue;
      }
      match = &candidate;
    }
    EXPECT_NE(match, nullptr) << joint.at("name") << " has no match within 0.01 mm and 0.01 degrees";
  }
  EXPECT_GE(moving, 4);
  const Ran checked = run({"check", file.string()});
  EXPECT_EQ(checked.exitCode, 0) << checked.out << checked.err;
}

/// Which part stands still is a matter of where one looks from: gaps between parts are the same.
TEST(NewCommand, GroundPartHangsOnNothingAndTheLampChecksClearAllTheSame) {
  const TemporaryFolder folder;
  const auto file = folder / "lamp.swing.json";
  const Ran made = run({"new", sample("folding_lamp/folded").string(),
                        sample("folding_lamp/reading").string(), "-o", file.string(), "--ground",
                        "head", "--gap", "0.25"});
  ASSERT_EQ(made.exitCode, 0) << made.err;
  EXPECT_NE(made.out.find("\"head\" stands still"), std::string::npos) << made.out;
  const Json found = Json::parse(readText(file));
  EXPECT_EQ(found.at("requiredGap"), 0.25);
  for (const Json& joint : found.at("joints")) EXPECT_NE(joint.at("child"), "head");
  const Ran checked = run({"check", file.string()});
  EXPECT_EQ(checked.exitCode, 0) << checked.out << checked.err;
}

TEST(NewCommand, GroundPartThatIsNotThereIsToldWithThoseThatAre) {
  const TemporaryFolder folder;
  const Ran made = run({"new", sample("folding_lamp/folded").string(), "-o",
                        (folder / "lamp.swing.json").string(), "--ground", "keel"});
  EXPECT_EQ(made.exitCode, 2);
  EXPECT_NE(made.err.find("\"keel\""), std::string::npos) << made.err;
  EXPECT_NE(made.err.find("head"), std::string::npos) << made.err;
}

TEST(NewCommand, PartThatIsOneMillimetreOffIsNamed) {
  const TemporaryFolder folder;
  for (const char* mode : {"folded", "reading"}) {
    std::filesystem::copy(sample(std::string("folding_lamp/") + mode), folder / mode);
  }
  // The shade's pin stands 1 mm aside in both modes: along the slide nothing else tells.
  for (const char* mode : {"folded", "reading"}) {
    moveStl(folder / (std::string(mode) + "/head.stl"), {0, 1, 0});
  }
  const auto file = folder / "lamp.swing.json";
  ASSERT_EQ(run({"new", (folder / "folded").string(), (folder / "reading").string(), "-o", file.string()}).exitCode, 0);
  const Ran checked = run({"check", file.string()});
  EXPECT_EQ(checked.exitCode, 1);
  EXPECT_TRUE(checked.out.find("arm and head") != std::string::npos || checked.out.find("head and shade") != std::string::npos)
      << checked.out;
}

TEST(NewCommand, OneFolderBecomesAnAssemblyThatCanBeChecked) {
  const TemporaryFolder folder;
  const auto file = folder / "lamp.swing.json";
  ASSERT_EQ(run({"new", sample("folding_lamp/folded").string(), "-o", file.string()}).exitCode, 0);
  const Ran checked = run({"check", file.string()});
  EXPECT_NE(checked.exitCode, 2) << checked.err;
  EXPECT_NE(checked.out.find("8 parts, 28 pairs"), std::string::npos) << checked.out;
}

TEST(NewCommand, NothingIsOverwritten) {
  const TemporaryFolder folder;
  const auto file = folder / "mine.swing.json";
  writeText(file, "precious");
  const Ran made = run({"new", sample("folding_lamp/folded").string(), "-o", file.string()});
  EXPECT_EQ(made.exitCode, 2);
  EXPECT_EQ(readText(file), "precious");
}

TEST(NewCommand, FolderThatIsNotThereOrHoldsNoPartsExitsTwo) {
  const TemporaryFolder folder;
  std::filesystem::create_directory(folder / "empty");
  for (const std::string name : {"empty", "not there"}) {
    const Ran made = run({"new", (folder / name).string(), "-o", (folder / "out.swing.json").string()});
    EXPECT_EQ(made.exitCode, 2) << name;
    EXPECT_FALSE(made.err.empty());
    EXPECT_FALSE(std::filesystem::exists(folder / "out.swing.json"));
  }
}

}  // namespace
}  // namespace swingroom::command
