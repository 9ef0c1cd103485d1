// The sculpted tug and its heads as a user checks them. Expected places and sizes are the closed forms of
// sample_assemblies/harbour_tug_detailed/README.md; instants within 0.005, sizes within 0.02 mm, places within 0.05.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

using Json = nlohmann::json;

const char* const kTug = "harbour_tug_detailed/harbour_tug_detailed.swing.json";

/// A box by a wall, and two other boxes for it: 2 wide in the plain file, 0.5 from the wall.
class BoxByWall : public testing::Test {
 protected:
  void SetUp() override {
    writeBox("wall.stl", 0, 1);
    writeBox("box.stl", 1.5, 3.5);
    writeBox("near.stl", 1.2, 3.5);
    writeBox("into.stl", 0.75, 3.5);
    write(R"([{"name": "near", "replace": {"parts": [{"name": "box", "stages": {"block": "near.stl"}}]}},
              {"name": "in/to", "replace": {"parts": [{"name": "box", "stages": {"block": "into.stl"}}]}}])");
  }

  void write(const std::string& variants) const {
    writeText(folder_ / "wall.swing.json", R"({"swingroom": 1, "name": "Box by a wall", "parts": [
      {"name": "wall", "stages": {"block": "wall.stl"}}, {"name": "box", "stages": {"block": "box.stl"}}],
      "modes": [{"name": "still", "values": {}}], "variants": )" + variants + "}");
  }

  /// From `low` to `high` in x, 4 in y and z, as an ASCII STL.
  void writeBox(const std::string& name, double low, double high) const {
    const int corners[12][3] = {{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
                                {2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5}};
    std::string text = "solid box\n";
    for (const auto& triangle : corners) {
      text += "facet normal 0 0 0\nouter loop\n";
      for (const int corner : triangle) {
        text += "vertex " + std::to_string(corner & 1 ? high : low) + (corner & 2 ? " 4" : " 0") +
                (corner & 4 ? " 4\n" : " 0\n");
      }
      text += "endloop\nendfacet\n";
    }
    writeText(folder_ / name, text + "endsolid box\n");
  }

  Ran check(std::vector<std::string> more) const {
    std::vector<std::string> words{"check", (folder_ / "wall.swing.json").string()};
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
  }

  TemporaryFolder folder_;
};

TEST_F(BoxByWall, ThePlainFileIsTheVariantWithoutAName) {
  EXPECT_EQ(check({}).exitCode, 0);
  const Ran all = check({"--variant", "all"});
  EXPECT_EQ(all.exitCode, 1) << all.err;
  EXPECT_NE(all.out.find("(plain)"), std::string::npos) << all.out;
  EXPECT_NE(all.out.find("clash: wall and box, 0.25 mm deep, "), std::string::npos) << all.out;
  EXPECT_NE(all.out.find("tight: wall and box, 0.20 mm apart, "), std::string::npos) << all.out;
}

TEST_F(BoxByWall, ANamedVariantIsCheckedAlone) {
  const Ran near = check({"--variant", "near", "--json", (folder_ / "r.json").string()});
  EXPECT_EQ(near.exitCode, 1);
  const Json report = Json::parse(readText(folder_ / "r.json"));
  EXPECT_EQ(report.at("variant"), "near");
  EXPECT_FALSE(report.contains("variants"));
  const Json& pair = report.at("sequences").at(0).at("pairs").at(0);
  EXPECT_EQ(pair.at("verdict"), "tight");
  EXPECT_NEAR(pair.at("gap").at("upper").get<double>(), 1.2 - 1.0, 0.011);
}

TEST_F(BoxByWall, ThePlainReportIsTheSameWithAndWithoutVariants) {
  check({"--json", (folder_ / "plain.json").string()});
  check({"--variant", "all", "--json", (folder_ / "all.json").string()});
  Json all = Json::parse(readText(folder_ / "all.json"));
  ASSERT_EQ(all.at("variants").size(), 2u);
  EXPECT_EQ(all["variants"][1]["name"], "in/to");
  EXPECT_EQ(all["variants"][1]["sequences"][0]["verdicts"]["clash"], 1);
  all.erase("variants");
  EXPECT_EQ(all, Json::parse(readText(folder_ / "plain.json")));
}

