// An assembly made larger: its file by hand-written patches (RFC 6902), its motion by comparing
// every vertex at every instant with the scaled one, its gaps by the check.
#include "core/files/document/scaled_document.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "core/assembly/figure_size.h"
#include "core/files/document/read_document.h"
#include "core/files/document/write_document.h"
#include "core/sweep/sweep.h"
#include "tests/core/files/document_samples.h"
#include "tests/core/files/load_fixture.h"

namespace swingroom {
namespace {

using json = nlohmann::ordered_json;  // Variants keep the order of their keys.

AssemblyDocument documentFrom(const std::string& text) {
  const auto read = parseDocument(text, "scaled");
  if (!read) throw std::runtime_error(textOf(read.problems()));
  return read->document;
}

std::string scaledText(const AssemblyDocument& document, double factor) {
  const auto scaled = scaledDocument(document, factor);
  return scaled ? writeDocument(*scaled) : textOf(scaled.problems());
}

/// Everything that the boat has not got: a mirrored and a placed part, zones, fits, clicks of a
/// slide, followers between kinds, places of contacts, a variant with lengths.
const char* const kMore = R"([
  {"op": "add", "path": "/parts/1/scale", "value": 25.4},
  {"op": "add", "path": "/parts/1/mirror", "value": {"through": [1, 2, 3], "normal": [1, 0, 0]}},
  {"op": "add", "path": "/parts/4/placement", "value": {"at": [4, -2, 20], "turn": [0.8, 0, 0.6, 0]}},
  {"op": "add", "path": "/joints/0/zones", "value": [{"radius": 3, "from": -5, "to": 6}]},
  {"op": "add", "path": "/joints/0/fit", "value": 0.4},
  {"op": "add", "path": "/joints/4/zones", "value": [{"radius": 4}]},
  {"op": "add", "path": "/joints/4/play", "value": 2},
  {"op": "replace", "path": "/joints/5/follows", "value": {"joint": "wrist", "ratio": 5, "offset": 7}},
  {"op": "add", "path": "/joints/2/follows", "value": {"joint": "shoulder", "ratio": 0.5, "offset": 1}},
  {"op": "add", "path": "/pairs/0/contacts/0/overlap", "value": [0, 0.25]},
  {"op": "add", "path": "/pairs/0/contacts/0/place", "value": {"at": [1, 0, 5], "radius": 2.5}},
  {"op": "replace", "path": "/variants/0/replace", "value": {
    "parts": [{"name": "head", "stages": {"block": "big.stl"}, "placement": {"at": [1, 2, 3]}}],
    "joints": [{"name": "wrist", "type": "slide", "parent": "arm", "child": "hand",
                "along": [0, 0, 1], "range": [0, 30]}],
    "pairs": [{"parts": ["hull", "arm"],
               "contacts": [{"kind": "rest", "modes": ["boat"], "gap": [0, 0.1],
                             "place": {"at": [1, 1, 1], "radius": 2}}]}]}}
])";

