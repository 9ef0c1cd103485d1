// What of the walls fails a print, and what is only worth knowing. Status: by construction, against
// the figures of the process's table.
#include <algorithm>

#include "tests/core/print/walls/wall_shapes.h"
#include "tests/support/mechanism.h"

namespace swingroom {
namespace {

struct WallsCase {
  Mechanism mechanism;
  std::vector<Mode> modes;
  std::optional<Assembly> assembly;
  PrintSubject subject;

  PrintSubject& ready(const PrintProcess& process = builtInProcesses().front()) {
    assembly.emplace(mechanism.assembly());
    subject.assembly = &*assembly;
    subject.modes = &modes;
    PartPrint print;
    print.process = process;
    subject.parts.assign(assembly->parts().size(), print);
    return subject;
  }

  PrintFindings findings() {
    WorkMonitor monitor;
    PrintFindings found;
    addWallFindings(subject, checkWalls(subject, monitor), found);
    return found;
  }
};

TriangleMesh fin(double thick) {
  return cellSolid(
      without(allCells({0, 4, 4 + thick, 12}, {0, 15}, {0, 6, 11}), {{0, 0, 1}, {2, 0, 1}}));
}

const PrintProcess& resin() {
  return *findProcess(builtInProcesses(), "resin, 0.05 mm layers");
}

TEST(WallFindings, AThinFinIsToldWithItsFigureAndItsPlace) {
  WallsCase one;
  one.mechanism.addPart("thick", fin(0.8));
  one.mechanism.addPart("thin", fin(0.6));
  one.ready();
  const PrintFindings found = one.findings();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].word, PrintWord::thinWall);
  EXPECT_EQ(found[0].grade, PrintGrade::finding);
  EXPECT_EQ(found[0].parts, std::vector{PartId{1}});
  EXPECT_NEAR(found[0].upper, 0.6, 1e-6);
  EXPECT_NEAR(found[0].lower, 0.6, 1e-5);
  EXPECT_EQ(found[0].needed, 0.8);
  EXPECT_EQ(found[0].unit, "mm");
  ASSERT_TRUE(found[0].at_P);
  EXPECT_NEAR(found[0].at_P->x(), 4.3, 1e-6);
  EXPECT_GT(found[0].at_P->z(), 6);
  EXPECT_NE(found[0].sentence.find("0.60 mm"), std::string::npos) << found[0].sentence;
  EXPECT_NE(found[0].sentence.find("one side"), std::string::npos) << found[0].sentence;
}

// Resin needs 1.0 where a wall is free and 0.5 where it is held (design rules sheet).
TEST(WallFindings, AFreeWallNeedsMoreThanAHeldOneInResin) {
  WallBlocks frame = allCells({0, 3, 15, 18}, {0, 3, 15, 18}, {0, 0.7, 4});
  std::erase(frame.filled, std::array<std::size_t, 3>{1, 1, 1});
  WallsCase one;
  one.mechanism.addPart("fin", fin(0.7));
  one.mechanism.addPart("membrane", cellSolid(frame));
  one.ready(resin());
  const PrintFindings found = one.findings();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].parts, std::vector{PartId{0}});
  EXPECT_EQ(found[0].needed, 1.0);
}

TEST(WallFindings, APinOnWhichAJointTurnsHasAnotherLeast) {
  for (const double diameter : {1.5, 2.1}) {
    for (const bool turns : {false, true}) {
      WallsCase one;
      const PartId body = one.mechanism.addPart("body", shapes::box({-20, -5, -5}, {-10, 5, 5}));
      const PartId pin = one.mechanism.addPart("pin", shapes::cylinder(diameter / 2, 0, 9, 64));
      if (turns) one.mechanism.addHinge(pin, body, {0, 0, 2}, kZ);
      one.ready(resin());
      PrintFindings found = one.findings();
      std::erase_if(found, [](const PrintFinding& f) { return f.word != PrintWord::thinPin; });
      // Resin: 0.5 for a pin that only prints (design rules sheet), 2 for one that turns.
      ASSERT_EQ(found.size(), turns && diameter < 2 ? 1u : 0u) << diameter;
      if (!found.empty()) {
        EXPECT_NEAR(found[0].upper, diameter, 1e-5);
        EXPECT_EQ(found[0].needed, 2);
      }
    }
  }
}