TEST_F(BoxByWall, EachVariantHasItsPageAndThePlainPageLeadsToThem) {
  const Ran ran = check({"--variant", "all", "--report", (folder_ / "report").string()});
  EXPECT_EQ(ran.exitCode, 1) << ran.err;
  const std::string page = readText(folder_ / "report/report.html");
  EXPECT_NE(page.find("<section id=\"variants\">"), std::string::npos);
  EXPECT_NE(page.find("href=\"near/report.html\""), std::string::npos);
  EXPECT_NE(page.find("2 of 2 do not pass: near and in/to"), std::string::npos);
  EXPECT_NE(page.find("href=\"in_to/report.html\""), std::string::npos);
  EXPECT_NE(readText(folder_ / "report/in_to/report.html").find("variant in/to</h1>"),
            std::string::npos);
  EXPECT_EQ(Json::parse(readText(folder_ / "report/near/report.json")).at("variant"), "near");
  const std::string table = readText(folder_ / "report/pairs.csv");
  EXPECT_NE(table.find("depth mm,variant\n"), std::string::npos);
  EXPECT_NE(table.find(",in/to\n"), std::string::npos);
}

TEST_F(BoxByWall, WhatIsWrongInAVariantIsSaidAtItsPlace) {
  const Ran unknown = check({"--variant", "neer"});
  EXPECT_EQ(unknown.exitCode, 2);
  EXPECT_NE(unknown.err.find("has no variant \"neer\" (did you mean \"near\"?)"), std::string::npos)
      << unknown.err;
  write(R"([{"name": "gone", "replace": {"parts": [{"name": "box", "stages": {"block": "gone.stl"}}]}}])");
  EXPECT_EQ(check({}).exitCode, 0);  // The plain file is as good as it was.
  const Ran gone = check({"--variant", "all"});
  EXPECT_EQ(gone.exitCode, 2);
  EXPECT_NE(gone.err.find("#/variants/0/replace/parts/0/stages"), std::string::npos) << gone.err;
  EXPECT_NE(gone.err.find("in variant \"gone\": "), std::string::npos) << gone.err;
  write(R"([{"name": "odd", "replace": {"parts": [{"name": "box", "scale": "big"}]}}])");
  const Ran odd = check({});
  EXPECT_EQ(odd.exitCode, 2);
  EXPECT_NE(odd.err.find("#/variants/0/replace/parts/0/scale"), std::string::npos) << odd.err;
}

TEST(TugVariants, TheHeadThatDoesNotGoAwayIsFoundWithItsPlace) {
  const TemporaryFolder folder;
  const auto file = folder / "report.json";
  const Ran ran = run({"check", sample(kTug).string(), "--variant", "all", "--json", file.string()});
  EXPECT_EQ(ran.exitCode, 1) << ran.err << ran.out;
  const Json report = Json::parse(readText(file));
  for (const Json& way : report.at("sequences")) EXPECT_EQ(way.at("verdicts").at("clear"), 780);
  const Json &skipper = report.at("variants").at(0), &wester = report.at("variants").at(1);
  EXPECT_EQ(skipper.at("name"), "skipper");
  for (const Json& way : skipper.at("sequences")) EXPECT_EQ(way.at("verdicts").at("clear"), 780);
  EXPECT_EQ(wester.at("name"), "sou'wester");
  EXPECT_EQ(wester.at("sequences").at(0).at("verdicts").at("clash"), 2);
  EXPECT_EQ(wester.at("sequences").at(0).at("verdicts").at("clear"), 778);
  EXPECT_EQ(wester.at("sequences").at(1).at("verdicts").at("clear"), 780);
  std::size_t seen = 0;
  for (const Json& pair : wester.at("sequences").at(0).at("pairs")) {
    if (pair.at("verdict") != "clash") continue;
    ++seen;
    EXPECT_EQ(pair.at("parts").at(0), "head");
    const double side = pair.at("parts").at(1) == "funnel_port" ? 1 : -1;
    const Json& clash = pair.at("stretches").at(0);
    EXPECT_NEAR(clash.at("depth").get<double>(), 21.5 - (24 - 3), 0.02 + 0.04);  // Facets: 0.04.
    EXPECT_NEAR(clash.at("from").get<double>(), 0, 1e-6);
    EXPECT_NEAR(clash.at("to").get<double>(), (29.5 - 26.5) / 12.2 / 9, 0.005);
    const Json& at = clash.at("point");
    EXPECT_GT(at.at(0).get<double>(), -21.55);  // Between the flap's edge and the funnel's side.
    EXPECT_LT(at.at(0).get<double>(), -20.95);
    EXPECT_NEAR(at.at(1).get<double>(), side * 9, 0.6);
    EXPECT_GE(at.at(2).get<double>(), 26.45);
    EXPECT_LE(at.at(2).get<double>(), 29.05);
  }
  EXPECT_EQ(seen, 2u);
  EXPECT_NE(ran.out.find("clash: head and funnel_"), std::string::npos) << ran.out;
}

}  // namespace
}  // namespace swingroom::command