/// What doubling makes of it, thought through by hand: lengths double, angles, directions, gaps,
/// fits and play do not; a slide's mm per degree double, a hinge's degrees per mm halve.
const char* const kMoreDoubled = R"([
  {"op": "replace", "path": "/parts/1/scale", "value": 50.8},
  {"op": "replace", "path": "/parts/1/mirror/through", "value": [2, 4, 6]},
  {"op": "replace", "path": "/parts/4/placement/at", "value": [8, -4, 40]},
  {"op": "add", "path": "/parts/0/scale", "value": 2},
  {"op": "add", "path": "/parts/2/scale", "value": 2},
  {"op": "add", "path": "/parts/3/scale", "value": 2},
  {"op": "add", "path": "/parts/4/scale", "value": 2},
  {"op": "add", "path": "/parts/5/scale", "value": 2},
  {"op": "replace", "path": "/joints/0/through", "value": [0, 0, 20]},
  {"op": "replace", "path": "/joints/0/zones/0", "value": {"radius": 6, "from": -10, "to": 12}},
  {"op": "replace", "path": "/joints/1/range", "value": [0, 40]},
  {"op": "replace", "path": "/joints/1/clicks", "value": [0, 20, 40]},
  {"op": "replace", "path": "/joints/4/through", "value": [0, 0, 40]},
  {"op": "replace", "path": "/joints/4/zones/0/radius", "value": 8},
  {"op": "replace", "path": "/joints/5/through", "value": [10, 0, 0]},
  {"op": "replace", "path": "/joints/5/follows", "value": {"joint": "wrist", "ratio": 2.5, "offset": 7}},
  {"op": "replace", "path": "/joints/2/follows", "value": {"joint": "shoulder", "ratio": 1, "offset": 2}},
  {"op": "replace", "path": "/modes/1/values/wrist", "value": 20},
  {"op": "replace", "path": "/modes/1/values/hand clip", "value": 6},
  {"op": "replace", "path": "/sequences/0/steps/1/moves/wrist", "value": 20},
  {"op": "replace", "path": "/pairs/0/contacts/0/place", "value": {"at": [2, 0, 10], "radius": 5}},
  {"op": "replace", "path": "/variants/0/replace", "value": {
    "parts": [{"name": "head", "stages": {"block": "big.stl"}, "placement": {"at": [2, 4, 6]}, "scale": 2}],
    "joints": [{"name": "wrist", "type": "slide", "parent": "arm", "child": "hand",
                "along": [0, 0, 1], "range": [0, 60]}],
    "pairs": [{"parts": ["hull", "arm"],
               "contacts": [{"kind": "rest", "modes": ["boat"], "gap": [0, 0.1],
                             "place": {"at": [2, 2, 2], "radius": 4}}]}]}}
])";

TEST(ScaledDocument, LengthsGrowAndAnglesGapsAndFitsStay) {
  const json boat = json::parse(kBoat).patch(json::parse(kMore));
  const json doubled = boat.patch(json::parse(kMoreDoubled));
  EXPECT_EQ(scaledText(documentFrom(boat.dump()), 2), writeDocument(documentFrom(doubled.dump())));
}

TEST(ScaledDocument, ByOneNothingChanges) {
  const AssemblyDocument all = documentFrom(samples::kEverything);
  EXPECT_EQ(scaledText(all, 1), samples::kEverything);
}

// A third and back, a tenth more and back: round sizes come back as they were.
TEST(ScaledDocument, ThereAndBackGivesTheSameBytes) {
  const json boat = json::parse(kBoat).patch(json::parse(kMore));
  const AssemblyDocument before = documentFrom(boat.dump());
  for (const double factor : {3.0, 0.4, 1.1, 25.4}) {
    const auto there = scaledDocument(before, factor);
    ASSERT_TRUE(there);
    // A variant's `scale` was left out and is written now: it says 1 where nothing said so.
    AssemblyDocument back = documentFrom(scaledText(*there, 1 / factor));
    back.variants = before.variants;
    EXPECT_EQ(writeDocument(back), writeDocument(before)) << factor;
  }
}

TEST(ScaledDocument, FactorsThatAreNoneAreRefused) {
  const AssemblyDocument boat = documentFrom(kBoat);
  for (const double factor : {0.0, -1.0, std::nan(""), HUGE_VAL}) {
    EXPECT_FALSE(scaledDocument(boat, factor)) << factor;
  }
  const auto large = scaledDocument(boat, 1e7);
  ASSERT_FALSE(large);
  EXPECT_NE(textOf(large.problems()).find("too large"), std::string::npos);
}

TEST(ScaledDocument, MeshesAloneLeaveEverythingElse) {
  const AssemblyDocument boat = documentFrom(kBoat);
  AssemblyDocument expected = boat;
  for (DocumentPart& part : expected.parts) part.scale = 25.4;
  expected.variants[0].replace =
      R"({"parts":[{"name":"head","stages":{"block":"big.stl"},"scale":25.4}]})";
  const auto scaled = meshesScaled(boat, 25.4, UnitOf::all);
  ASSERT_TRUE(scaled);
  EXPECT_EQ(writeDocument(*scaled), writeDocument(expected));
}

