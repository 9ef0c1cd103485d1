#include <cmath>
#include <sstream>

#include "core/motion/screw.h"
#include "tests/core/files/load_fixture.h"

namespace swingroom {
namespace {

/// A hull, and a lid of 10 by 20 by 30 mm in one corner of which the frame's origin lies.
class PlacedModes : public LoadFixture {
 protected:
  /// @param joints Members of the file's joint list.
  /// @param modes The same of the modes; a mode "shut" at home comes first.
  static std::string file(const std::string& joints, const std::string& modes,
                          const std::string& rest = "") {
    return R"({"swingroom": 1, "parts": [
      {"name": "hull", "stages": {"block": "hull.stl"}, "placement": {"at": [0, -50, 0]}},
      {"name": "lid", "stages": {"block": "arm.stl"}},
      {"name": "knob", "stages": {"block": "hand.stl"}}],
      "joints": [)" +
           joints + R"(], "modes": [{"name": "shut", "placements": {"lid": {}, "knob": {}}}, )" +
           modes + "]" + rest + "}";
  }
  static constexpr const char* kHinge =
      R"({"name": "hinge", "type": "hinge", "child": "lid", "through": [10, 0, 0], "along": [0, 0, 1], "range": [0, 270]})";
  static constexpr const char* kKnob =
      R"({"name": "stem", "type": "slide", "parent": "lid", "child": "knob", "along": [0, 0, 1]})";

  static std::string both() { return std::string(kHinge) + ", " + kKnob; }
  static double degrees(const LoadedAssembly& loaded, std::size_t mode, const char* joint) {
    return degFromRad(mm(loaded, mode, joint));
  }
  static double mm(const LoadedAssembly& loaded, std::size_t mode, const char* joint) {
    const JointId id = loaded.assembly.findJoint(joint).value();
    return loaded.modes.at(mode).configuration.values[id.index].x();
  }
  /// A quaternion about z in file form.
  static std::string turnZ(double angleDeg) {
    std::ostringstream text;
    text << std::setprecision(17) << "[" << std::cos(radFromDeg(angleDeg) / 2) << ", 0, 0, "
         << std::sin(radFromDeg(angleDeg) / 2) << "]";
    return text.str();
  }
};

// check_values 1.3, K-I4 (K): a hinge at (10, 0, 0) about z by 90 degrees takes the origin to (10,
// -10, 0).
TEST_F(PlacedModes, AHingeIsTurnedAsThePlacementWants) {
  const LoadedAssembly loaded = loadWell(file(
      both(), R"({"name": "open", "placements": {"lid": {"at": [10, -10, 0], "turn": [1, 0, 0, 1]},
                                               "knob": {"at": [10, -10, 4], "turn": [1, 0, 0, 1]}}})"));
  EXPECT_NEAR(degrees(loaded, 0, "hinge"), 0, 1e-9);
  EXPECT_NEAR(degrees(loaded, 1, "hinge"), 90, 1e-6);
  EXPECT_NEAR(mm(loaded, 1, "stem"), 4, 1e-6);
  EXPECT_EQ(textOf(loaded.notes).find("/placements/"), std::string::npos) << textOf(loaded.notes);
}

TEST_F(PlacedModes, AnAngleIsBroughtIntoTheRange) {
  // -90 degrees about (10, 0, 0) takes the origin to (10, 10, 0); the range allows 270.
  const LoadedAssembly loaded = loadWell(file(
      both(),
      R"({"name": "open", "placements": {"lid": {"at": [10, 10, 0], "turn": [1, 0, 0, -1]}}})"));
  EXPECT_NEAR(degrees(loaded, 1, "hinge"), 270, 1e-6);
}

TEST_F(PlacedModes, PartsThatAreNotPlacedHaveTheirJointsAtZeroWithANote) {
  const LoadedAssembly loaded = loadWell(file(
      both(),
      R"({"name": "open", "placements": {"lid": {"at": [10, -10, 0], "turn": [1, 0, 0, 1]}}})"));
  EXPECT_EQ(mm(loaded, 1, "stem"), 0);
  EXPECT_NE(
      textOf(loaded.notes).find("#/modes/1: the joints of parts not placed are at 0: \"knob\""),
      std::string::npos);
}

