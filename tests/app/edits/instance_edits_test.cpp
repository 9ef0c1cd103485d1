// Expected documents are the boat of load_fixture.h with patches written by hand.
#include "app/edits/instance_edits.h"

#include "app/edits/mirror_plane.h"
#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

DocumentPlacement at(double x, double y, double z) {
  DocumentPlacement placement;
  placement.at = {x, y, z};
  return placement;
}

TEST(InstanceEdits, AnInstanceHasTheSameFileElsewhere) {
  expectBoat(edits::addInstances(boat(), "wheel", {{"wheel aft", at(1, 2, 3)}, {"", at(4, 5, 6)}}),
             R"([
    {"op": "add", "path": "/parts/-", "value": {"name": "wheel aft", "stages": {"block": "wheel.stl"}, "placement": {"at": [1, 2, 3], "turn": [1, 0, 0, 0]}}},
    {"op": "add", "path": "/parts/-", "value": {"name": "wheel 2", "stages": {"block": "wheel.stl"}, "placement": {"at": [4, 5, 6], "turn": [1, 0, 0, 0]}}}])");
}

TEST(InstanceEdits, ThePartItselfMayTakeTheFirstPlace) {
  expectBoat(
      edits::addInstances(boat(), "wheel", {{"hull", at(1, 2, 3)}, {"hull", at(4, 5, 6)}}, true),
      R"([
    {"op": "replace", "path": "/parts/5/name", "value": "hull 2"},
    {"op": "add", "path": "/parts/5/placement", "value": {"at": [1, 2, 3], "turn": [1, 0, 0, 0]}},
    {"op": "replace", "path": "/joints/5/child", "value": "hull 2"},
    {"op": "add", "path": "/parts/-", "value": {"name": "hull 3", "stages": {"block": "wheel.stl"}, "placement": {"at": [4, 5, 6], "turn": [1, 0, 0, 0]}}}])");
}

TEST(InstanceEdits, APartIsPlacedAndPutBack) {
  const auto placed = edits::placePart(boat(), "axe", at(1, 2, 3));
  expectBoat(
      placed,
      R"([{"op": "add", "path": "/parts/3/placement", "value": {"at": [1, 2, 3], "turn": [1, 0, 0, 0]}}])");
  expectBoat(edits::placePart(*placed, "axe", std::nullopt), "[]");
  expectBoat(edits::placePart(*placed, "axe", at(0, 0, 0)), "[]");
  DocumentPlacement none;
  none.turn = {0, 0, 0, 0};
  expectRefused(edits::placePart(boat(), "axe", none).problems(), "turn");
  expectRefused(edits::placePart(boat(), "axe", at(0, INFINITY, 0)).problems(), "number");
  expectRefused(edits::placePart(boat(), "oar", at(0, 0, 0)).problems(), "not there");
}

TEST(InstanceEdits, APartWithoutAMeshIsAdded) {
  DocumentPart part;
  part.name = "bearing";
  part.kind = PartKind::bought;
  part.count = 4;
  expectBoat(edits::addPart(boat(), part), R"([
    {"op": "add", "path": "/parts/-", "value": {"name": "bearing", "kind": "bought", "count": 4}}])");
  part.name = " ";
  expectRefused(edits::addPart(boat(), part).problems(), "needs a name");
}

TEST(InstanceEdits, RemovingPartsTakesWhatNamesThem) {
  const auto removal = edits::removeParts(boat(), {"hand", "head"});
  ASSERT_TRUE(removal.ok()) << textOf(removal.problems());
  expectBoat(removal->document, R"([
    {"op": "remove", "path": "/parts/4"}, {"op": "remove", "path": "/parts/2"},
    {"op": "remove", "path": "/joints/4"}, {"op": "remove", "path": "/joints/3"}, {"op": "remove", "path": "/joints/1"},
    {"op": "remove", "path": "/modes/0/mounts"}, {"op": "remove", "path": "/modes/1/mounts"},
    {"op": "remove", "path": "/modes/0/values/wrist"}, {"op": "remove", "path": "/modes/0/values/neck"},
    {"op": "remove", "path": "/modes/1/values/wrist"}, {"op": "remove", "path": "/modes/1/values/neck"},
    {"op": "remove", "path": "/modes/1/values/hand clip"},
    {"op": "remove", "path": "/sequences/0/steps/2"}, {"op": "remove", "path": "/sequences/0/steps/1"},
    {"op": "remove", "path": "/pairs/1"},
    {"op": "replace", "path": "/variants/0/replace", "value": {"parts": []}}])");
  std::string told;
  for (const std::string& clause : removal->also) told += clause + "; ";
  EXPECT_NE(told.find("3 joints"), std::string::npos) << told;
  EXPECT_NE(told.find("1 rule of a pair"), std::string::npos) << told;
}