TEST(ScaledDocument, FilesThatSayTheirUnitAreLeftWhereOnlyTheOthersAreMeant) {
  AssemblyDocument boat = documentFrom(kBoat);
  boat.parts[0].stages["block"] = "figure.glb#hull";
  boat.parts[1].stages["block"] = "ARM.3MF";
  boat.parts[2].stages["block"] = "hand.obj";
  const auto scaled = meshesScaled(boat, 10, UnitOf::unitless);
  ASSERT_TRUE(scaled);
  EXPECT_EQ(scaled->parts[0].scale, 1);
  EXPECT_EQ(scaled->parts[1].scale, 1);
  EXPECT_EQ(scaled->parts[2].scale, 10);
  EXPECT_EQ(scaled->parts[3].scale, 10);
}

class ScaledMotion : public LoadFixture {
 protected:
  LoadedAssembly loadedOf(const AssemblyDocument& document) {
    return loadWell(writeDocument(document));
  }
  /// Every vertex at every instant is where the smaller one's is, times `factor`.
  void expectScaled(const LoadedAssembly& small, const LoadedAssembly& large, double factor) {
    ASSERT_EQ(small.sequences.size(), large.sequences.size());
    for (std::size_t s = 0; s < small.sequences.size(); ++s) {
      for (int i = 0; i <= 60; ++i) {
        const auto X =
            posesOf(small.assembly, configurationAt(small.assembly, small.sequences[s], i / 60.0));
        const auto Y =
            posesOf(large.assembly, configurationAt(large.assembly, large.sequences[s], i / 60.0));
        expectVerticesScaled(small, large, X, Y, factor);
      }
    }
  }
  void expectVerticesScaled(const LoadedAssembly& small, const LoadedAssembly& large,
                            const std::vector<Pose>& X, const std::vector<Pose>& Y, double factor) {
    for (std::size_t p = 0; p < X.size(); ++p) {
      const auto& a = small.assembly.parts()[p].mesh->vertices;
      const auto& b = large.assembly.parts()[p].mesh->vertices;
      ASSERT_EQ(a.size(), b.size());
      double worst = 0;
      for (std::size_t v = 0; v < a.size(); ++v) {
        worst = std::max(worst, (factor * (X[p] * a[v]) - Y[p] * b[v]).norm());
      }
      // Rounding of doubles on the way, at sizes up to some 1000 mm.
      EXPECT_LT(worst, 1e-9) << small.assembly.parts()[p].name;
    }
  }
};

TEST_F(ScaledMotion, EveryPartStandsScaledAtEveryInstant) {
  json boat = json::parse(kBoat).patch(json::parse(kMore));
  boat["joints"][2].erase("follows");
  const char* const values = R"([
    {"op": "replace", "path": "/sequences/0/steps/1/order", "value": "together"},
    {"op": "add", "path": "/joints/5/range", "value": [-400, 400]}])";
  boat = boat.patch(json::parse(values));
  const AssemblyDocument small = documentFrom(boat.dump());
  for (const double factor : {2.5, 0.37, 1000 / 25.4}) {
    const auto large = scaledDocument(small, factor);
    ASSERT_TRUE(large);
    expectScaled(loadedOf(small), loadedOf(*large), factor);
  }
}