TEST(WallFindings, ANeckIsOneAndAPinIsNotToldTwice) {
  WallsCase one;
  // Square, so that it is no round pin: two blocks joined by a post of 0.7 by 0.75.
  WallBlocks post = allCells({0, 4, 4.7, 8}, {0, 4, 4.75, 8}, {0, 5, 9, 14});
  std::erase_if(post.filled, [](const auto& c) { return c[2] == 1 && (c[0] != 1 || c[1] != 1); });
  one.mechanism.addPart("waist", cellSolid(post));
  one.mechanism.addPart("pin", shapes::cylinder(1.2, 0, 10, 48));
  one.ready();
  const PrintFindings found = one.findings();
  ASSERT_EQ(found.size(), 2u) << found[0].sentence;
  EXPECT_EQ(found[0].word, PrintWord::neck);
  EXPECT_EQ(found[0].grade, PrintGrade::finding);
  EXPECT_NEAR(found[0].upper, 0.7, 1e-6);
  EXPECT_NE(found[0].sentence.find("0.75 mm"), std::string::npos) << found[0].sentence;
  EXPECT_EQ(found[1].word, PrintWord::thinPin);
  EXPECT_NEAR(found[1].upper, 2.4, 1e-6);
}

TEST(WallFindings, ABladeIsAHintWithItsLength) {
  WallsCase one;
  one.mechanism.addPart("chisel", shapes::prism({{20, -5}, {20, 5}, {0, 0}}, 0, 25));
  one.ready();
  const PrintFindings found = one.findings();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].word, PrintWord::thinEdge);
  EXPECT_EQ(found[0].grade, PrintGrade::hint);
  EXPECT_NEAR(found[0].upper, 25, 1e-9);
  EXPECT_NE(found[0].sentence.find("28 degrees"), std::string::npos) << found[0].sentence;
}

TEST(WallFindings, BoughtPartsAndPartsWithoutAMeshAreNotLookedAt) {
  WallsCase one;
  one.mechanism.addPart("bought", fin(0.6));
  one.mechanism.addPart("gone", fin(0.6));
  one.mechanism.parts().parts[1].mesh = nullptr;
  TriangleMesh open = fin(0.6);
  open.triangles.pop_back();
  one.mechanism.addPart("open", open);
  one.ready();
  one.subject.parts[0].printed = false;
  WorkMonitor monitor;
  const WallsResult result = checkWalls(one.subject, monitor);
  ASSERT_EQ(result.maps.size(), 3u);
  EXPECT_FALSE(result.maps[0]);
  EXPECT_FALSE(result.maps[1]);
  ASSERT_TRUE(result.maps[2]);
  EXPECT_FALSE(result.maps[2]->judged);
  EXPECT_TRUE(one.findings().empty());
}

// A part that is another's reflection: as if it had been looked at by itself.
TEST(WallFindings, AMirroredPartHasTheMirroredMap) {
  const TriangleMesh port = fin(0.6);
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  X.linear()(1, 1) = -1;
  X.translation().y() = 3;
  const TriangleMesh starboard = transformed(port, X);
  WallsCase one;
  one.mechanism.addPart("port", port);
  one.mechanism.addPart("starboard", starboard);
  one.mechanism.addPart("port again", port);
  one.mechanism.parts().parts[2].mesh = one.mechanism.parts().parts[0].mesh;
  one.ready();
  WorkMonitor monitor;
  const WallsResult result = checkWalls(one.subject, monitor);
  EXPECT_EQ(result.maps[0], result.maps[2]);
  const WallMap &map = *result.maps[1], alone = wallsIn(starboard);
  EXPECT_EQ(map.places.size(), alone.places.size());
  EXPECT_NEAR(*map.leastUpperMm, *alone.leastUpperMm, 1e-9);
  for (std::size_t i = 0; i < map.places.size(); ++i) {
    const auto& t = map.places[i].corners_P;
    const std::uint32_t triangle = map.places[i].triangle;
    const Vector3d n = (t[1] - t[0]).cross(t[2] - t[0]).normalized();
    const Vector3d& a = starboard.corner(triangle, 0);
    const Vector3d expected =
        (starboard.corner(triangle, 1) - a).cross(starboard.corner(triangle, 2) - a).normalized();
    EXPECT_NEAR((n - expected).norm(), 0, 1e-9);
    for (const Vector3d& corner : t) EXPECT_NEAR((corner - a).dot(n), 0, 1e-9);
  }
  EXPECT_EQ(one.findings().size(), 3u);
}

}  // namespace
}  // namespace swingroom
