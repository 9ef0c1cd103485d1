#include "core/store/kept_check.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/core/store/small_crane.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

std::vector<SequenceResult> freshOf(const SmallCrane& crane) {
  const Assembly assembly(crane.parts);
  std::vector<SequenceResult> results;
  WorkMonitor monitor;
  for (const Sequence& way : crane.ways) {
    results.push_back(
        sweep(assembly, crane.modes, way, prepareGeometry(assembly, 1), crane.settings, monitor));
  }
  return results;
}

std::vector<SequenceResult> keptOf(const SmallCrane& crane, ResultStore* store) {
  WorkMonitor monitor;
  return sweepKept(Assembly(crane.parts), crane.modes, crane.ways, crane.settings, store, monitor);
}

/// Pairs of ways that are not in the store yet.
std::size_t missingIn(ResultStore& store, const SmallCrane& crane) {
  const Assembly assembly(crane.parts);
  const KeptCheck kept(assembly, crane.modes, crane.settings, &store);
  std::size_t missing = 0;
  for (const Sequence& way : crane.ways) {
    for (std::size_t a = 0; a < crane.parts.parts.size(); ++a) {
      for (std::size_t b = a + 1; b < crane.parts.parts.size(); ++b)
        missing += !kept.find(way, PartId{a}, PartId{b});
    }
  }
  return missing;
}

TEST(KeptCheck, GivesWhatTheCheckGivesWithoutAStoreColdAndWarm) {
  const SmallCrane crane = SmallCrane::make();
  const auto fresh = freshOf(crane);
  EXPECT_EQ(keptOf(crane, nullptr), fresh);
  ResultStore store;
  EXPECT_EQ(keptOf(crane, &store), fresh);
  EXPECT_EQ(missingIn(store, crane), 0u);
  EXPECT_EQ(keptOf(crane, &store), fresh);
}

TEST(KeptCheck, OneThreadAndFourGiveTheSame) {
  SmallCrane crane = SmallCrane::make();
  const auto fresh = freshOf(crane);
  crane.settings.threads = 4;
  ResultStore store;
  EXPECT_EQ(keptOf(crane, &store), fresh);
  EXPECT_EQ(keptOf(crane, &store), fresh);
}

TEST(KeptCheck, NextRunTakesItFromTheFolder) {
  const TempFolder temp;
  const SmallCrane crane = SmallCrane::make();
  const auto fresh = freshOf(crane);
  {
    ResultStore store(temp.path());
    EXPECT_EQ(keptOf(crane, &store), fresh);
  }
  ResultStore store(temp.path());
  EXPECT_EQ(missingIn(store, crane), 0u);
  EXPECT_EQ(keptOf(crane, &store), fresh);
}

TEST(KeptCheck, OnlyWhatAnEditTouchesIsMissing) {
  SmallCrane crane = SmallCrane::make();
  ResultStore store;
  keptOf(crane, &store);
  crane.changeMesh(SmallCrane::knob, [](TriangleMesh& mesh) { mesh.vertices[0].x() -= 0.1; });
  EXPECT_EQ(missingIn(store, crane), 2 * 6u) << "the knob with six others, in two ways";
  EXPECT_EQ(keptOf(crane, &store), freshOf(crane));
  EXPECT_EQ(missingIn(store, crane), 0u);
}

// A part and its joint put before all others: every id is one more.
TEST(KeptCheck, RenumberedFileGetsItsOwnIds) {
  SmallCrane crane = SmallCrane::make();
  ResultStore store;
  keptOf(crane, &store);
  const auto shift = [](PartId& id) { ++id.index; };
  const Part post{"post", PartKind::printed,
                  std::make_shared<const TriangleMesh>(shapes::box({90, 90, 0}, {95, 95, 5})),
                  Pose::Identity()};
  Joint slide;
  slide.name = "slide of the post";
  slide.type = JointType::slide;
  crane.parts.parts.insert(crane.parts.parts.begin(), post);
  for (Joint& joint : crane.parts.joints) {
    shift(joint.child);
    if (joint.parent) shift(*joint.parent);
  }
  crane.parts.joints.insert(crane.parts.joints.begin(), slide);
  for (PairRule& rule : crane.parts.pairRules) shift(rule.a), shift(rule.b);
  const auto widen = [](Configuration& configuration) {
    configuration.values.insert(configuration.values.begin(), JointValue::Zero());
    configuration.mounts.insert(configuration.mounts.begin(), 0);
  };
  for (Mode& mode : crane.modes) widen(mode.configuration);
  for (Sequence& way : crane.ways) {
    for (Step& step : way.steps) widen(step.start), widen(step.end);
  }
  EXPECT_EQ(missingIn(store, crane), 2 * 7u) << "the post with all others";
  const auto fresh = freshOf(crane);
  EXPECT_EQ(keptOf(crane, &store), fresh);
  const auto& pairs = fresh[0].pairs;
  const auto named =
      std::find_if(pairs.begin(), pairs.end(), [](const PairResult& pair) { return pair.joint; });
  ASSERT_NE(named, pairs.end()) << "a result that names a joint, or the test shows nothing";
  EXPECT_EQ(named->joint->joint, JointId{SmallCrane::swing + 1});
}

TEST(KeptCheck, CancelledCheckIsNotKept) {
  const SmallCrane crane = SmallCrane::make();
  ResultStore store;
  const Assembly assembly(crane.parts);
  WorkMonitor monitor;
  monitor.cancel();
  const KeptCheck kept(assembly, crane.modes, crane.settings, &store);
  kept.check(crane.ways[0], PartId{0}, PartId{1}, prepareGeometry(assembly, 1), monitor);
  const std::size_t all = 2 * 21;
  EXPECT_EQ(missingIn(store, crane), all);
  sweepKept(assembly, crane.modes, crane.ways, crane.settings, &store, monitor);
  EXPECT_EQ(missingIn(store, crane), all);
}

TEST(KeptCheck, PartWithoutAMeshIsInNoPair) {
  SmallCrane crane = SmallCrane::make();
  crane.part(SmallCrane::stone).mesh = nullptr;
  crane.part(SmallCrane::knob).mesh = std::make_shared<const TriangleMesh>();
  ResultStore store;
  EXPECT_EQ(keptOf(crane, &store), freshOf(crane));
  EXPECT_EQ(keptOf(crane, &store)[0].pairs.size(), 5u * 4 / 2);
}

}  // namespace
}  // namespace swingroom
