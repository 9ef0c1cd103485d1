#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

using Json = nlohmann::json;

/// Every line of `text` is `where: what` or `where: what (hint)`, and there is at least one.
void expectProblemLines(const std::string& text) {
  ASSERT_FALSE(text.empty());
  std::istringstream lines(text);
  const std::regex shape("[^ ].*: [^ ].*");
  for (std::string line; std::getline(lines, line);) EXPECT_TRUE(std::regex_match(line, shape)) << line;
}

TEST(CheckCommand, SampleThatPassesExitsZeroAndSaysHowGoodItsFiguresAre) {
  const Ran ran = run({"check", sample("hatch_box/hatch_box.swing.json").string()});
  EXPECT_EQ(ran.exitCode, 0) << ran.err;
  EXPECT_NE(ran.out.find("0 clash, 0 tight, 0 loose, 0 unproven, 3 clear"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("as modelled; as printed: not checked"), std::string::npos);
  EXPECT_EQ(ran.err.find("\r"), std::string::npos) << "progress in a pipe";
}

TEST(CheckCommand, JsonAndCsvAreTheSameBytesWithOneThreadAndFour) {
  const TemporaryFolder folder;
  const std::string file = sample("folding_lamp/folding_lamp.swing.json").string();
  for (const char* threads : {"1", "4"}) {
    const Ran ran = run({"check", file, "--threads", threads, "--json", (folder / (std::string(threads) + ".json")).string(),
                         "--csv", (folder / (std::string(threads) + ".csv")).string()});
    ASSERT_EQ(ran.exitCode, 0) << ran.err;
  }
  EXPECT_FALSE(readText(folder / "1.json").empty());
  EXPECT_EQ(readText(folder / "1.json"), readText(folder / "4.json"));
  EXPECT_EQ(readText(folder / "1.csv"), readText(folder / "4.csv"));
}

TEST(CheckCommand, EveryPairIsInTheReportWithABracketAsNarrowAsTheResolution) {
  const TemporaryFolder folder;
  const auto report = folder / "report.json";
  ASSERT_EQ(run({"check", sample("folding_lamp/folding_lamp.swing.json").string(), "--json", report.string()}).exitCode, 0);
  const Json json = Json::parse(readText(report));
  for (const Json& sequence : json.at("sequences")) {
    EXPECT_EQ(sequence.at("pairs").size(), 8u * 7 / 2);
    for (const Json& pair : sequence.at("pairs")) {
      const Json& gap = pair.at("gap");
      if (gap.at("upper").is_null()) {
        EXPECT_GE(gap.at("lower").get<double>(), pair.at("requiredGap").get<double>() + 1.5 - 1e-6) << pair.at("parts");
        EXPECT_TRUE(gap.at("instant").is_null() && gap.at("points").is_null());
      } else {
        EXPECT_LE(gap.at("upper").get<double>() - gap.at("lower").get<double>(), 0.01 + 1e-9) << pair.at("parts");
      }
    }
  }
}

TEST(CheckCommand, AFindingExitsOneAndIsNamed) {
  const TemporaryFolder folder;
  const auto file = folder / "close.swing.json";
  writeText(folder / "a.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf 1 3 2\nf 1 2 4\nf 2 3 4\nf 3 1 4\n");
  writeText(file, R"({"swingroom": 1, "requiredGap": 0.3,
    "parts": [{"name": "left", "stages": {"block": "a.obj"}},
              {"name": "right", "stages": {"block": "a.obj"}, "placement": {"at": [1.1, 0, 0], "turn": [1, 0, 0, 0]}}],
    "modes": [{"name": "whole", "values": {}}]})");
  const Ran ran = run({"check", file.string()});
  EXPECT_EQ(ran.exitCode, 1) << ran.err;
  EXPECT_NE(ran.out.find("tight    left and right"), std::string::npos) << ran.out;
}

