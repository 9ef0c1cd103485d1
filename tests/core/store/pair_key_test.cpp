// A kept result must never stand for a check that would give another one. Each row below is one
// edit of an assembly; for every pair and way either the key is another one, or a fresh check gives
// the very result that was kept.
#include "core/store/pair_key.h"

#include <gtest/gtest.h>

#include <set>

#include "core/store/mesh_digests.h"
#include "core/store/pair_record.h"
#include "tests/core/store/small_crane.h"

namespace swingroom {
namespace {

using C = SmallCrane;

/// A crane built, with all its keys; its results are found when asked for.
class Built {
 public:
  explicit Built(const SmallCrane& crane)
      : crane_(crane), assembly_(crane.parts), geometry_(prepareGeometry(assembly_, 1)) {
    for (const Part& part : assembly_.parts())
      digests_.push_back(part.mesh ? digestOf(*part.mesh) : Digest{});
  }

  const std::vector<Sequence>& ways() const { return crane_.ways; }
  std::size_t partCount() const { return assembly_.parts().size(); }
  PairKey key(std::size_t way, std::size_t a, std::size_t b) const {
    return keyOf(
        {&assembly_, &crane_.modes, &crane_.ways[way], &crane_.settings, PartId{a}, PartId{b}},
        digests_);
  }
  PairResult alone(std::size_t way, std::size_t a, std::size_t b) const {
    return checkPairAlone(assembly_, crane_.modes, crane_.ways[way], geometry_, PartId{a},
                          PartId{b}, crane_.settings, monitor_);
  }
  PairResult fresh(std::size_t way, std::size_t a, std::size_t b) const {
    return checkPair(assembly_, crane_.modes, crane_.ways[way], geometry_, PartId{a}, PartId{b},
                     crane_.settings, monitor_);
  }
  PairResult placed(std::size_t way, PairResult result) const {
    placeInWorld(assembly_, crane_.ways[way], result);
    return result;
  }

