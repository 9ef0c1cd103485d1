// The harbour tug and its weak twin, as printed. Expected figures follow from the drawn sizes and the default process
// (filament, 0.4 mm nozzle): sample_assemblies/harbour_tug_weak/README.md.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

using PrintedJson = nlohmann::json;

/// Of part files, in single precision, and six decimals.
constexpr double kFileMm = 1e-4;

std::vector<PrintedJson> printFindings(const PrintedJson& report) {
  std::vector<PrintedJson> found;
  for (const PrintedJson& finding : report.at("print").at("findings")) {
    if (finding.at("grade") == "finding") found.push_back(finding);
  }
  return found;
}

PrintedJson printed(const std::string& name, int exitCode) {
  const TemporaryFolder folder;
  const auto report = folder / "report.json";
  const Ran ran = run({"check", sample(name).string(), "--print", "--no-history", "--json", report.string()});
  EXPECT_EQ(ran.exitCode, exitCode) << ran.err << ran.out;
  return PrintedJson::parse(readText(report));
}

/// The seven, found once.
const PrintedJson& weakReport() {
  static const PrintedJson report = printed("harbour_tug_weak/harbour_tug_weak.swing.json", 1);
  return report;
}

PrintedJson weakFinding(const char* word) {
  for (const PrintedJson& finding : printFindings(weakReport())) {
    if (finding.at("word") == word) return finding;
  }
  ADD_FAILURE() << "nothing is called " << word;
  return {{"parts", nullptr}, {"joint", nullptr}, {"mode", nullptr}, {"lower", 0.0}, {"upper", -1.0}, {"needed", nullptr}};
}

/// The figure lies in the finding's bracket, and that is no wider than `widestMm`.
void expectFigure(const PrintedJson& finding, double expected, double widest, double needed) {
  const double lower = finding.at("lower"), upper = finding.at("upper");
  EXPECT_LE(lower, expected + kFileMm) << finding;
  EXPECT_GE(upper, expected - kFileMm) << finding;
  EXPECT_LE(upper - lower, widest + kFileMm) << finding;
  EXPECT_NEAR(finding.at("needed").get<double>(), needed, kFileMm) << finding;
}

void expectBulwarkOfOneLineIsThin() {
  const PrintedJson finding = weakFinding("thin wall");
  EXPECT_EQ(finding.at("parts"), PrintedJson({"thigh_starboard"}));
  // Drawn 0.3 to 0.8 inside the hull's side; two lines of 0.4 are the least.
  expectFigure(finding, 0.8 - 0.3, 0.01, 0.8);
  // On top of the deck, which is 18 high.
  EXPECT_GE(finding.at("at").at(2), 18 - kFileMm);
}

void expectPinInAWideHoleIsLoose() {
  const PrintedJson finding = weakFinding("loose fit");
  EXPECT_EQ(finding.at("joint"), "elbow starboard");
  // A hole of 3.9 on a pin of 3; facets stand up to 0.04 into the hole, on both sides.
  expectFigure(finding, 3.9 - 3.0, 2 * 0.04, 0.6);
}

void expectPinInANarrowHoleBinds() {
  const PrintedJson finding = weakFinding("tight fit");
  EXPECT_EQ(finding.at("joint"), "upper knee starboard");
  // A hole of 4.1 on a pin of 4; one figure, with all that facets of 0.005 may take.
  const double facets = 2 * 0.005;
  EXPECT_GE(finding.at("lower").get<double>(), 4.1 - 4.0 - facets - kFileMm);
  EXPECT_LE(finding.at("upper").get<double>(), 4.1 - 4.0 + kFileMm);
  EXPECT_EQ(finding.at("needed"), 0.3);
  for (const PrintedJson& joint : weakReport().at("print").at("joints")) {
    if (joint.at("name") != "upper knee starboard") continue;
    EXPECT_NEAR(joint.at("clearanceMm").at("most").get<double>(), 4.1 - 4.0, kFileMm);
    // Pins grow by 0.05 a side, holes shrink by 0.15 on the diameter.
    EXPECT_NEAR(joint.at("clearanceAsPrintedMm").at("most").get<double>(), 4.1 - 4.0 - 2 * 0.05 - 0.15, kFileMm);
  }
}

void expectTabThatMeetsNothingIsLoose() {
  const PrintedJson finding = weakFinding("loose");
  EXPECT_EQ(finding.at("parts"), PrintedJson({"keel", "thigh_port"}));
  EXPECT_EQ(finding.at("mode"), "tug");
  // Half widths of the way and of the keel in it.
  expectFigure(finding, 4.0 - 3.6, 0.001, 0);
}

void expectArmWithoutClicksDroops() {
  const PrintedJson finding = weakFinding("droops");
  EXPECT_EQ(finding.at("joint"), "elbow port");
  EXPECT_EQ(finding.at("mode"), "deckhand");
  // N mm; weighed by CGAL: tests/judge/weak_tug_weight_test.cpp. Held: 0.5 of friction on a radius of 1.5.
  EXPECT_NEAR(finding.at("lower").get<double>(), 0.110, 0.003);
  EXPECT_NEAR(finding.at("upper").get<double>(), 0.110, 0.003);
  EXPECT_NEAR(finding.at("needed").get<double>(), 0.0095, 0.0002);
}

void expectFigureOnCutSolesFallsOver() {
  const PrintedJson finding = weakFinding("falls over");
  EXPECT_EQ(finding.at("parts"), PrintedJson({"foot_port", "foot_starboard"}));
  EXPECT_EQ(finding.at("mode"), "deckhand");
  // Weighed by CGAL: tests/judge/weak_tug_weight_test.cpp.
  expectFigure(finding, -4.46, 0.6, 0);
}

void expectBaseLargerThanTheBedIsTooLarge() {
  const PrintedJson finding = weakFinding("too large for the bed");
  EXPECT_EQ(finding.at("parts"), PrintedJson({"quay"}));
  // A round plate has its least cube with its axis along the cube's diagonal; a bed of 220. The search stops within a
  // hundredth of the part's size.
  const double cube = 275 * std::sqrt(2.0 / 3) + 5 / std::sqrt(3.0);
  expectFigure(finding, cube - 220, 2.75, 0);
}

TEST(PrintedTug, NothingIsFound) {
  EXPECT_EQ(printFindings(printed("harbour_tug/harbour_tug.swing.json", 0)), std::vector<PrintedJson>{});
}

// One test: each runs as a program of its own, and the check takes long.
TEST(PrintedWeakTug, EachPlantedFaultIsFoundWithItsFigureAndNothingElse) {
  EXPECT_EQ(printFindings(weakReport()).size(), 7u) << weakReport().at("print").at("findings");
  expectBulwarkOfOneLineIsThin();
  expectPinInAWideHoleIsLoose();
  expectPinInANarrowHoleBinds();
  expectTabThatMeetsNothingIsLoose();
  expectArmWithoutClicksDroops();
  expectFigureOnCutSolesFallsOver();
  expectBaseLargerThanTheBedIsTooLarge();
  // Gaps alone show only the missing grip.
  for (const PrintedJson& sequence : weakReport().at("sequences")) {
    for (const PrintedJson& pair : sequence.at("pairs")) {
      const bool keel = pair.at("parts") == PrintedJson({"keel", "thigh_port"}) && sequence.at("from") == "tug";
      EXPECT_EQ(pair.at("verdict"), keel ? "loose" : "clear") << pair.at("parts");
    }
  }
}

}  // namespace
}  // namespace swingroom::command
