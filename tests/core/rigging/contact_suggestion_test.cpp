#include "core/rigging/contact_suggestion.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "core/files/loading/load_assembly.h"
#include "core/sweep/sweep.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

/// A bar that a slide takes along x past or into a block.
struct SlidingBar {
  Assembly assembly;
  std::vector<Mode> modes;
  std::vector<Sequence> ways;
  AssemblyGeometry geometry;

  SlidingBar(const TriangleMesh& body, const TriangleMesh& bar, double wayMm)
      : assembly(partsOf(body, bar)), geometry(prepareGeometry(assembly, 1)) {
    Configuration from = assembly.home(), to = from;
    to.values[0].x() = wayMm;
    modes = {{"in", from}, {"out", to}};
    ways = {{"pull", ModeId{0}, ModeId{1}, {{"pull out", StepOrder::together, from, to}}}};
  }

  std::vector<SuggestedContact> suggested() const {
    return suggestContacts(assembly, modes, ways, checked(assembly), geometry, 2);
  }

  std::vector<SequenceResult> checked(const Assembly& of) const {
    WorkMonitor monitor;
    return {sweep(of, modes, ways[0], geometry, {}, monitor)};
  }

  /// The verdict once what was suggested is taken.
  Verdict verdictWith(const std::vector<SuggestedContact>& contacts) const {
    AssemblyParts parts;
    parts.parts = assembly.parts();
    parts.joints = assembly.joints();
    parts.pairRules = {{PartId{0}, PartId{1}, std::nullopt, {}, std::nullopt}};
    for (const SuggestedContact& it : contacts) {
      parts.pairRules[0].contacts.push_back(it.contact);
    }
    return checked(Assembly(parts))[0].pairs.at(0).verdict;
  }

 private:
  static AssemblyParts partsOf(const TriangleMesh& body, const TriangleMesh& bar) {
    AssemblyParts parts;
    parts.parts = {{"body", PartKind::printed, std::make_shared<const TriangleMesh>(body), {}},
                   {"bar", PartKind::printed, std::make_shared<const TriangleMesh>(bar), {}}};
    for (Part& part : parts.parts) part.X_WP_home = Pose::Identity();
    Joint slide;
    slide.name = "slide";
    slide.type = JointType::slide;
    slide.parent = PartId{0};
    slide.child = PartId{1};
    slide.along = Vector3d::UnitX();
    parts.joints = {slide};
    return parts;
  }
};

const TriangleMesh kBlock = shapes::box({0, 0, 0}, {10, 10, 10});

// Closed form: boxes that overlap by 0.1 mm along z.
TEST(SuggestedContacts, OverlapInAModeIsAGrip) {
  const SlidingBar bar(kBlock, shapes::box({2, 2, 9.9}, {8, 8, 14}), 20);
  const auto found = bar.suggested();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].contact.kind, ContactKind::grip);
  EXPECT_EQ(found[0].contact.modes, std::vector{ModeId{0}});
  ASSERT_TRUE(found[0].contact.overlapMm);
  EXPECT_NEAR(found[0].contact.overlapMm->min, 0.05, 1e-9);
  EXPECT_NEAR(found[0].contact.overlapMm->max, 0.2, 0.05 + 1e-9);
  EXPECT_NE(found[0].reason.find("overlap 0.10 mm in in"), std::string::npos) << found[0].reason;
  EXPECT_EQ(bar.verdictWith(found), Verdict::clear);
}

TEST(SuggestedContacts, FacesThatMeetInAModeAreARest) {
  // The bar's end stops 0.05 mm short of a wall, and keeps 0.4 mm from the floor.
  const TriangleMesh body = shapes::joined({kBlock, shapes::box({-3, 0, 0}, {0, 10, 20})});
  const SlidingBar bar(body, shapes::box({0.05, 2, 10.4}, {8, 8, 14}), 20);
  const auto found = bar.suggested();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].contact.kind, ContactKind::rest);
  EXPECT_EQ(found[0].contact.modes, std::vector{ModeId{0}});
  ASSERT_TRUE(found[0].contact.gapMm);
  EXPECT_GE(found[0].contact.gapMm->max, 0.05);
  EXPECT_LE(found[0].contact.gapMm->max, 0.15 + 1e-9);
  EXPECT_EQ(bar.verdictWith(found), Verdict::clear);
}

TEST(SuggestedContacts, OverlapOnlyWhilePassingIsASnap) {
  // A tooth that stands 0.2 mm into the bar's way.
  const TriangleMesh body =
      shapes::joined({shapes::box({0, 0, 0}, {40, 10, 9}), shapes::box({19, 4, 8}, {20, 6, 10.2})});
  const SlidingBar bar(body, shapes::box({2, 2, 10}, {8, 8, 14}), 26);
  const auto found = bar.suggested();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].contact.kind, ContactKind::snap);
  EXPECT_EQ(found[0].contact.steps, std::vector<std::string>{"pull out"});
  ASSERT_TRUE(found[0].contact.overlapMm);
  EXPECT_GE(found[0].contact.overlapMm->max, 0.2);
  EXPECT_LE(found[0].contact.overlapMm->max, 0.3 + 1e-9);
  EXPECT_EQ(bar.verdictWith(found), Verdict::clear);
}

