// The other side of an assembly. The tug's committed document is the expected value: its starboard
// side is taken off and made again from the port side. Reflections are worked out here by their
// definition, x - 2 n (n.(x - c)).
#include "app/edits/mirror_side.h"

#include <random>

#include "app/edits/instance_edits.h"
#include "app/edits/part_edits.h"
#include "app/edits/rig_edits.h"
#include "app/edits/side_survey.h"
#include "core/tree/mirror_image.h"
#include "tests/app/edits/same_motion.h"

namespace swingroom {
namespace {

using edits::MirrorPlane;
using edits::SideWish;

const std::filesystem::path kTug = std::filesystem::path(SWINGROOM_SOURCE) /
                                   "sample_assemblies/harbour_tug/harbour_tug.swing.json";

const AssemblyDocument& tug() {
  static const AssemblyDocument document = readDocument(kTug)->document;
  return document;
}

bool isOn(const std::string& name, const std::string& side) {
  return name.ends_with(side);
}

std::set<std::string> partsOn(const AssemblyDocument& document, const std::string& side) {
  std::set<std::string> parts;
  for (const DocumentPart& part : document.parts) {
    if (isOn(part.name, side)) parts.insert(part.name);
  }
  return parts;
}

AssemblyDocument portHalf() {
  auto removal = edits::removeParts(tug(), partsOn(tug(), "starboard"));
  if (!removal) throw std::runtime_error(textOf(removal.problems()));
  return removal->document;
}

LoadedAssembly withMeshes(const AssemblyDocument& document) {
  const MeshReader reader = MeshReader::besideThisProgram();
  auto loaded = loadAssembly(document, kTug, {&reader, 2, nullptr});
  if (!loaded) throw std::runtime_error(textOf(loaded.problems()));
  return std::move(loaded).value();
}

std::set<std::string> ownImages(const AssemblyDocument& document, const MirrorPlane& plane) {
  const LoadedAssembly loaded = withMeshes(document);
  std::set<std::string> own;
  for (std::size_t p = 0; p < document.parts.size(); ++p) {
    const auto mirror = edits::meshPlane(document.parts[p], plane);
    if (!mirror) continue;
    const Vector3d through(mirror->through.data()), normal(mirror->normal.data());
    if (isOwnMirrorImage(*loaded.assembly.parts()[p].mesh, through, normal)) {
      own.insert(document.parts[p].name);
    }
  }
  return own;
}

SideWish tugWish(const AssemblyDocument& half, const std::set<std::string>& parts) {
  SideWish wish;
  wish.parts = parts;
  wish.plane = MirrorPlane::betweenSides(half);
  wish.words = {"port", "starboard"};
  wish.ownImages = ownImages(half, wish.plane);
  return wish;
}

/// The committed tug with what its maker gave the two sides unlike: one arm is bent less.
AssemblyDocument evenTug() {
  AssemblyDocument document = tug();
  (*document.modes[1].values)["elbow starboard"] = 90.0;
  for (DocumentStep& step : document.sequences[0].steps) {
    if (step.moves.contains("elbow starboard")) step.moves["elbow starboard"] = 90.0;
  }
  return document;
}

template <typename Named>
std::map<std::string, Named> byName(const std::vector<Named>& list) {
  std::map<std::string, Named> map;
  for (const Named& one : list) map[one.name] = one;
  return map;
}

std::map<std::set<std::string>, DocumentPair> byParts(const AssemblyDocument& document) {
  std::map<std::set<std::string>, DocumentPair> map;
  for (DocumentPair pair : document.pairs) {
    const std::set<std::string> parts{pair.parts[0], pair.parts[1]};
    pair.parts = {*parts.begin(), *parts.rbegin()};
    map[parts] = pair;
  }
  return map;
}

/// Equal up to the order of parts, joints and pairs.
void expectSameAssembly(const AssemblyDocument& made, const AssemblyDocument& wanted) {
  const auto parts = byName(made.parts);
  ASSERT_EQ(parts.size(), wanted.parts.size());
  for (const auto& [name, part] : byName(wanted.parts)) {
    EXPECT_TRUE(parts.contains(name) && parts.at(name) == part) << "part " << name;
  }
  const auto joints = byName(made.joints);
  ASSERT_EQ(joints.size(), wanted.joints.size());
  for (const auto& [name, joint] : byName(wanted.joints)) {
    EXPECT_TRUE(joints.contains(name) && joints.at(name) == joint) << "joint " << name;
  }
  EXPECT_TRUE(made.modes == wanted.modes);
  EXPECT_TRUE(made.sequences == wanted.sequences);
  EXPECT_TRUE(byParts(made) == byParts(wanted));
  AssemblyDocument rest = made;
  rest.parts = wanted.parts;
  rest.joints = wanted.joints;
  rest.pairs = wanted.pairs;
  EXPECT_TRUE(rest == wanted);
}

TEST(MirrorSide, TheTugsStarboardSideComesOfItsPortSide) {
  const AssemblyDocument half = portHalf();
  EXPECT_EQ(half.parts.size(), 24u) << "of 40, 16 are on starboard";
  const auto made = edits::mirrorSide(half, tugWish(half, partsOn(half, "port")));
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  EXPECT_EQ(made->parts.size(), 16u);
  EXPECT_TRUE(made->left.empty());
  expectSameAssembly(made->document, evenTug());
}

/// The boathook lies on port too, but hangs in a hand there and is named after no side.
TEST(MirrorSide, TheSurveyFindsTheTugsPortSideAndItsPins) {
  const AssemblyDocument half = portHalf();
  const MirrorPlane plane = MirrorPlane::betweenSides(half);
  const LoadedAssembly loaded = withMeshes(half);
  const auto sides = edits::sidesOf(loaded.assembly, plane);
  const auto port = edits::likelySide(loaded.assembly, sides);
  EXPECT_EQ(port, partsOn(half, "port"));
  EXPECT_EQ(edits::partsAside(loaded.assembly, sides, port), std::set<std::string>{"boathook"});
  const std::set<std::string> pins = {"hip_pin_port", "knee_pin_up_port", "knee_pin_low_port",
                                      "ankle_pin_port", "elbow_pin_port"};
  EXPECT_EQ(edits::ownImagesOf(loaded.assembly, half, port, plane), pins);
}

/// The tug is alike to port and starboard, and otherwise not: whatever its file says of its front.
TEST(MirrorSide, TheTugIsMostEvenAboutItsMiddlePlane) {
  const LoadedAssembly loaded = withMeshes(portHalf());
  const auto even = [&](const ThreeNumbers& normal) {
    return edits::evenParts(loaded.assembly, MirrorPlane({0, 0, 0}, normal));
  };
  EXPECT_GE(even({0, 1, 0}), 5u);
  EXPECT_EQ(even({1, 0, 0}), 1u) << "the hip's pin, which is round and stands at x = 0";
  EXPECT_EQ(even({0, 0, 1}), 0u);
}

TEST(MirrorSide, ASideWhoseNamesCarryNoWordGetsIt) {
  AssemblyDocument bare = portHalf();
  const AssemblyDocument half = bare;
  std::set<std::string> parts;
  for (const std::string& part : partsOn(half, "port")) {
    const std::string name = part.substr(0, part.size() - 5);
    bare = *edits::renamePart(bare, part, name);
    parts.insert(name);
  }
  for (const DocumentJoint& joint : half.joints) {
    if (isOn(joint.name, " port")) {
      bare = *edits::renameJoint(bare, joint.name, joint.name.substr(0, joint.name.size() - 5));
    }
  }
  const auto made = edits::mirrorSide(bare, tugWish(bare, parts));
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  EXPECT_EQ(made->renamed.size(), made->parts.size() + made->joints.size());
  expectSameAssembly(made->document, evenTug());
}

TEST(MirrorSide, WhatIsThereAlreadyStaysAsItIs) {
  const auto made = edits::mirrorSide(tug(), tugWish(tug(), partsOn(tug(), "port")));
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  EXPECT_TRUE(made->document == tug());
  EXPECT_TRUE(made->parts.empty() && made->joints.empty() && made->rules == 0);
  EXPECT_EQ(made->left.size(), 16u + 16u) << "16 parts and the 16 joints that hang them";
}

/// The reflection in a plane, by its definition.
Vector3d reflected(const Vector3d& x, const Vector3d& c, const Vector3d& n) {
  return x - 2 * n * n.dot(x - c);
}

/// A corner of a part's file, as it stands in the world. @param X_WP  Of the part.
Vector3d standing(const DocumentPart& part, const Pose& X_WP, const Vector3d& corner) {
  Vector3d x = part.scale * corner;
  if (part.mirror) {
    x = reflected(x, Vector3d(part.mirror->through.data()),
                  Vector3d(part.mirror->normal.data()).normalized());
  }
  return X_WP * x;
}

/// Joints at random; those of the other side at what mirrors it, worked out by its definition: a
/// number is the same number, a rotation vector is reflected as one, -F r.
Configuration randomStand(const Assembly& assembly, const std::map<std::string, std::string>& twins,
                          const Vector3d& n, std::mt19937& random) {
  std::uniform_real_distribution<double> any(-1, 1);
  Configuration stand = assembly.home();
  for (std::size_t j = 0; j < assembly.joints().size(); ++j) {
    const Joint& joint = assembly.joints()[j];
    if (joint.type == JointType::hinge) stand.values[j] = {kPi * any(random), 0, 0};
    if (joint.type == JointType::slide) stand.values[j] = {20 * any(random), 0, 0};
    if (joint.type == JointType::ball) {
      stand.values[j] = 1.5 * Vector3d(any(random), any(random), any(random));
    }
  }
  for (const auto& [here, there] : twins) {
    const JointId a = assembly.findJoint(here).value(), b = assembly.findJoint(there).value();
    JointValue value = stand.values[a.index];
    if (assembly.joint(a).type == JointType::ball) value = -(value - 2 * n * n.dot(value));
    stand.values[b.index] = value;
  }
  return stand;
}

TEST(MirrorSide, TheTugsSidesMoveAsReflections) {
  const AssemblyDocument half = portHalf();
  const auto made = edits::mirrorSide(half, tugWish(half, partsOn(half, "port")));
  ASSERT_TRUE(made.ok());
  const LoadedAssembly loaded = loadedOf(made->document);
  std::map<std::string, std::string> twins;
  for (const std::string& there : made->joints) {
    twins[there.substr(0, there.size() - 9) + "port"] = there;
  }
  std::mt19937 random(20);
  const Vector3d n(0, 1, 0);
  for (int i = 0; i < 200; ++i) {
    const Configuration stand = randomStand(loaded.assembly, twins, n, random);
    const auto poses = posesOf(loaded.assembly, stand);
    for (const std::string& there : made->parts) {
      const std::string here = there.substr(0, there.size() - 9) + "port";
      const auto a = loaded.assembly.findPart(here).value(), b = *loaded.assembly.findPart(there);
      for (const Vector3d& corner : {Vector3d(0, 0, 0), Vector3d(40, 3, 0), Vector3d(0, 0, 50)}) {
        // A pin is its own image: its corner's reflection is another corner of it.
        const bool mirrored = made->document.parts[b.index].mirror.has_value();
        const Vector3d other = mirrored ? corner : reflected(corner, {0, 0, 0}, n);
        const Vector3d image = reflected(
            standing(made->document.parts[a.index], poses[a.index], corner), {0, 0, 0}, n);
        EXPECT_LT((standing(made->document.parts[b.index], poses[b.index], other) - image).norm(),
                  1e-9)
            << there;
      }
    }
  }
}

/// A limb of every kind of joint, with a part that is placed, one that is mirrored and one scaled.
const char* const kLimb = R"({
  "swingroom": 1, "name": "Limb",
  "parts": [
    {"name": "base", "stages": {"block": "base.stl"}},
    {"name": "upperLeft", "stages": {"block": "upper.stl"}},
    {"name": "Left arm", "stages": {"block": "arm.stl"}, "scale": 2,
     "placement": {"at": [3, 4, 5], "turn": [0.5, 0.1, -0.7, 0.3]}},
    {"name": "hand_left", "stages": {"block": "hand.stl"},
     "mirror": {"through": [1, 0, 2], "normal": [1, 2, 2]}, "placement": {"at": [9, -4, 5], "turn": [0.1, 0.9, 0, 0.4]}},
    {"name": "plate_left", "stages": {"block": "plate.stl"}, "mirror": {"through": [0, 0, 0], "normal": [0, 0, 1]}}
  ],
  "joints": [
    {"name": "left shoulder", "type": "ball", "parent": "base", "child": "upperLeft", "through": [2, 3, 4],
     "along": [1, 1, 0], "range": {"swing": 170, "twist": [-100, 120]}, "zones": [{"radius": 3}]},
    {"name": "left elbow", "type": "hinge", "parent": "upperLeft", "child": "Left arm", "through": [5, 3, 4],
     "along": [0, 2, 1], "range": [-180, 180], "zones": [{"radius": 2, "from": -1, "to": 4}]},
    {"name": "left reach", "type": "slide", "parent": "upperLeft", "child": "Left arm", "along": [1, -1, 3],
     "through": [0, 1, 0], "zones": [{"radius": 2, "from": -1, "to": 4}]},
    {"name": "left wrist", "type": "hinge", "parent": "Left arm", "child": "hand_left", "through": [8, 1, 4],
     "along": [0, 0, -1], "follows": {"joint": "left elbow", "ratio": -0.5}},
    {"name": "left plate", "type": "fixed", "parent": "hand_left", "child": "plate_left"}
  ],
  "modes": [
    {"name": "one", "values": {"left shoulder": [10, 20, -30], "left elbow": 40, "left reach": 5}},
    {"name": "two", "values": {"left shoulder": [0, 0, 0], "left elbow": 0, "left reach": 0}}
  ],
  "pairs": [
    {"parts": ["base", "hand_left"], "requiredGap": 0.2,
     "contacts": [{"kind": "rest", "modes": ["two"], "place": {"at": [1, 2, 3], "radius": 4}, "reason": "the left hand rests"}]}
  ]
})";

