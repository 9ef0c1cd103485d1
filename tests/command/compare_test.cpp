// `swingroom compare` over reports of `swingroom check`.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

using Json = nlohmann::json;

class Compare : public ::testing::Test {
 protected:
  /// The report of the hatch box with another required gap.
  std::string reportWith(const std::string& requiredGap, const std::string& name) {
    const auto box = folder_ / name;
    std::filesystem::copy(sample("hatch_box"), box);
    const auto file = box / "hatch_box.swing.json";
    std::string text = readText(file);
    const std::size_t at = text.find("\"requiredGap\": "), end = text.find(',', at);
    text.replace(at, end - at, "\"requiredGap\": " + requiredGap);
    writeText(file, text);
    const std::string report = (box / "report.json").string();
    run({"check", file.string(), "--json", report});
    return report;
  }
  std::string edited(const std::string& report, const std::function<void(Json&)>& edit,
                     const std::string& name) {
    Json json = Json::parse(readText(report));
    edit(json);
    writeText(folder_ / name, json.dump(1));
    return (folder_ / name).string();
  }

  TemporaryFolder folder_;
};

TEST_F(Compare, TheSameReportIsAsBefore) {
  const std::string report = reportWith("0.3", "a");
  const Ran ran = run({"compare", report, report});
  EXPECT_EQ(ran.exitCode, 0) << ran.err;
  EXPECT_NE(ran.out.find("nothing turned"), std::string::npos) << ran.out;
}

TEST_F(Compare, ANewFindingIsWorseAndItsOppositeIsSolved) {
  const std::string wide = reportWith("0.05", "a"), strict = reportWith("9", "b");
  const Ran worse = run({"compare", wide, strict}), better = run({"compare", strict, wide});
  EXPECT_EQ(worse.exitCode, 1) << worse.out << worse.err;
  EXPECT_NE(worse.out.find("new finding"), std::string::npos) << worse.out;
  EXPECT_EQ(better.exitCode, 0) << better.out;
  EXPECT_NE(better.out.find("solved"), std::string::npos) << better.out;
}

TEST_F(Compare, AGapThatShrankIsToldAndWorseOnlyIfAsked) {
  const std::string report = reportWith("0.05", "a");
  const std::string older = edited(
      report,
      [](Json& json) {
        Json& gap = json["sequences"][0]["pairs"][0]["gap"];
        if (gap["upper"].is_null()) gap["upper"] = gap["lower"];
        gap["lower"] = gap["lower"].get<double>() + 1;
        gap["upper"] = gap["upper"].get<double>() + 1;
      },
      "older.json");
  const Ran ran = run({"compare", older, report});
  EXPECT_EQ(ran.exitCode, 0);
  EXPECT_NE(ran.out.find("shrank"), std::string::npos) << ran.out;
  EXPECT_EQ(run({"compare", older, report, "--gaps"}).exitCode, 1);
}

TEST_F(Compare, JsonSaysTheSame) {
  const std::string wide = reportWith("0.05", "a"), strict = reportWith("9", "b");
  const Ran ran = run({"compare", wide, strict, "--json"});
  const Json json = Json::parse(ran.out);
  EXPECT_EQ(ran.exitCode, 1);
  EXPECT_TRUE(json.at("worse").get<bool>());
  EXPECT_EQ(json.at("changes").at(0).at("change"), "new finding");
  EXPECT_EQ(json.at("changes").at(0).at("before").at("verdict"), "clear");
}

TEST_F(Compare, OtherPartsWaysAndResolutionsAreTold) {
  const std::string report = reportWith("0.05", "a");
  const std::string other = edited(
      report,
      [](Json& json) {
        json["resolution"] = 0.001;
        json["sequences"].push_back(json["sequences"][0]);
        json["sequences"].back()["name"] = "another way";
        for (Json& sequence : json["sequences"]) {
          for (Json& pair : sequence["pairs"]) {
            for (Json& part : pair["parts"]) {
              if (part == "lid") part = "cover";
            }
          }
        }
      },
      "other.json");
  const Ran ran = run({"compare", report, other});
  EXPECT_EQ(ran.exitCode, 0) << ran.out;
  for (const char* said :
       {"0.01 mm before, to 0.001 mm now", "another way", "lid is taken for cover"}) {
    EXPECT_NE(ran.out.find(said), std::string::npos) << said << "\n" << ran.out;
  }
}

TEST_F(Compare, WhatIsNoReportIsTwoAndToldInASentence) {
  const std::string report = reportWith("0.05", "a");
  writeText(folder_ / "bad.json", "{\"swingroomReport\": 1");
  for (const std::string& bad : {(folder_ / "bad.json").string(), (folder_ / "gone.json").string(),
                                 (folder_ / "a").string()}) {
    const Ran ran = run({"compare", report, bad});
    EXPECT_EQ(ran.exitCode, 2);
    EXPECT_EQ(ran.err.find(bad + ": "), 0u) << ran.err;
    EXPECT_EQ(ran.out, "");
  }
  EXPECT_EQ(run({"compare", report}).exitCode, 2);
}

}  // namespace
}  // namespace swingroom::command