TEST(InstanceEdits, ThePartsListCountsTheSameThingOnce) {
  AssemblyDocument document = documentOfText(R"({"swingroom": 1, "name": "x", "parts": [
    {"name": "pin", "stages": {"block": "pin.stl"}},
    {"name": "pin 2", "stages": {"block": "pin.stl"}, "placement": {"at": [1, 0, 0]}},
    {"name": "arm", "stages": {"block": "arm.stl"}},
    {"name": "arm 2", "stages": {"block": "arm.stl"}, "mirror": {"through": [0, 0, 0], "normal": [0, 1, 0]}},
    {"name": "red pin", "stages": {"block": "pin.stl"}, "colour": "#FF0000"},
    {"name": "screw", "kind": "bought", "count": 6}, {"name": "nut", "kind": "bought"}]})");
  const std::vector<edits::PartsListRow> wanted = {{"pin.stl", false, 2, {"pin", "pin 2"}},
                                                   {"arm.stl", false, 1, {"arm"}},
                                                   {"arm.stl", true, 1, {"arm 2"}},
                                                   {"pin.stl", false, 1, {"red pin"}},
                                                   {"", false, 6, {"screw"}},
                                                   {"", false, 1, {"nut"}}};
  EXPECT_EQ(edits::partsList(document), wanted);
}

/// x -> x - 2 n (n.(x - c)), by its definition.
Vector3d reflectedIn(const Vector3d& x, const Vector3d& c, const Vector3d& n) {
  return x - 2 * n * n.dot(x - c);
}

/// A corner of the part's file as it stands.
Vector3d standsAt(const DocumentPart& part, Vector3d x) {
  x *= part.scale;
  if (part.mirror) {
    x = reflectedIn(x, Vector3d(part.mirror->through.data()),
                    Vector3d(part.mirror->normal.data()).normalized());
  }
  if (!part.placement) return x;
  const auto [w, i, j, k] = part.placement->turn;
  return Eigen::Quaterniond(w, i, j, k).normalized() * x + Vector3d(part.placement->at.data());
}

TEST(MirrorPlane, EveryCornerOfTheImageIsTheReflectionOfItsCorner) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> any(-1, 1);
  const auto vector = [&] { return Vector3d(any(random), any(random), any(random)); };
  const auto numbers = [](const Vector3d& v) { return ThreeNumbers{v.x(), v.y(), v.z()}; };
  for (int i = 0; i < 500; ++i) {
    DocumentPart part;
    part.scale = i % 3 == 0 ? 25.4 : 1;
    if (i % 2 == 0) {
      DocumentPlacement placement;
      placement.at = numbers(100 * vector());
      placement.turn = {any(random), any(random), any(random), any(random)};
      part.placement = placement;
    }
    if (i % 5 < 2) part.mirror = DocumentMirror{numbers(10 * vector()), numbers(vector()), {}};
    const Vector3d c = 50 * vector(), n = vector().normalized();
    const DocumentPart image =
        edits::mirroredPart(part, edits::MirrorPlane(numbers(c), numbers(n)), false);
    EXPECT_NE(image.mirror.has_value(), part.mirror.has_value());
    for (int corner = 0; corner < 20; ++corner) {
      const Vector3d x = 20 * vector();
      ASSERT_LT((standsAt(image, x) - reflectedIn(standsAt(part, x), c, n)).norm(), 1e-9) << i;
    }
  }
}

TEST(MirrorPlane, TwiceIsThePartItself) {
  DocumentPart part;
  const edits::MirrorPlane plane({0, 0, 0}, {0, -3, 0});
  const DocumentPart image = edits::mirroredPart(part, plane, false);
  EXPECT_EQ(image.mirror->normal, (ThreeNumbers{0, -1, 0}));
  EXPECT_FALSE(image.placement);
  EXPECT_TRUE(edits::mirroredPart(image, plane, false) == part);
}

TEST(MirrorPlane, ItStandsBetweenLeftAndRight) {
  AssemblyDocument document;
  document.up = {0, 0, 1};
  document.front = {1, 0, 0};
  EXPECT_EQ(edits::MirrorPlane::betweenSides(document).normal(), Vector3d(0, 1, 0));
  document.up = {0, 1, 0};
  document.front = {0, 0, 1};
  EXPECT_EQ(edits::MirrorPlane::betweenSides(document).normal(), Vector3d(1, 0, 0));
}

}  // namespace
}  // namespace swingroom
