// The printable test piece by CGAL: closed, manifold, nowhere through itself, its gaps as stated.
#include <gtest/gtest.h>

#include <cmath>

#include "core/print/process/test_piece.h"
#include "tests/judge/cgal_judge.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

TEST(TestPieceByCgal, EveryBodyOfEveryProcessIsAClosedSolid) {
  for (const PrintProcess& process : builtInProcesses()) {
    const TestPiece piece = makeTestPiece(testPieceWish(process));
    for (const TriangleMesh* mesh : {&piece.plate, &piece.pin, &piece.tongue}) {
      const judge::Soundness sound = judge::soundnessOf(*mesh);
      EXPECT_TRUE(sound.manifold) << process.name;
      EXPECT_TRUE(sound.closed) << process.name;
      EXPECT_EQ(sound.crossings, 0u) << process.name;
    }
  }
}

// A corner of the pin's 128-gon faces the middle of a flat of the hole's after half a side's turn.
TEST(TestPieceByCgal, ItsGapsAreAsStated) {
  const TestPiece piece = makeTestPiece(testPieceWish(builtInProcesses()[0]));
  for (const std::size_t k : {std::size_t{0}, std::size_t{2}, piece.places.size() - 1}) {
    const TestPlace& place = piece.places[k];
    const Pose turned = place.X_PlatePin * rotationAbout(Vector3d::Zero(), kZ, kPi / 128);
    const double pin =
        std::sqrt(judge::squaredDistance(piece.plate, shapes::moved(piece.pin, turned)));
    EXPECT_NEAR(pin, place.clearanceMm / 2, 1e-9);
    const TriangleMesh tongue = shapes::moved(piece.tongue, place.X_PlateTongue);
    EXPECT_NEAR(std::sqrt(judge::squaredDistance(piece.plate, tongue)), place.clearanceMm / 2,
                1e-9);
  }
}

}  // namespace
}  // namespace swingroom