SideWish limbWish(const MirrorPlane& plane) {
  SideWish wish;
  wish.parts = {"upperLeft", "Left arm", "hand_left", "plate_left"};
  wish.plane = plane;
  wish.words = {"left", "right"};
  return wish;
}

const std::map<std::string, std::string> kLimbParts = {{"upperLeft", "upperRight"},
                                                       {"Left arm", "Right arm"},
                                                       {"hand_left", "hand_right"},
                                                       {"plate_left", "plate_right"}};

TEST(MirrorSide, EveryStandIsTheReflectionInAnyPlane) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> any(-1, 1);
  for (int planes = 0; planes < 40; ++planes) {
    const Vector3d c = 30 * Vector3d(any(random), any(random), any(random));
    const Vector3d n = Vector3d(any(random), any(random), any(random)).normalized();
    const MirrorPlane plane({c.x(), c.y(), c.z()}, {2 * n.x(), 2 * n.y(), 2 * n.z()});
    const auto made = edits::mirrorSide(documentOfText(kLimb), limbWish(plane));
    ASSERT_TRUE(made.ok()) << textOf(made.problems());
    const LoadedAssembly loaded = loadedOf(made->document);
    const Assembly& assembly = loaded.assembly;
    std::map<std::string, std::string> twins;
    for (const char* joint : {"shoulder", "elbow", "reach", "wrist"}) {
      twins[std::string("left ") + joint] = std::string("right ") + joint;
    }
    for (int i = 0; i < 25; ++i) {
      const auto poses = posesOf(assembly, randomStand(assembly, twins, n, random));
      for (const auto& [here, there] : kLimbParts) {
        const auto a = assembly.findPart(here).value(), b = assembly.findPart(there).value();
        const Vector3d corner = 20 * Vector3d(any(random), any(random), any(random));
        const Vector3d image =
            reflected(standing(made->document.parts[a.index], poses[a.index], corner), c, n);
        ASSERT_LT((standing(made->document.parts[b.index], poses[b.index], corner) - image).norm(),
                  1e-9)
            << there << " plane " << planes;
      }
    }
    // And so it is in the modes that were written.
    for (const Mode& mode : loaded.modes) {
      const auto poses = posesOf(assembly, mode.configuration);
      for (const auto& [here, there] : kLimbParts) {
        const auto a = assembly.findPart(here).value(), b = assembly.findPart(there).value();
        const Vector3d corner(7, -3, 11);
        const Vector3d image =
            reflected(standing(made->document.parts[a.index], poses[a.index], corner), c, n);
        ASSERT_LT((standing(made->document.parts[b.index], poses[b.index], corner) - image).norm(),
                  1e-9)
            << there << " in " << mode.name;
      }
    }
  }
}