TEST_F(PlacedModes, WhatAJointCannotReachIsToldWithItsSize) {
  // 3 mm along a hinge's axis cannot be met: the whole part stays 3 mm away.
  const Outcome<LoadedAssembly> loaded = load(file(
      both(),
      R"({"name": "open", "placements": {"lid": {"at": [10, -10, 3], "turn": [1, 0, 0, 1]}}})"));
  ASSERT_EQ(loaded.problems().size(), 1u) << textOf(loaded.problems());
  EXPECT_EQ(loaded.problems()[0].where, LoadFixture::file().string() + "#/modes/1/placements/lid");
  EXPECT_NE(loaded.problems()[0].what.find("\"hinge\": the part stays 3 mm and 0° away"),
            std::string::npos)
      << loaded.problems()[0].what;
}

TEST_F(PlacedModes, AMisfitOfHundredthsIsNotedWithItsSize) {
  const LoadedAssembly loaded = loadWell(file(
      both(),
      R"({"name": "open", "placements": {"lid": {"at": [10, -10, 0.02], "turn": [1, 0, 0, 1]}}})"));
  EXPECT_NE(textOf(loaded.notes).find("#/modes/1/placements/lid: is met to within 0.02 mm and 0°"),
            std::string::npos)
      << textOf(loaded.notes);
}

TEST_F(PlacedModes, AChildIsNotBlamedForWhatItsParentMisses) {
  const Outcome<LoadedAssembly> loaded = load(file(
      both(), R"({"name": "open", "placements": {"lid": {"at": [10, -10, 3], "turn": [1, 0, 0, 1]},
                                                    "knob": {"at": [10, -10, 5], "turn": [1, 0, 0, 1]}}})"));
  EXPECT_EQ(loaded.problems().size(), 1u) << textOf(loaded.problems());
}

TEST_F(PlacedModes, AValueOutsideTheRangeIsTold) {
  const Outcome<LoadedAssembly> loaded = load(file(
      std::string(kHinge) +
          R"(, {"name": "stem", "type": "slide", "parent": "lid", "child": "knob", "along": [0, 0, 1], "range": [0, 3]})",
      R"({"name": "open", "placements": {"knob": {"at": [0, 0, 4]}}})"));
  ASSERT_EQ(loaded.problems().size(), 1u) << textOf(loaded.problems());
  EXPECT_NE(loaded.problems()[0].what.find("is 4 mm, outside the range of \"stem\", 0 mm to 3 mm"),
            std::string::npos);
}

TEST_F(PlacedModes, ATurnOfZeroLengthIsTold) {
  const Outcome<LoadedAssembly> loaded =
      load(file(both(), R"({"name": "open", "placements": {"lid": {"turn": [0, 0, 0, 0]}}})"));
  ASSERT_EQ(loaded.problems().size(), 1u) << textOf(loaded.problems());
  EXPECT_EQ(loaded.problems()[0].where,
            LoadFixture::file().string() + "#/modes/1/placements/lid/turn");
}

TEST_F(PlacedModes, AnUnknownPartIsToldOnce) {
  const Outcome<LoadedAssembly> loaded =
      load(file(both(), R"({"name": "open", "placements": {"lit": {}}})"));
  ASSERT_EQ(loaded.problems().size(), 1u) << textOf(loaded.problems());
  EXPECT_NE(toText(loaded.problems()[0]).find("did you mean \"lid\"?"), std::string::npos);
}