TEST_F(ScaledMotion, ModesByPlacementsAndTheirUnwrittenSlidesAreScaled) {
  const char* const text = R"({
    "swingroom": 1,
    "parts": [{"name": "hull", "stages": {"block": "hull.stl"}}, {"name": "arm", "stages": {"block": "arm.stl"}}],
    "modes": [{"name": "in", "values": {}},
              {"name": "out", "placements": {"arm": {"at": [12, 0, 0], "turn": [1, 0, 0, 0]}}}],
    "sequences": [{"name": "pull", "from": "in", "to": "out",
                   "steps": [{"name": "half"}, {"name": "rest"}]}]})";
  const AssemblyDocument small = documentFrom(text);
  AssemblyDocument named = small;
  named.sequences.clear();
  const LoadedAssembly loaded = loadedOf(named);
  ASSERT_EQ(loaded.assembly.joints().size(), 1u);
  ASSERT_EQ(loaded.assembly.joints()[0].type, JointType::slide);
  named.sequences = small.sequences;
  named.sequences[0].steps[0].moves = {{loaded.assembly.joints()[0].name, 7.0}};
  named.sequences[0].steps[1].moves = {{loaded.assembly.joints()[0].name, 12.0}};
  const auto large = scaledDocument(named, 3);
  ASSERT_TRUE(large) << textOf(large.problems());
  expectScaled(loadedOf(named), loadedOf(*large), 3);
}

/// A block slides away from a wall and a bar turns over a post: gaps by hand, mm.
TEST_F(ScaledMotion, GapsOfTheCheckGrowWithIt) {
  const char* const text = R"({
    "swingroom": 1,
    "parts": [{"name": "wall", "stages": {"block": "wall.stl"}}, {"name": "block", "stages": {"block": "block.stl"}}],
    "joints": [{"name": "slide", "type": "slide", "parent": "wall", "child": "block", "along": [1, 0, 0], "range": [0, 2]}],
    "modes": [{"name": "near", "values": {"slide": 0}}, {"name": "far", "values": {"slide": 2}}],
    "sequences": [{"name": "away", "from": "near", "to": "far"}]})";
  writeStl("wall.stl", shapes::box({-10, -10, -10}, {0, 10, 10}));
  writeStl("block.stl", shapes::box({0.42, -5, -5}, {5, 5, 5}));
  for (const double factor : {1.0, 0.5, 1.7}) {
    const auto scaled = scaledDocument(documentFrom(text), factor);
    ASSERT_TRUE(scaled);
    const LoadedAssembly loaded = loadedOf(*scaled);
    const AssemblyGeometry geometry = prepareGeometry(loaded.assembly, 1);
    const PairResult result = checkPair(loaded.assembly, loaded.modes, loaded.sequences[0],
                                        geometry, PartId{0}, PartId{1}, {}, WorkMonitor());
    const double gap = 0.42 * factor;  // At the start; its bracket is 0.01 mm wide.
    EXPECT_LE(result.gap.lowerMm, gap + 1e-6);
    ASSERT_TRUE(result.gap.upperMm);
    EXPECT_GE(*result.gap.upperMm, gap - 1e-6);
    EXPECT_LE(*result.gap.upperMm - result.gap.lowerMm, 0.01 + 1e-9);
    EXPECT_EQ(result.verdict, gap < 0.3 ? Verdict::tight : Verdict::clear)
        << "the required gap of 0.3 mm stays";
  }
}

TEST_F(ScaledMotion, TheFiguresSizeIsMeasuredAsOneWhoFacesItSeesIt) {
  const LoadedAssembly loaded = loadWell(kBoat);  // Every part a box of 10 x 20 x 30.
  Configuration home = loaded.assembly.home();
  const FigureSize size = figureSize(loaded.assembly, home, {0, 0, 1}, {0, -1, 0});
  EXPECT_NEAR(size.widthMm, 10, 1e-9);
  EXPECT_NEAR(size.depthMm, 20, 1e-9);
  EXPECT_NEAR(size.heightMm, 30, 1e-9);
  const FigureSize lying = figureSize(loaded.assembly, home, {0, 3, 0}, {1, 0.2, 0});
  EXPECT_NEAR(lying.widthMm, 30, 1e-9);
  EXPECT_NEAR(lying.depthMm, 10, 1e-9);
  EXPECT_NEAR(lying.heightMm, 20, 1e-9);
}

}  // namespace
}  // namespace swingroom