TEST(MirrorSide, AxesZonesFollowersAndRulesAreMirrored) {
  const auto made =
      edits::mirrorSide(documentOfText(kLimb), limbWish(MirrorPlane({0, 0, 0}, {0, 1, 0})));
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  const std::string wanted = nlohmann::json::parse(kLimb)
                                 .patch(nlohmann::json::parse(R"([
    {"op": "add", "path": "/parts/5", "value": {"name": "plate_right", "stages": {"block": "plate.stl"},
      "placement": {"at": [0, 0, 0], "turn": [0, 1, 0, 0]}}},
    {"op": "add", "path": "/joints/5", "value": {"name": "right plate", "type": "fixed", "parent": "hand_right", "child": "plate_right"}},
    {"op": "add", "path": "/joints/4", "value": {"name": "right wrist", "type": "hinge", "parent": "Right arm", "child": "hand_right",
      "through": [8, -1, 4], "along": [0, 0, 1], "follows": {"joint": "right elbow", "ratio": -0.5}}},
    {"op": "add", "path": "/joints/3", "value": {"name": "right reach", "type": "slide", "parent": "upperRight", "child": "Right arm",
      "along": [1, 1, 3], "through": [0, -1, 0], "zones": [{"radius": 2, "from": -1, "to": 4}]}},
    {"op": "add", "path": "/joints/2", "value": {"name": "right elbow", "type": "hinge", "parent": "upperRight", "child": "Right arm",
      "through": [5, -3, 4], "along": [0, 2, -1], "range": [-180, 180], "zones": [{"radius": 2, "from": -4, "to": 1}]}},
    {"op": "add", "path": "/joints/1", "value": {"name": "right shoulder", "type": "ball", "parent": "base", "child": "upperRight",
      "through": [2, -3, 4], "along": [-1, 1, 0], "range": {"swing": 170, "twist": [-100, 120]}, "zones": [{"radius": 3}]}},
    {"op": "add", "path": "/modes/0/values/right shoulder", "value": [-10, 20, 30]},
    {"op": "add", "path": "/modes/0/values/right elbow", "value": 40},
    {"op": "add", "path": "/modes/0/values/right reach", "value": 5},
    {"op": "add", "path": "/modes/1/values/right shoulder", "value": [0, 0, 0]},
    {"op": "add", "path": "/modes/1/values/right elbow", "value": 0},
    {"op": "add", "path": "/modes/1/values/right reach", "value": 0},
    {"op": "add", "path": "/pairs/1", "value": {"parts": ["base", "hand_right"], "requiredGap": 0.2,
     "contacts": [{"kind": "rest", "modes": ["two"], "place": {"at": [1, -2, 3], "radius": 4}, "reason": "the right hand rests"}]}}])"))
                                 .dump();
  const AssemblyDocument expected = documentOfText(wanted);
  EXPECT_TRUE(byName(made->document.joints) == byName(expected.joints));
  EXPECT_TRUE(made->document.modes == expected.modes);
  EXPECT_TRUE(made->document.pairs == expected.pairs);
  // Mirrored once already, in a plane square to this one: reflected again it is turned by half.
  EXPECT_TRUE(byName(made->document.parts)["plate_right"] == expected.parts[5]);
}