// check_values 1.2, K-S2 (M): from Rz(30), (1, 2, 0) to Rz(60), (2, 1, 0) is 30 degrees about z
// through 3.3660254038 (1, 1).
TEST_F(PlacedModes, APartWithoutAJointGetsTheHingeOfItsScrew) {
  const std::string text =
      R"({"swingroom": 1, "parts": [{"name": "lid", "stages": {"block": "arm.stl"},
      "placement": {"at": [1, 2, 0], "turn": )" +
      turnZ(30) + R"(}}],
    "modes": [{"name": "shut", "values": {}},
              {"name": "open", "placements": {"lid": {"at": [2, 1, 0], "turn": )" +
      turnZ(60) + R"(}}}],
    "sequences": [{"name": "opening", "from": "shut", "to": "open", "steps": [{"moves": {"lid turn": 30}}]}]})";
  const LoadedAssembly loaded = loadWell(text);
  ASSERT_EQ(loaded.assembly.joints().size(), 1u);
  const Joint& turn = loaded.assembly.joints()[0];
  EXPECT_EQ(turn.name, "lid turn");
  EXPECT_EQ(turn.type, JointType::hinge);
  EXPECT_LT((turn.through - Vector3d(3.3660254038, 3.3660254038, 0)).norm(), 1e-9);
  EXPECT_NEAR(degrees(loaded, 1, "lid turn"), 30, 1e-6);
  const std::string notes = textOf(loaded.notes);
  EXPECT_NE(notes.find("turns about [0, 0, 1] through [3.366, 3.366, 0], as \"lid turn\""),
            std::string::npos)
      << notes;
}

TEST_F(PlacedModes, OtherModesAreFittedToTheAxisOfTheFirst) {
  const std::string shut = file("", R"({"name": "half", "placements": {"lid": {"at": [0, 0, 7]}}},
                                       {"name": "open", "placements": {"lid": {"at": [0, 0, 12]}}})");
  const LoadedAssembly loaded = loadWell(shut);
  EXPECT_NEAR(mm(loaded, 1, "lid travel"), 7, 1e-6);
  EXPECT_NEAR(mm(loaded, 2, "lid travel"), 12, 1e-6);
  const Outcome<LoadedAssembly> askew =
      load(file("", R"({"name": "half", "placements": {"lid": {"at": [0, 0, 7]}}},
                                                        {"name": "open", "placements": {"lid": {"at": [0, 2, 7]}}})"));
  ASSERT_EQ(askew.problems().size(), 1u) << textOf(askew.problems());
  EXPECT_NE(askew.problems()[0].what.find("the part stays 2 mm and 0° away"), std::string::npos)
      << askew.problems()[0].what;
}

TEST_F(PlacedModes, ImpliedJointsDoNotTakeNamesThatAreTaken) {
  const std::string taken =
      R"({"name": "lid travel", "type": "slide", "child": "knob", "along": [1, 0, 0]})";
  const LoadedAssembly loaded =
      loadWell(file(taken, R"({"name": "up", "placements": {"lid": {"at": [0, 0, 7]}}})"));
  EXPECT_TRUE(loaded.assembly.findJoint("lid travel 2").has_value());
}

TEST_F(PlacedModes, StepsMayRoundAsMuchAsTheFitDoes) {
  const std::string open = R"({"name": "open", "placements": {"lid": {"at": [0, 0, 7.003]}}})";
  const auto sequence = [](const char* value) {
    return R"(, "sequences": [{"name": "s", "from": "shut", "to": "open", "steps": [{"moves": {"lid travel": )" +
           std::string(value) + "}}]}]";
  };
  const LoadedAssembly loaded = loadWell(file("", open, sequence("7")));
  EXPECT_EQ(loaded.sequences[0].steps[0].end, loaded.modes[1].configuration);
  EXPECT_FALSE(load(file("", open, sequence("6.9"))).ok());
}

TEST_F(PlacedModes, FollowersKeepToTheirLeaders) {
  const std::string joints =
      std::string(kHinge) +
      R"(, {"name": "stem", "type": "slide", "parent": "lid", "child": "knob", "along": [0, 0, 1],
                                 "follows": {"joint": "hinge", "ratio": 0.1}})";
  // 90 degrees * 0.1 mm a degree = 9 mm.
  const auto open = [](const char* height) {
    return R"({"name": "open", "placements": {"lid": {"at": [10, -10, 0], "turn": [1, 0, 0, 1]},
                                            "knob": {"at": [10, -10, )" +
           std::string(height) + R"(], "turn": [1, 0, 0, 1]}}})";
  };
  EXPECT_NEAR(mm(loadWell(file(joints, open("9"))), 1, "stem"), 9, 1e-6);
  const Outcome<LoadedAssembly> off = load(file(joints, open("10")));
  ASSERT_EQ(off.problems().size(), 1u) << textOf(off.problems());
  EXPECT_NE(off.problems()[0].what.find("1 mm and 0° away"), std::string::npos)
      << off.problems()[0].what;
}

}  // namespace
}  // namespace swingroom
