// The harbour tug and its flawed twin as a user checks them. Expected places and sizes are the closed forms of
// sample_assemblies/harbour_tug_draft/README.md; instants within 0.005, sizes within 0.02 mm. Fault 3 has no closed
// form of its depth: tests/judge/tug_against_cgal_test.cpp.
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

using Json = nlohmann::json;

constexpr double kInstant = 0.005;
constexpr double kSizeMm = 0.02;

Json reportOf(const std::string& name, int exitCode) {
  const TemporaryFolder folder;
  const auto report = folder / "report.json";
  const Ran ran = run({"check", sample(name).string(), "--json", report.string()});
  EXPECT_EQ(ran.exitCode, exitCode) << ran.err << ran.out;
  return Json::parse(readText(report));
}

const Json& draft() {
  static const Json report = reportOf("harbour_tug_draft/harbour_tug_draft.swing.json", 1);
  return report;
}

const Json& pairOf(const Json& report, std::size_t sequence, const char* a, const char* b) {
  for (const Json& pair : report.at("sequences").at(sequence).at("pairs")) {
    if (pair.at("parts") == Json({a, b})) return pair;
  }
  throw std::runtime_error(std::string("no pair ") + a + ", " + b);
}

Json clashOf(const Json& pair) {
  EXPECT_EQ(pair.at("verdict"), "clash") << pair.at("parts");
  for (const Json& stretch : pair.at("stretches")) {
    if (stretch.at("verdict") == "clash") return stretch;
  }
  throw std::runtime_error("no clash");
}

void expectClash(const Json& pair, double from, double to, double depthMm) {
  const Json clash = clashOf(pair);
  EXPECT_NEAR(clash.at("from").get<double>(), from, kInstant) << pair.at("parts");
  EXPECT_NEAR(clash.at("to").get<double>(), to, kInstant) << pair.at("parts");
  EXPECT_NEAR(clash.at("depth").get<double>(), depthMm, kSizeMm) << pair.at("parts");
}

TEST(HarbourTug, EveryPairIsClearAndEveryContactIsMet) {
  const Json report = reportOf("harbour_tug/harbour_tug.swing.json", 0);
  ASSERT_EQ(report.at("sequences").size(), 2u);
  for (const Json& sequence : report.at("sequences")) {
    EXPECT_EQ(sequence.at("verdicts").at("clear"), 780) << sequence.at("verdicts");
  }
}

void expectHeadHitsTheUncutSternHalfWayThoughNeitherModeShowsIt() {
  const Json& pair = pairOf(draft(), 0, "torso", "head");
  expectClash(pair, 0.4579, 0.5274, 1.127);
  EXPECT_NEAR(clashOf(pair).at("deepestAt").get<double>(), 0.4926, kInstant);
  EXPECT_EQ(clashOf(pair).at("mover"), "neck");
  for (const char* mode : {"tug", "deckhand"}) EXPECT_GT(pair.at("modes").at(mode).at("lower"), 0.3) << mode;
}

void expectFunnelEndsInsideItsBung() {
  expectClash(pairOf(draft(), 0, "funnel_port", "bung_port"), 1.0 / 3 + 13.25 / 13.6 / 9, 1, 0.35);
}

void expectHipThatTurnsTheWrongWayIsNamedAsTheMover() {
  const Json clash = clashOf(pairOf(draft(), 1, "torso", "thigh_starboard"));
  EXPECT_EQ(clash.at("mover"), "hip starboard");
  // Where the surfaces first meet by CGAL: tests/judge/tug_against_cgal_test.cpp.
  EXPECT_NEAR(clash.at("from").get<double>(), 0.3405, kInstant);
  EXPECT_EQ(clash.at("to"), 1.0);
  EXPECT_EQ(pairOf(draft(), 1, "torso", "thigh_port").at("verdict"), "clear");
}

void expectKeelTooShortToGripIsLooseOnBothSides() {
  for (const char* thigh : {"thigh_port", "thigh_starboard"}) {
    const Json& pair = pairOf(draft(), 0, "keel", thigh);
    EXPECT_EQ(pair.at("verdict"), "loose");
    EXPECT_NEAR(pair.at("modes").at("tug").at("upper").get<double>(), 0.4, kSizeMm);
  }
}

void expectWheelhouseGoesOverFunnelsThatStillStand() {
  const double first = 2.0 / 9 + 2.5085 / 18 / 9;
  expectClash(pairOf(draft(), 0, "head", "funnel_port"), first, 1.0 / 3 + 10.5 / 13.6 / 9, 4);
  expectClash(pairOf(draft(), 0, "head", "funnel_starboard"), first, 1.0 / 3 + 10.5 / 12.2 / 9, 4);
}

void expectCarriageTooWideIsTightAllAlong() {
  const Json& pair = pairOf(draft(), 0, "torso", "carriage");
  EXPECT_EQ(pair.at("verdict"), "tight");
  EXPECT_LE(pair.at("gap").at("lower").get<double>(), 0.15 + 1e-5);
  EXPECT_GE(pair.at("gap").at("upper").get<double>(), 0.15 - 1e-5);
  EXPECT_NEAR(pair.at("gap").at("upper").get<double>(), 0.15, kSizeMm);
  EXPECT_EQ(pair.at("stretches"), Json::array({{{"verdict", "tight"}, {"from", 0.0}, {"to", 1.0}}}));
}

void expectPinThickerThanItsHoleClashesInsideTheZone() {
  const Json& pair = pairOf(draft(), 0, "elbow_pin_port", "forearm_port");
  expectClash(pair, 0, 1, 0.1);
  EXPECT_EQ(pair.at("joint").at("name"), "elbow port");
  EXPECT_EQ(pair.at("joint").at("verdict"), "clash");
}

void expectNothingElseIsFound() {
  const std::set<std::set<std::string>> planted = {
      {"torso", "head"}, {"funnel_port", "bung_port"}, {"torso", "thigh_starboard"}, {"keel", "thigh_starboard"},
      {"keel", "thigh_port"}, {"head", "funnel_port"}, {"head", "funnel_starboard"}, {"torso", "carriage"},
      {"elbow_pin_port", "forearm_port"}, {"side_window_port", "funnel_port"},
      {"side_window_starboard", "funnel_starboard"}};
  std::set<std::set<std::string>> found;
  for (const Json& sequence : draft().at("sequences")) {
    for (const Json& pair : sequence.at("pairs")) {
      if (pair.at("verdict") != "clear") found.insert(pair.at("parts").get<std::set<std::string>>());
    }
  }
  EXPECT_EQ(found, planted);
}

// One test: each runs as a program of its own, and the check takes long.
TEST(HarbourTugDraft, EachPlantedFaultIsNamedAtItsPlaceWithItsSize) {
  expectHeadHitsTheUncutSternHalfWayThoughNeitherModeShowsIt();
  expectFunnelEndsInsideItsBung();
  expectHipThatTurnsTheWrongWayIsNamedAsTheMover();
  expectKeelTooShortToGripIsLooseOnBothSides();
  expectWheelhouseGoesOverFunnelsThatStillStand();
  expectCarriageTooWideIsTightAllAlong();
  expectPinThickerThanItsHoleClashesInsideTheZone();
  expectNothingElseIsFound();
}

}  // namespace
}  // namespace swingroom::command