TEST(MirrorSide, JointsOfTheOtherSideMayFollow) {
  SideWish wish = limbWish(MirrorPlane({0, 0, 0}, {0, 1, 0}));
  wish.follow = true;
  const auto made = edits::mirrorSide(documentOfText(kLimb), wish);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  const auto joints = byName(made->document.joints);
  EXPECT_EQ(joints.at("right elbow").follows->joint, "left elbow");
  EXPECT_EQ(joints.at("right elbow").follows->ratio, 1);
  EXPECT_FALSE(made->document.modes[0].values->contains("right elbow"));
  EXPECT_TRUE(made->document.modes[0].values->contains("right shoulder")) << "a ball cannot follow";
}

TEST(MirrorSide, TheHandDoesItOnceForEachSide) {
  SideWish wish;
  wish.parts = {"arm", "hand", "axe"};
  const auto made = edits::mirrorSide(boat(), wish);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  const auto& steps = made->document.sequences[0].steps;
  ASSERT_EQ(steps.size(), 4u);
  EXPECT_EQ(steps[3].name, "grab starboard");
  EXPECT_EQ(steps[3].replug->part, "axe_starboard");
  EXPECT_EQ(steps[3].replug->onto, "hand clip starboard");
  EXPECT_EQ(made->document.modes[1].mounts.at("axe_starboard"), "hand clip starboard");
  EXPECT_EQ(steps[0].moves.size(), 2u);
  EXPECT_TRUE(mistakesIn(made->document).empty());
}