TEST(SuggestedContacts, FaultsStayFaults) {
  // 1 mm deep, in a mode; 1 mm deep while passing; near, but only at an edge.
  EXPECT_TRUE(SlidingBar(kBlock, shapes::box({2, 2, 9}, {8, 8, 14}), 20).suggested().empty());
  const TriangleMesh body =
      shapes::joined({shapes::box({0, 0, 0}, {40, 10, 9}), shapes::box({19, 4, 8}, {20, 6, 11})});
  EXPECT_TRUE(SlidingBar(body, shapes::box({2, 2, 10}, {8, 8, 14}), 26).suggested().empty());
  const TriangleMesh onEdge = shapes::moved(
      shapes::box({0, 0, 0}, {6, 6, 6}),
      translation({2, 5, 10.1}) * rotationAbout(kOrigin, Vector3d::UnitX(), radFromDeg(45)));
  EXPECT_TRUE(SlidingBar(kBlock, onEdge, 20).suggested().empty());
}

TEST(SuggestedContacts, WhatAContactCoversIsNotSuggestedAgain) {
  const SlidingBar bar(kBlock, shapes::box({2, 2, 9.9}, {8, 8, 14}), 20);
  auto contacts = bar.suggested();
  AssemblyParts parts;
  parts.parts = bar.assembly.parts();
  parts.joints = bar.assembly.joints();
  contacts[0].contact.overlapMm = Span{0, 0.05};  // Too little: still found, but covered.
  parts.pairRules = {{PartId{0}, PartId{1}, std::nullopt, {contacts[0].contact}, std::nullopt}};
  const Assembly with(parts);
  EXPECT_TRUE(
      suggestContacts(with, bar.modes, bar.ways, bar.checked(with), bar.geometry, 1).empty());
}

// The tug without its contacts, checked where its file has some: what is suggested is of the kinds
// that its maker wrote, in the modes that he wrote, and with it the pairs are clear.
TEST(SuggestedContacts, OfTheTugAreThoseOfItsFile) {
  const auto file = std::filesystem::path(SWINGROOM_SOURCE) /
                    "sample_assemblies/harbour_tug/harbour_tug.swing.json";
  const auto loaded = loadAssembly(file, MeshReader::besideThisProgram(), 4);
  ASSERT_TRUE(loaded);
  const std::vector<PairRule> rules = loaded->assembly.pairRules();
  AssemblyParts parts;
  parts.parts = loaded->assembly.parts();
  parts.joints = loaded->assembly.joints();
  const Assembly bare(parts);
  const AssemblyGeometry geometry = prepareGeometry(bare, 4);
  const auto check = [&](const Assembly& assembly) {
    std::vector<SequenceResult> results;
    WorkMonitor monitor;
    for (const Sequence& way : loaded->sequences) {
      results.push_back({way.name, way.from, way.to, {}});
      for (const PairRule& rule : rules) {
        results.back().pairs.push_back(
            checkPair(assembly, loaded->modes, way, geometry, rule.a, rule.b, {}, monitor));
      }
    }
    return results;
  };
  const auto found =
      suggestContacts(bare, loaded->modes, loaded->sequences, check(bare), geometry, 4);
  parts.pairRules = {};
  for (const PairRule& rule : rules) {
    PairRule suggested{rule.a, rule.b, rule.requiredGapMm, {}, std::nullopt};
    for (const SuggestedContact& it : found) {
      if (it.a == rule.a && it.b == rule.b) suggested.contacts.push_back(it.contact);
    }
    SCOPED_TRACE(bare.part(rule.a).name + " and " + bare.part(rule.b).name);
    for (const Contact& wanted : rule.contacts) {
      if (wanted.modes.empty()) continue;  // A snap beside a grip is not needed.
      const bool told = std::any_of(
          suggested.contacts.begin(), suggested.contacts.end(), [&](const Contact& contact) {
            return contact.kind == wanted.kind && contact.modes == wanted.modes;
          });
      EXPECT_TRUE(told) << wordFor(wanted.kind);
    }
    parts.pairRules.push_back(std::move(suggested));
  }
  for (const SequenceResult& way : check(Assembly(parts))) {
    for (const PairResult& pair : way.pairs) {
      EXPECT_EQ(pair.verdict, Verdict::clear)
          << bare.part(pair.a).name << " and " << bare.part(pair.b).name << " in " << way.name;
    }
  }
}

}  // namespace
}  // namespace swingroom
