// The report page: what it must always hold, whatever the assembly.
#include "core/report/html/page.h"

#include <gtest/gtest.h>

#include <cmath>
#include <regex>
#include <set>

#include "core/report/html/style.h"
#include "core/report/html/text.h"
#include "tests/core/report/report_fixture.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

/// A slider that comes to `gapMm` of a wall; names as given.
Mechanism slider(double gapMm, const std::string& wallName, const std::string& sliderName) {
  Mechanism mechanism;
  const PartId wall = mechanism.addPart(wallName, box({30, -10, -10}, {35, 10, 10}));
  const PartId part = mechanism.addPart(sliderName, box({0, -3, -3}, {10, 3, 3}));
  mechanism.parts().requiredGapMm = 0.3;
  mechanism.addStep(mechanism.addSlide(part, wall, Vector3d::UnitX()), {20 - gapMm, 0, 0});
  return mechanism;
}

std::string pageOf(const Mechanism& mechanism) {
  return toHtml(ReportCase(mechanism).page());
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

TEST(ReportPage, NamesWithMarkupAreShownAndNeverTaken) {
  const std::string name = "<b>&\"'</b><script>x</script>";
  const std::string html = pageOf(slider(0.1, name, "slider"));
  EXPECT_FALSE(has(html, "<script"));
  EXPECT_FALSE(has(html, "<b>&\"'"));
  EXPECT_TRUE(has(html, "&lt;b&gt;&amp;&quot;&#39;&lt;/b&gt;"));
}

TEST(ReportPage, LongAndForeignNamesComeThroughWhole) {
  const std::string longName(300, 'm');
  const std::string html = pageOf(slider(0.1, longName, "Schornstein-Ö 漏斗 \xF0\x9F\x9A\xA2"));
  EXPECT_TRUE(has(html, longName));
  EXPECT_TRUE(has(html, "Schornstein-Ö 漏斗 \xF0\x9F\x9A\xA2"));
}

TEST(ReportPage, VerdictIsSaidInOneSentence) {
  EXPECT_TRUE(has(pageOf(slider(0.1, "wall", "slider")),
                  "It does not pass: 1 pair is closer than required, of 1."));
  EXPECT_TRUE(has(pageOf(slider(-1, "wall", "slider")), "It does not pass: 1 pair clashes, of 1."));
  EXPECT_TRUE(has(pageOf(slider(5, "wall", "slider")), "The one pair is proven clear"));
  for (const double gapMm : {0.1, 5.0}) {
    EXPECT_TRUE(
        has(pageOf(slider(gapMm, "wall", "slider")), "as modelled; as printed: not checked yet"));
  }
}

TEST(ReportPage, OnePartMakesAPageThatSaysNothingWasChecked) {
  Mechanism mechanism;
  mechanism.addPart("alone", box({0, 0, 0}, {1, 1, 1}));
  EXPECT_TRUE(has(pageOf(mechanism), "nothing was checked"));
}

TEST(ReportPage, PartsWithoutMeshAreNamedAmongWhatWasNotLookedAt) {
  Mechanism mechanism = slider(5, "wall", "slider");
  mechanism.addPart("string & knot", TriangleMesh());
  EXPECT_TRUE(has(pageOf(mechanism), "Parts without a mesh, in no pair: string &amp; knot."));
}

TEST(ReportPage, TheFigureIsTheResultsAndTellsItselfApartFromTheRequiredOne) {
  const std::string html = pageOf(slider(0.2995, "wall", "slider"));
  EXPECT_TRUE(
      std::regex_search(html, std::regex("<data value=\"0\\.29949?\\d*\">0\\.2995\u00a0mm</data>|"
                                         "<data value=\"0\\.2995\\d*\">0\\.2995\u00a0mm</data>")));
}

// Depth 1, required 0.3: at least 1.30 mm, into the slider (towards -x) from its deepest point.
TEST(ReportPage, ShavingSaysHowMuchAndWhereInBothFrames) {
  ReportCase example(slider(-1, "wall", "slider"));
  for (auto& way : example.figures.pairs) way.at(0).deepPointOn = DeepPointOn::b;
  const std::string html = toHtml(example.page());
  EXPECT_TRUE(has(html, "To keep 0.30\u00a0mm, take <b>1.30\u00a0mm</b>"));
  EXPECT_TRUE(std::regex_search(
      html,
      std::regex(
          "<b>slider</b></dt><dd>at \\(31\\.00, [^)]*\\), going in along \\(-1\\.000, 0\\.000, "
          "0\\.000\\); in the part’s own frame at \\(10\\.00,")));
  EXPECT_TRUE(
      std::regex_search(html, std::regex("<b>wall</b></dt><dd>at \\(30\\.00, [^)]*\\), going in "
                                         "along \\(1\\.000, 0\\.000, 0\\.000\\)")));
}

// 0.1 beside a bar in a track with a fit of 0.4 on the diameter, 0.2 a side: 0.1 is missing, not the 0.2 that the
// required gap of 0.3 would ask for.
TEST(ReportPage, InsideAZoneShavingIsForTheFit) {
  Mechanism mechanism;
  const PartId wall = mechanism.addPart("wall", box({2.1, -3, -3}, {6, 3, 3}));
  const PartId bar = mechanism.addPart("bar", box({-2, -2, -2}, {2, 2, 2}));
  mechanism.parts().requiredGapMm = 0.3;
  const JointId track = mechanism.addSlide(bar, wall, Vector3d::UnitZ());
  mechanism.joint(track).name = "track";
  mechanism.joint(track).fitMm = 0.4;
  mechanism.joint(track).zones = {{20, -20, 20}};
  mechanism.addStep(track, {1, 0, 0});
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_GE(pair.gap.lowerMm, 1.8) << "nothing is outside the zone: farther than what matters";
  EXPECT_FALSE(pair.gap.upperMm.has_value());
  EXPECT_TRUE(has(pageOf(mechanism), "To keep the fit of track, 0.20\u00a0mm a side, take <b>0.10\u00a0mm</b>"));
}

TEST(ReportPage, IdsAreUniqueAndEveryLinkInThePageLeadsSomewhere) {
  Mechanism mechanism;
  for (int i = 0; i < 9; ++i) {
    mechanism.addPart("part " + std::to_string(i), box({0.9 * i, 0, 0}, {0.9 * i + 1, 1, 1}));
  }
  const std::string html = pageOf(mechanism);
  std::set<std::string> ids;
  const std::regex idShape(" id=\"([^\"]*)\""), linkShape("href=\"#([^\"]*)\"");
  for (std::sregex_iterator it(html.begin(), html.end(), idShape), end; it != end; ++it) {
    EXPECT_TRUE(ids.insert((*it)[1]).second) << (*it)[1];
  }
  EXPECT_GT(ids.size(), 10u);
  for (std::sregex_iterator it(html.begin(), html.end(), linkShape), end; it != end; ++it) {
    EXPECT_TRUE(ids.contains((*it)[1])) << (*it)[1];
  }
}

TEST(ReportPage, NothingIsLoadedFromElsewhereAndNothingRuns) {
  const std::string html = pageOf(slider(0.1, "wall", "slider"));
  for (const char* word : {"http:", "https:", "<script", "<link", "@import", "src=", " on"}) {
    if (std::string(word) == " on") {
      EXPECT_FALSE(std::regex_search(html, std::regex("<[a-z]+[^>]* on[a-z]+=")));
    } else {
      EXPECT_FALSE(has(html, word)) << word;
    }
  }
}

TEST(ReportPage, TheSameResultsGiveTheSameBytes) {
  EXPECT_EQ(pageOf(slider(0.1, "wall", "slider")), pageOf(slider(0.1, "wall", "slider")));
}

/// WCAG 2.x relative luminance, as in check_values 10.1 (S).
double luminance(const std::string& hex) {
  const auto channel = [&](std::size_t at) {
    const double c = std::stoi(hex.substr(at, 2), nullptr, 16) / 255.0;
    return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

double contrast(const std::string& a, const std::string& b) {
  const double la = luminance(a), lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

// The formula itself against check_values 10.1: published figures, tolerance 0.0001.
TEST(Contrast, FormulaGivesThePublishedRatios) {
  EXPECT_NEAR(contrast("#000000", "#FFFFFF"), 21, 1e-4);
  EXPECT_NEAR(contrast("#767676", "#FFFFFF"), 4.5422, 1e-4);
  EXPECT_NEAR(contrast("#FF0000", "#0000FF"), 2.1489, 1e-4);
  EXPECT_NEAR(contrast("#0072B2", "#FFFFFF"), 5.19, 5e-3);  // 10.2, Okabe-Ito blue.
}

// WCAG 2.2 SC 1.4.3: 4.5 for text.
TEST(Contrast, EveryTextColourIsReadableOnEveryGround) {
  for (const html::Theme& theme : {html::kLight, html::kDark}) {
    for (const char* text : {theme.ink, theme.soft, theme.accent}) {
      for (const char* ground : {theme.ground, theme.panel}) {
        EXPECT_GE(contrast(text, ground), 4.5) << text << " on " << ground;
      }
    }
  }
}

TEST(ReportText, NumbersAreRoundedAwayFromZeroAndNeverMinusZero) {
  EXPECT_EQ(html::fixed(0.125, 2), "0.13");
  EXPECT_EQ(html::fixed(-0.004, 2), "0.00");
  EXPECT_EQ(html::fixed(-1.5, 1), "-1.5");
  EXPECT_EQ(html::bracket(0.28749, 0.29101), "between 0.287 and 0.292\u00a0mm");
  EXPECT_EQ(html::bracket(1.8, std::nullopt), "more than 1.80\u00a0mm");
  EXPECT_EQ(html::gapFigure(0.2999, 0.3), "0.2999\u00a0mm");
  EXPECT_EQ(html::gapFigure(0.18, 0.3), "0.18\u00a0mm");
}

}  // namespace
}  // namespace swingroom