TEST(CheckCommand, WhatCannotBeCheckedExitsTwoWithTheReasonAndWritesNothing) {
  const TemporaryFolder folder;
  const auto file = folder / "broken.swing.json";
  writeText(file, R"({"swingroom": 1, "parts": [{"name": "lid", "stages": {"block": "lid.stl"}}],
    "joints": [{"name": "turn", "type": "hinge", "child": "lit", "through": [0,0,0], "along": [0,0,0]}]})");
  const auto report = folder / "report.json";
  const Ran ran = run({"check", file.string(), "--json", report.string()});
  EXPECT_EQ(ran.exitCode, 2);
  EXPECT_TRUE(ran.out.empty()) << ran.out;
  expectProblemLines(ran.err);
  EXPECT_NE(ran.err.find("broken.swing.json#/joints/0/along: "), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("broken.swing.json#/joints/0/child: "), std::string::npos) << ran.err;
  EXPECT_FALSE(std::filesystem::exists(report));
}

TEST(CheckCommand, EachBadMeshFileIsOneLineAndNothingCrashes) {
  const TemporaryFolder folder;
  writeText(folder / "claim.stl", std::string(80, 'x') + "\xff\xff\xff\x7f" + std::string(940, '\0'));
  writeText(folder / "picture.stl", std::string("\x89PNG\r\n\x1a\n") + std::string(200, '\7'));
  writeText(folder / "empty.stl", "");
  writeText(folder / "cut.ply",
            "ply\nformat ascii 1.0\nelement vertex 9\nproperty float x\nproperty float y\nproperty float z\n"
            "element face 3\nproperty list uchar int vertex_indices\nend_header\n0 0 0\n1 0 0\n");
  writeText(folder / "broken.3mf", std::string("PK\3\4") + std::string(100, '\1'));
  writeText(folder / "nan.obj", "v 0 0 0\nv nan 0 0\nv 0 1 0\nf 1 2 3\n");
  Json document = {{"swingroom", 1}, {"parts", Json::array()}};
  for (const char* file : {"missing.stl", "claim.stl", "picture.stl", "empty.stl", "cut.ply", "broken.3mf", "nan.obj", "word.doc"}) {
    document["parts"].push_back({{"name", file}, {"stages", {{"block", file}}}});
  }
  writeText(folder / "bad.swing.json", document.dump());
  const Ran ran = run({"check", (folder / "bad.swing.json").string()});
  EXPECT_EQ(ran.exitCode, 2);
  expectProblemLines(ran.err);
  EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 8) << ran.err;
  for (int i = 0; i < 8; ++i) {
    EXPECT_NE(ran.err.find("bad.swing.json#/parts/" + std::to_string(i) + "/stages/block: "), std::string::npos) << ran.err;
  }
}

TEST(CheckCommand, BadWordsExitTwo) {
  const std::string file = sample("hatch_box/hatch_box.swing.json").string();
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{}, {"chek"}, {"check"}, {"check", file, "--threads", "none"},
        {"check", file, "--resolution", "0"}, {"check", file, "--sequence", "no such"}, {"check", "no such file"},
        {"check", file, "--json", "/no/such/folder/report.json"}}) {
    const Ran ran = run(words);
    EXPECT_EQ(ran.exitCode, 2) << (words.empty() ? "" : words.back());
    expectProblemLines(ran.err);
  }
}

TEST(CheckCommand, OneSequenceCanBeNamed) {
  const TemporaryFolder folder;
  const auto report = folder / "report.json";
  const std::string file = sample("hatch_box/hatch_box.swing.json").string();
  const Json document = Json::parse(readText(file));
  const std::string name = document.at("sequences").at(0).at("name");
  ASSERT_EQ(run({"check", file, "--sequence", name, "--json", report.string()}).exitCode, 0);
  EXPECT_EQ(Json::parse(readText(report)).at("sequences").size(), 1u);
}

TEST(CheckCommand, ReportFolderHoldsTheReports) {
  const TemporaryFolder folder;
  ASSERT_EQ(run({"check", sample("hatch_box/hatch_box.swing.json").string(), "--report", (folder / "out").string()}).exitCode, 0);
  EXPECT_FALSE(readText(folder / "out/report.json").empty());
  EXPECT_FALSE(readText(folder / "out/pairs.csv").empty());
}

}  // namespace
}  // namespace swingroom::command