TEST(MirrorSide, WhatHangsOnOneSideAloneStaysOnIt) {
  SideWish wish;
  wish.parts = {"arm", "hand"};
  AssemblyDocument document = edits::reparentJoint(boat(), "deck clip", "arm")->document;
  DocumentPair rule;
  rule.parts = {"hand", "axe"};
  rule.allow = "held";
  document.pairs.push_back(rule);
  const auto made = edits::mirrorSide(document, wish);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  EXPECT_EQ(made->rules, 1u) << "of hull and arm; the axe is this side's alone";
}

TEST(MirrorSide, WhatCannotBeIsSaid) {
  SideWish wish;
  expectRefused(edits::mirrorSide(boat(), wish).problems(), "no part");
  wish.parts = {"oar"};
  expectRefused(edits::mirrorSide(boat(), wish).problems(), "not there");
  wish.parts = {"arm"};
  wish.words.there = " ";
  expectRefused(edits::mirrorSide(boat(), wish).problems(), "needs a word");
  wish.words = {"left", "left"};
  expectRefused(edits::mirrorSide(boat(), wish).problems(), "same word");
  wish = tugWish(tug(), {"thigh_port", "thigh_starboard"});
  expectRefused(edits::mirrorSide(tug(), wish).problems(), "of the other side");
}

