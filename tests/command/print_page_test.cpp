// The page and the JSON report of check --print: what one says the other has, and cautions stand beside it.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

using PageJson = nlohmann::json;

/// Of one check of the tug, for all tests here.
struct PrintedPage {
  std::string out, page;
  PageJson report;
};

const PrintedPage& printedTug() {
  static const PrintedPage made = [] {
    const TemporaryFolder folder;
    PrintedPage printed;
    printed.out = run({"check", sample("harbour_tug/harbour_tug.swing.json").string(), "--print", "--no-history",
                       "--report", (folder / "out").string()})
                      .out;
    printed.page = readText(folder / "out" / "report.html");
    printed.report = PageJson::parse(readText(folder / "out" / "report.json"));
    return printed;
  }();
  return made;
}

std::string sectionNamed(const std::string& page, const std::string& name) {
  const auto begin = page.find(" id=\"" + name + "\">");
  if (begin == std::string::npos) return "";
  return page.substr(begin, page.find("</section>", begin) - begin);
}

void collectNumbers(const PageJson& json, std::set<double>& numbers) {
  if (json.is_number()) numbers.insert(json.get<double>());
  if (json.is_structured()) {
    for (const PageJson& member : json) collectNumbers(member, numbers);
  }
}

bool speaksOfToys(const std::string& word) {
  return word == "small part" || word == "small ball" || word == "finger gap" || word == "sharp edge";
}

TEST(PrintPage, EveryFindingAndHintIsOnIt) {
  const std::string told = sectionNamed(printedTug().page, "print");
  ASSERT_FALSE(printedTug().report["print"]["findings"].empty());
  for (const PageJson& finding : printedTug().report["print"]["findings"]) {
    const std::string sentence = finding["sentence"];
    EXPECT_NE(told.find(sentence), std::string::npos) << sentence;
    if (!finding["joint"].is_null()) {
      EXPECT_NE(told.find("<b>joint " + finding["joint"].get<std::string>()), std::string::npos) << sentence;
    } else {
      for (const std::string part : finding["parts"]) EXPECT_NE(told.find(part), std::string::npos) << sentence;
    }
  }
}

// The rule of this program: where it speaks of safety, it says there what that is worth.
TEST(PrintPage, CautionsStandInEachSectionThatSpeaksOfSafety) {
  const auto& notes = printedTug().report["print"]["cautions"]["notes"];
  ASSERT_FALSE(notes.empty());
  for (const char* name : {"print", "print-hold", "print-stand", "print-cautions"}) {
    const std::string section = sectionNamed(printedTug().page, name);
    ASSERT_FALSE(section.empty()) << name;
    for (const std::string note : notes) EXPECT_NE(section.find(note), std::string::npos) << name << ": " << note;
  }
  // Before the first of the hints that they are of.
  const std::string found = sectionNamed(printedTug().page, "print");
  for (const PageJson& finding : printedTug().report["print"]["findings"]) {
    if (!speaksOfToys(finding["word"])) continue;
    EXPECT_LT(found.find(notes[0].get<std::string>()), found.find(finding["sentence"].get<std::string>()));
  }
}

TEST(PrintPage, ItsFiguresAreThoseOfTheJsonReport) {
  std::set<double> numbers;
  collectNumbers(printedTug().report["print"], numbers);
  for (const PageJson& way : printedTug().report["sequences"]) collectNumbers(way, numbers);
  const std::regex figure("<data value=\"([^\"]*)\">([-0-9.]+)");
  std::size_t count = 0;
  for (const char* name : {"print", "print-gaps", "print-printers", "print-fits", "print-grips", "print-walls",
                           "print-hold", "print-stand", "print-set", "print-cautions", "print-process"}) {
    const std::string section = sectionNamed(printedTug().page, name);
    ASSERT_FALSE(section.empty()) << name;
    for (std::sregex_iterator at(section.begin(), section.end(), figure), end; at != end; ++at, ++count) {
      const double value = std::stod((*at)[1]);
      const std::string shown = (*at)[2];
      EXPECT_TRUE(numbers.contains(value)) << name << ": " << value;
      // What is shown is the figure to its last digit.
      const auto dot = shown.find('.');
      const double half = 0.5 * std::pow(10.0, dot == std::string::npos ? 0.0 : -double(shown.size() - dot - 1));
      EXPECT_LE(std::abs(std::stod(shown) - value), half * (1 + 1e-9)) << name << ": " << value;
    }
  }
  EXPECT_GT(count, 500u) << "the page has few figures that a program can read";
}

// Of the tug's 40 parts, none bought: sample_assemblies/harbour_tug/make_assembly.py.
TEST(PrintPage, TheSetsPiecesAndMassesAddUp) {
  const PageJson& print = printedTug().report["print"];
  double massG = 0;
  int pieces = 0;
  for (const PageJson& item : print["set"]["items"]) {
    pieces += item["count"].get<int>();
    massG += item["count"].get<int>() * item["massG"]["value"].get<double>();
  }
  EXPECT_EQ(pieces, 40);
  // Each of 40 masses is rounded to 1e-6 g.
  EXPECT_NEAR(massG, print["set"]["totals"]["massG"]["value"].get<double>(), 40e-6);
  EXPECT_NEAR(massG, print["weight"]["whole"]["massG"]["value"].get<double>(), 40e-6);
  std::size_t laid = 0;
  for (const PageJson& load : print["set"]["loads"]) laid += load["pieces"].size();
  EXPECT_EQ(laid, 40u);
}

// The centre of mass stands over the floor by its height, and the weakest edge's angle is that of margin over height.
TEST(PrintPage, TheTipAngleIsThatOfMarginAndHeight) {
  for (const PageJson& mode : printedTug().report["print"]["weight"]["modes"]) {
    const PageJson& stand = mode["stand"];
    const double marginMm = (stand["marginMm"]["lower"].get<double>() + stand["marginMm"]["upper"].get<double>()) / 2;
    const double tipDeg = std::atan2(marginMm, stand["heightMm"].get<double>()) * 180 / 3.14159265358979;
    // The bracket lies evenly about the margin; figures are rounded to 1e-6.
    EXPECT_NEAR(stand["tipDeg"].get<double>(), tipDeg, 1e-4) << mode["mode"];
    EXPECT_GE(stand["support"].size(), 3u);
  }
}

TEST(PrintPage, TheHeadlineCountsWhatWasFound) {
  std::size_t hints = 0;
  for (const PageJson& finding : printedTug().report["print"]["findings"]) hints += finding["grade"] == "hint";
  const std::string head = sectionNamed(printedTug().page, "verdict");
  EXPECT_NE(head.find(std::to_string(hints) + " hints"), std::string::npos);
  EXPECT_NE(head.find("real print decides"), std::string::npos);
  EXPECT_NE(printedTug().out.find(std::to_string(hints) + " hints"), std::string::npos);
}

}  // namespace
}  // namespace swingroom::command