 private:
  SmallCrane crane_;
  Assembly assembly_;
  AssemblyGeometry geometry_;
  std::vector<Digest> digests_;
  WorkMonitor monitor_;
};

template <typename Visit>
void forEachPair(const Built& crane, const Visit& visit) {
  for (std::size_t w = 0; w < crane.ways().size(); ++w) {
    for (std::size_t a = 0; a < crane.partCount(); ++a) {
      for (std::size_t b = a + 1; b < crane.partCount(); ++b) visit(w, a, b);
    }
  }
}

/// What is kept of the crane as it was.
struct Kept {
  Digest key;
  std::string record;
  PairResult alone;
};
const std::map<std::array<std::size_t, 3>, Kept>& keptOfTheCrane() {
  static const auto all = [] {
    std::map<std::array<std::size_t, 3>, Kept> kept;
    const Built crane(SmallCrane::make());
    forEachPair(crane, [&](auto w, auto a, auto b) {
      const PairKey key = crane.key(w, a, b);
      const PairResult alone = crane.alone(w, a, b);
      kept[{w, a, b}] = {key.digest, toRecord(alone, key.joints), alone};
    });
    return kept;
  }();
  return all;
}

struct Edit {
  const char* what;
  std::function<void(SmallCrane&)> make;
};

std::ostream& operator<<(std::ostream& out, const Edit& edit) {
  return out << edit.what;
}

Contact& contact(SmallCrane& crane, std::size_t rule) {
  return crane.parts.pairRules[rule].contacts[0];
}

/// Of edits that a check reads: some pair's result must differ, or the row shows nothing.
const Edit kRead[] = {
    {"a vertex",
     [](C& c) { c.changeMesh(C::knob, [](auto& mesh) { mesh.vertices[0].z() -= 0.01; }); }},
    {"a vertex of the part with a zone",
     [](C& c) { c.changeMesh(C::pin, [](auto& m) { m.vertices[3] *= 1.01; }); }},
    {"a triangle turned round",
     [](C& c) {
       c.changeMesh(C::stone, [](auto& m) { std::swap(m.triangles[0][0], m.triangles[0][1]); });
     }},
    {"a triangle left out",
     [](C& c) { c.changeMesh(C::foot, [](auto& m) { m.triangles.pop_back(); }); }},
    {"two parts' meshes exchanged",
     [](C& c) { std::swap(c.part(C::foot).mesh, c.part(C::collar).mesh); }},
    {"where the first part is at home",
     [](C& c) { c.part(C::stand).X_WP_home.translation().z() = 0.01; }},
    {"where the second part is at home",
     [](C& c) { c.part(C::stone).X_WP_home.translation().y() = -0.7; }},
    {"how a part is turned at home",
     [](C& c) {
       c.part(C::knob).X_WP_home = rotationAbout({0, 0, 16}, Vector3d::UnitX(), 0.1);
     }},
    {"required gap of all", [](C& c) { c.parts.requiredGapMm = 0.45; }},
    {"required gap of a pair", [](C& c) { c.parts.pairRules[0].requiredGapMm = 0.5; }},
    {"required gap of a pair left to all",
     [](C& c) { c.parts.pairRules[0].requiredGapMm.reset(); }},
    {"pair allowed", [](C& c) { c.parts.pairRules[3].allowReason = "why not"; }},
    {"rule taken away", [](C& c) { c.parts.pairRules.erase(c.parts.pairRules.begin() + 1); }},
    {"resolution", [](C& c) { c.settings.resolutionMm = 0.1; }},
    {"budget", [](C& c) { c.settings.budget = 3; }},
    {"depths left out", [](C& c) { c.settings.depths = false; }},
    {"joint's type", [](C& c) { c.joint(C::swing).type = JointType::slide; }},
    {"joint made fixed", [](C& c) { c.joint(C::lift).type = JointType::fixed; }},
    {"fixed joint made a hinge", [](C& c) { c.joint(C::glue).type = JointType::hinge; }},
    {"joint's point", [](C& c) { c.joint(C::nod).through.x() = 0.5; }},
    {"joint's axis", [](C& c) { c.joint(C::lower).along = Vector3d(0.2, 0, -1).normalized(); }},
    {"joint's direction", [](C& c) { c.joint(C::swing).along *= -1; }},
    {"point of a slide with a zone",
     [](C& c) {
       c.joint(C::lift).zones = {{8, -2, 8}};
       c.joint(C::lift).through.x() = 3;
     }},
    {"zone's radius", [](C& c) { c.joint(C::swing).zones[0].radiusMm = 2.1; }},
    {"zone's beginning", [](C& c) { c.joint(C::swing).zones[0].fromMm = 6; }},
    {"zone's end", [](C& c) { c.joint(C::swing).zones[0].toMm = 12; }},
    {"second zone",
     [](C& c) {
       c.joint(C::swing).zones.push_back({2.6, 10, 12});
     }},
    {"zone taken away", [](C& c) { c.joint(C::swing).zones.clear(); }},
    {"zone of a ball",
     [](C& c) {
       c.joint(C::nod).zones = {{1.5, 0, 0}};
     }},
    {"fit", [](C& c) { c.joint(C::swing).fitMm = 0.6; }},
    {"fit taken away", [](C& c) { c.joint(C::swing).fitMm.reset(); }},
    {"fit of a fixed joint", [](C& c) { c.joint(C::glue).fitMm = -0.6; }},
    {"parent of a joint", [](C& c) { c.joint(C::nod).parent = PartId{C::eye}; }},
    {"parent left to the ground", [](C& c) { c.joint(C::lift).parent.reset(); }},
    {"root joint's value: pairs with what stands",
     [](C& c) {
       c.setValue(1, C::turn, {0.7, 0, 0});
     }},
    {"value in the first mode",
     [](C& c) {
       c.setValue(0, C::swing, {0.2, 0, 0});
     }},
    {"value in the last mode",
     [](C& c) {
       c.setValue(2, C::hold, {4, 0, 0});
     }},
    {"value of a ball",
     [](C& c) {
       c.setValue(1, C::nod, {0.3, 0.2, 0.4});
     }},
    {"value of a mode that no way is in",
     [](C& c) {
       c.modes.push_back(c.modes[0]);
       c.modes[3].configuration.values[C::lower].x() = 1.5;
     }},
    {"mode added", [](C& c) { c.modes.push_back(c.modes[1]); }},
    {"modes exchanged", [](C& c) { std::swap(c.modes[0], c.modes[2]); }},
    {"mount in a mode", [](C& c) { c.modes[1].configuration.mounts[C::foot] = 1; }},
    {"value in the middle of a way",
     [](C& c) {
       for (auto* at : {&c.ways[0].steps[0].end, &c.ways[0].steps[1].start})
         at->values[C::lower].x() = 1;
     }},
    {"where a replug ends", [](C& c) { c.ways[1].steps[0].end.values[C::hold].x() = -3; }},
    {"free made together", [](C& c) { c.ways[0].steps[1].order = StepOrder::together; }},
    {"together made free", [](C& c) { c.ways[0].steps[2].order = StepOrder::free; }},
    {"replug made together",
     [](C& c) {
       c.ways[1].steps[0].order = StepOrder::together;
       c.ways[1].steps[0].end.mounts[C::foot] = 0;
     }},
    {"step added",
     [](C& c) {
       const Configuration& end = c.ways[0].steps[2].end;
       c.ways[0].steps.push_back({"stay", StepOrder::together, end, end});
     }},
    {"step taken away", [](C& c) { c.ways[0].steps.pop_back(); }},
    {"step renamed that a contact names", [](C& c) { c.ways[0].steps[1].name = "some order"; }},
    {"other step gets the contact's name", [](C& c) { c.ways[0].steps[2].name = "any order"; }},
    {"way from another mode", [](C& c) { c.ways[1].from = ModeId{2}; }},
    {"way to another mode", [](C& c) { c.ways[0].to = ModeId{2}; }},
    {"mode renamed in which a contact is loose", [](C& c) { c.modes[1].name = "up"; }},
    {"contact's kind", [](C& c) { contact(c, 0).kind = ContactKind::grip; }},
    {"contact's modes", [](C& c) { contact(c, 1).modes = {ModeId{1}}; }},
    {"contact's steps", [](C& c) { contact(c, 1).steps = {"turn"}; }},
    {"contact's overlap at most", [](C& c) { contact(c, 2).overlapMm->max = 0.3; }},
    {"contact's overlap at least", [](C& c) { contact(c, 2).overlapMm->min = 0.3; }},
    {"contact's gap",
     [](C& c) {
       contact(c, 0).gapMm = Span{0, 9};
     }},
    {"contact's gap taken away", [](C& c) { contact(c, 0).gapMm.reset(); }},
    {"contact's place", [](C& c) { contact(c, 0).place->at.x() = 16; }},
    {"contact's place's size", [](C& c) { contact(c, 0).place->radiusMm = 2; }},
    {"contact's place taken away", [](C& c) { contact(c, 0).place.reset(); }},
    {"where the parts stand in the world when a contact has a place",
     [](C& c) {
       c.joint(C::turn).through = {9, 3, 0};
     }},
    {"contact taken away", [](C& c) { c.parts.pairRules[0].contacts.clear(); }},
    {"second contact",
     [](C& c) {
       c.parts.pairRules[0].contacts.push_back(contact(c, 1));
       contact(c, 0).modes = {ModeId{2}};
     }},
};

class ReadByTheCheck : public testing::TestWithParam<Edit> {};
INSTANTIATE_TEST_SUITE_P(PairKey, ReadByTheCheck, testing::ValuesIn(kRead));

TEST_P(ReadByTheCheck, GivesAnotherKeyWhereTheResultIsAnother) {
  SmallCrane crane = SmallCrane::make();
  GetParam().make(crane);
  const Built edited(crane);
  bool differs = false;
  forEachPair(edited, [&](auto w, auto a, auto b) {
    const Kept& kept = keptOfTheCrane().at({w, a, b});
    const PairKey key = edited.key(w, a, b);
    if (key.digest != kept.key) {
      differs = differs || edited.alone(w, a, b) != kept.alone;
      return;
    }
    const auto found = fromRecord(kept.record, PartId{a}, PartId{b}, key.joints);
    ASSERT_TRUE(found.has_value());
    EXPECT_EQ(edited.placed(w, *found), edited.fresh(w, a, b))
        << "way " << w << ", parts " << a << " and " << b;
  });
  EXPECT_TRUE(differs) << "the row shows nothing";
}

const Edit kNotRead[] = {
    {"assembly's name", [](C& c) { c.parts.name = "crane"; }},
    {"part's name", [](C& c) { c.part(C::pin).name = "bolt"; }},
    {"part's kind", [](C& c) { c.part(C::pin).kind = PartKind::bought; }},
    {"mesh read again", [](C& c) { c.changeMesh(C::pin, [](auto&) {}); }},
    {"joint's name", [](C& c) { c.joint(C::lift).name = "up"; }},
    {"joint's range",
     [](C& c) {
       c.joint(C::lift).range = {0, 5, 1};
     }},
    {"joint's clicks",
     [](C& c) {
       c.joint(C::lift).clicks = {0, 3};
     }},
    {"joint that follows with the same values",
     [](C& c) {
       c.joint(C::lift).follows = JointFollow{JointId{C::lower}, 1.5, 0};
     }},
    {"name of a way", [](C& c) { c.ways[0].name = "up"; }},
    {"name of a step that no contact names", [](C& c) { c.ways[0].steps[0].name = "down"; }},
    {"reason of a contact", [](C& c) { contact(c, 0).reason = "it stands on it"; }},
    {"contact of another way's step",
     [](C& c) {
       c.parts.pairRules[3].contacts.push_back({});
       c.parts.pairRules[3].contacts[0].steps = {"of no way"};
     }},
    {"required gap said where it holds anyway",
     [](C& c) { c.parts.pairRules[3].requiredGapMm = c.parts.requiredGapMm; }},
    {"resolution in the file, not in the settings", [](C& c) { c.parts.resolutionMm = 0.5; }},
    {"number of threads", [](C& c) { c.settings.threads = 8; }},
};

class NotReadByTheCheck : public testing::TestWithParam<Edit> {};
INSTANTIATE_TEST_SUITE_P(PairKey, NotReadByTheCheck, testing::ValuesIn(kNotRead));

TEST_P(NotReadByTheCheck, KeepsTheKey) {
  SmallCrane crane = SmallCrane::make();
  GetParam().make(crane);
  const Built edited(crane);
  forEachPair(edited, [&](auto w, auto a, auto b) {
    const Kept& kept = keptOfTheCrane().at({w, a, b});
    EXPECT_EQ(edited.key(w, a, b).digest, kept.key)
        << "way " << w << ", parts " << a << " and " << b;
  });
}

TEST(PairKey, PairsAndWaysOfTheCraneHaveKeysOfTheirOwn) {
  std::set<Digest> keys;
  for (const auto& [where, kept] : keptOfTheCrane()) keys.insert(kept.key);
  EXPECT_EQ(keys.size(), keptOfTheCrane().size());
}

/// Pairs whose key `edit` changes, as "a-b" of parts' numbers.
std::set<std::pair<std::size_t, std::size_t>> touchedBy(
    const std::function<void(SmallCrane&)>& edit) {
  SmallCrane crane = SmallCrane::make();
  edit(crane);
  const Built edited(crane);
  std::set<std::pair<std::size_t, std::size_t>> touched;
  forEachPair(edited, [&](auto w, auto a, auto b) {
    if (edited.key(w, a, b).digest != keptOfTheCrane().at({w, a, b}).key) touched.insert({a, b});
  });
  return touched;
}

TEST(PairKey, PartTouchesItsOwnPairsOnly) {
  const auto touched = touchedBy(
      [](C& c) { c.changeMesh(C::knob, [](auto& mesh) { mesh.vertices[0].x() -= 0.1; }); });
  EXPECT_EQ(touched.size(), 6u);
  for (const auto& [a, b] : touched) EXPECT_TRUE(a == C::knob || b == C::knob);
}

TEST(PairKey, JointTouchesThePairsThatItMovesAgainstEachOther) {
  const auto touched = touchedBy([](C& c) { c.setValue(1, C::nod, {0.3, 0.2, 0.4}); });
  EXPECT_EQ(touched.size(), 6u) << "the knob hangs on it, and nothing on the knob";
  for (const auto& [a, b] : touched) EXPECT_TRUE(a == C::knob || b == C::knob);
}

TEST(PairKey, RootJointTouchesThePairsWithWhatStandsAndThoseWhoseContactHasAPlace) {
  const auto touched = touchedBy([](C& c) { c.setValue(1, C::turn, {0.7, 0, 0}); });
  const std::set<std::pair<std::size_t, std::size_t>> expected = {
      {C::stand, C::stone}, {C::eye, C::stone},    {C::pin, C::stone}, {C::knob, C::stone},
      {C::foot, C::stone},  {C::collar, C::stone}, {C::stand, C::foot}};
  EXPECT_EQ(touched, expected);
}

}  // namespace
}  // namespace swingroom