TEST(SideNames, WordsAreFoundWhereTheyAreWords) {
  EXPECT_TRUE(edits::hasWord("thigh_port", "port"));
  EXPECT_TRUE(edits::hasWord("Port thigh", "port"));
  EXPECT_TRUE(edits::hasWord("thighPort", "port"));
  EXPECT_FALSE(edits::hasWord("support", "port"));
  EXPECT_FALSE(edits::hasWord("portal", "port"));
  EXPECT_EQ(edits::withWord("thighPort", "port", "starboard"), "thighStarboard");
  EXPECT_EQ(edits::withWord("ARM_L", "l", "r"), "ARM_R");
  EXPECT_EQ(edits::withWord("LEFT arm", "left", "right"), "RIGHT arm");
  EXPECT_EQ(edits::sideNames("hip", {"", "starboard"}, ' ').there, "hip starboard");
  EXPECT_EQ(edits::sideNames("knee_link", {"port", "starboard"}, ' ').here, "knee_link_port");
  EXPECT_EQ(edits::likelyWords({"arm_r", "leg_r"}).front(), (edits::SideWords{"r", "l"}));
  EXPECT_EQ(edits::likelyWords({"arm", "leg"}).front(), (edits::SideWords{"port", "starboard"}));
}

}  // namespace
}  // namespace swingroom
