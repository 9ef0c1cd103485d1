// The walls of the harbour tug and of its sculpted parts, against the sizes that its generator
// draws (sample_assemblies/harbour_tug/tug_*.cpp). Status: by construction.
#include <algorithm>

#include "core/files/mesh_file.h"
#include "core/tree/point_query.h"
#include "core/tree/ray_query.h"
#include "tests/core/print/walls/wall_shapes.h"

namespace swingroom {
namespace {

TriangleMesh tugPart(const std::string& name) {
  const auto file = std::string(SWINGROOM_SOURCE) + "/sample_assemblies/harbour_tug/" + name;
  auto read = MeshReader::besideThisProgram().read(file);
  if (!read) throw std::runtime_error(toText(read.problems().front()));
  return std::move(read).value().mesh;
}

// The boathook's clip: a post 5.5 wide with a hole of 1.87 radius: 0.88 beside it and above it.
TEST(WallsOfSamples, TheThighsClipIsAsThinAsItIsDrawn) {
  const WallMap map = wallsIn(tugPart("parts/thigh.stl"));
  for (const Vector3d& at :
       {Vector3d(13.5, 20.81, 22.4), Vector3d(13.5, 16.19, 22.4), Vector3d(13.5, 18.5, 24.71)}) {
    const auto spot = std::find_if(map.spots.begin(), map.spots.end(), [&](const ThinSpot& s) {
      return std::abs(s.at_P.y() - at.y()) < 0.1 && std::abs(s.at_P.z() - at.z()) < 0.6;
    });
    ASSERT_NE(spot, map.spots.end()) << at.transpose();
    EXPECT_NEAR(spot->upperMm, 0.88, 1e-3);
    EXPECT_NEAR(spot->lowerMm, 0.88, 1e-3);
  }
  EXPECT_NEAR(*map.leastUpperMm, 0.88, 1e-3);
}

// The funnel's band is let in 0.3 in a tube of 3 bored to 1.85: 0.85, less a facet's 0.04 at
// most.
TEST(WallsOfSamples, TheFunnelsBandIsAsThinAsItIsDrawn) {
  const WallMap map = wallsIn(tugPart("parts/funnel.stl"));
  EXPECT_LE(*map.leastUpperMm, 0.85 + 1e-3);
  EXPECT_GE(*map.leastLowerMm, 0.85 - 0.04);
  ASSERT_FALSE(map.spots.empty());
  EXPECT_NEAR(map.spots[0].at_P.z(), 25.6, 0.6);
  EXPECT_FALSE(map.spots[0].free);
}

// Pins are as thick as they are drawn, in spite of their bevels.
TEST(WallsOfSamples, PinsAreAsThickAsTheyAreDrawn) {
  for (const auto& [name, diameter] :
       {std::pair("parts/pin.stl", 4.0), std::pair("parts/small_pin.stl", 3.0)}) {
    const WallMap map = wallsIn(tugPart(name));
    ASSERT_EQ(map.pins.size(), 1u);
    EXPECT_NEAR(map.pins[0].diameterMm, diameter, 1e-3);
    ASSERT_EQ(map.spots.size(), 1u);
    EXPECT_EQ(map.spots[0].kind, WallKind::neck);
    EXPECT_NEAR(map.spots[0].upperMm, diameter, 0.05);
  }
}

// The board's bead and teeth, the torso's cheeks: nothing of these is under a millimetre wall but
// what is drawn so.
TEST(WallsOfSamples, BlocksHaveFewThinPlaces) {
  for (const auto& [name, leastMm] :
       {std::pair("parts/stern_board.stl", 1.2), std::pair("parts/keel.stl", 2.1),
        std::pair("parts/knee_link.stl", 1.8), std::pair("parts/window.stl", 1.7)}) {
    const WallMap map = wallsIn(tugPart(name));
    ASSERT_TRUE(map.leastUpperMm);
    EXPECT_GT(*map.leastUpperMm, leastMm) << name;
  }
}

// Sculpted surfaces: what is told is there. A ball as large as the spot's lower figure fits about
// its middle as far as the other figure says, checked by distances alone; and there are few.
TEST(WallsOfSamples, OnSculptedSurfacesWhatIsToldIsThere) {
  for (const char* name : {"detail/torso.stl", "detail/fender.stl", "detail/shin.stl"}) {
    const TriangleMesh mesh = tugPart(name);
    const BoundingTree tree(mesh);
    const WallMap map = wallsIn(mesh);
    ASSERT_TRUE(map.judged);
    std::size_t thin = 0;
    for (const ThinSpot& spot : map.spots) {
      EXPECT_EQ(windingNumber(tree, spot.at_P), 1) << name << ' ' << spot.at_P.transpose();
      const auto near = closestPoint(tree, spot.at_P);
      // Its two sides are no farther than half of it from the middle.
      EXPECT_LE(near->distanceMm, 0.55 * spot.upperMm + 1e-3) << name;
      thin += spot.upperMm < 0.8 && spot.areaMm2 > 0.5;
    }
    EXPECT_LE(thin, 4u) << name;
  }
}

// The torso's bores: 4 about 9 in a side at 14, of which the planks' seams take 0.4.
TEST(WallsOfSamples, TheSculptedTorsoIsThinBesideItsBores) {
  const WallMap map = wallsIn(tugPart("detail/torso.stl"));
  EXPECT_NEAR(*map.leastUpperMm, 0.6, 0.04);
  EXPECT_NEAR(std::abs(map.spots[0].at_P.y()), 13.3, 0.1);
}

// Lower figures hold: rays from points all over a round and a sculpted part, straight in, between
// faces that oppose each other.
TEST(WallsOfSamples, NoStraightWayAcrossIsShorterThanTheLowerFigure) {
  std::mt19937_64 random(17);
  std::uniform_real_distribution<double> share(0, 1);
  for (const char* name : {"parts/funnel.stl", "parts/head.stl", "detail/shin.stl"}) {
    const TriangleMesh mesh = tugPart(name);
    const BoundingTree tree(mesh);
    const WallMap map = wallsIn(mesh);
    std::size_t compared = 0;
    for (std::size_t i = 0; i < map.places.size(); i += 7) {
      const WallPlace& place = map.places[i];
      const auto& t = place.corners_P;
      const double a = share(random), b = share(random);
      const Vector3d p =
          t[0] + std::sqrt(a) * (1 - b) * (t[1] - t[0]) + std::sqrt(a) * b * (t[2] - t[0]);
      const Vector3d across = (t[1] - t[0]).cross(t[2] - t[0]);
      if (across.norm() < 1e-6) continue;
      const Vector3d n = across.normalized();
      const auto hit = firstHit(tree, p - 1e-6 * n, -n, 20);
      if (!hit) continue;
      const TriangleCorners& other = tree.triangles()[hit->triangle];
      const Vector3d m = (other[1] - other[0]).cross(other[2] - other[0]).normalized();
      if (m.dot(n) > -0.6) continue;
      EXPECT_GE(hit->distanceMm + 1e-5, place.lowerMm) << name << ' ' << p.transpose();
      ++compared;
    }
    EXPECT_GT(compared, 200u);
  }
}

}  // namespace
}  // namespace swingroom
