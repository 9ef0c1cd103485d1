#include <gtest/gtest.h>

#include "core/mesh/mass_properties.h"
#include "core/picture/overlap.h"
#include "tests/core/picture/picture_tools.h"

namespace swingroom {
namespace {

using namespace picture_tools;

/// Boxes whose common volume, x -4..4, z -2..6, is seen at 160..240 by 90..170 pixels.
const TriangleMesh kLeftBox = shapes::box({-10, 0, -8}, {4, 10, 6});
const TriangleMesh kRightBox = shapes::box({-4, 5, -2}, {10, 20, 10});
const TriangleMesh kScreen = shapes::box({-11, -9, -11}, {11, -5, 11});

bool isVermillion(const Rgb& c) {
  return std::abs(c.red - 0xD5) + std::abs(c.green - 0x5E) + c.blue < 40;
}

void expectHatchedExactly(PictureRequest request, int left, int right, int top, int bottom) {
  request.overlap.reset();
  const Image plain = paint(request).image;
  request.overlap = {{0, 1}};
  const Image hatched = paint(request).image;
  int inked = 0, all = 0;
  for (int y = 0; y < plain.height; ++y) {
    for (int x = 0; x < plain.width; ++x) {
      const bool differs = pixel(plain, x, y) != pixel(hatched, x, y);
      // The pale rim goes at most two pixels beyond.
      if (x < left - 2 || x >= right + 2 || y < top - 2 || y >= bottom + 2) {
        ASSERT_FALSE(differs) << x << " " << y;
      } else if (x >= left && x < right && y >= top && y < bottom) {
        ASSERT_TRUE(differs) << x << " " << y;
        inked += isVermillion(pixel(hatched, x, y));
        ++all;
      }
    }
  }
  EXPECT_GT(inked, all / 6);
  EXPECT_LT(inked, all / 2);
  EXPECT_TRUE(isVermillion(pixel(hatched, left, (top + bottom) / 2)));
  EXPECT_TRUE(isVermillion(pixel(hatched, right - 1, (top + bottom) / 2)));
}

TEST(OverlapHatching, IsWhereTheCommonVolumeProjects) {
  PictureRequest request = frontView();
  request.shapes = {shown(kLeftBox, kRed), shown(kRightBox, kBlue)};
  expectHatchedExactly(request, 160, 240, 90, 170);
}

TEST(OverlapHatching, IsSeenThroughAThirdShapeInFrontAndWithSurfacesTurnedRound) {
  const TriangleMesh turned = shapes::reversed(kRightBox);
  PictureRequest request = frontView();
  request.shapes = {shown(kLeftBox, kRed), shown(turned, kBlue), shown(kScreen, kGrey)};
  expectHatchedExactly(request, 160, 240, 90, 170);
}

TEST(OverlapHatching, IsNotWhereShapesOnlyTouchOrStandBehindEachOther) {
  const TriangleMesh other = shapes::box({-8, 10, -8}, {8, 14, 8});  // On the left box's back.
  for (const double apart : {0.0, 5.0}) {
    PictureRequest request = frontView();
    request.shapes = {shown(kLeftBox, kRed), shown(other, kBlue, translation({0, apart, 0}))};
    const Image plain = paint(request).image;
    request.overlap = {{0, 1}};
    EXPECT_EQ(paint(request).image, plain) << apart;
  }
}

TEST(OverlapHatching, IsNotGuessedWhereASurfaceIsOpen) {
  TriangleMesh open = kRightBox;
  std::erase_if(open.triangles, [&](const Triangle& triangle) {
    return open.vertices[triangle[0]].y() + open.vertices[triangle[1]].y() +
               open.vertices[triangle[2]].y() >
           59;
  });
  ASSERT_EQ(open.triangles.size(), 10u);  // Without its back.
  PictureRequest request = frontView();
  request.shapes = {shown(kLeftBox, kRed), shown(open, kBlue)};
  const Image plain = paint(request).image;
  request.overlap = {{0, 1}};
  EXPECT_EQ(paint(request).image, plain);
}

// A closed surface is entered as often as it is left on every ray, also through its edges and
// corners, and the lengths inside add up to its volume. 900 x 700 samples at 0.05 mm; the sum over
// a grid errs by far less than 0.1 %.
TEST(Raster, RaysThroughAClosedSurfaceMeasureItsVolume) {
  std::mt19937_64 random(11);
  for (const TriangleMesh& mesh :
       {shapes::box({-5, -4, -3}, {6, 5, 4}), shapes::torus(8, 3, 20, 11)}) {
    PictureRequest request = frontView();
    request.shapes = {shown(mesh, kRed, shapes::randomPose(random, 1))};
    const Camera camera = fitCamera(request);
    const SeenSurface surface = makeSeenSurface(request, camera);
    const SampleRows rows{800, 0, 600, 2};
    std::vector<int> turns(rows.size(), 0);
    double lengths = 0;
    for (const DrawnTriangle& triangle : surface.triangles) {
      forEachCovered(triangle, rows, [&](const Covered& covered) {
        turns[covered.index] += covered.clockwise ? 1 : -1;
        lengths += covered.clockwise ? covered.depth : -covered.depth;
      });
    }
    EXPECT_EQ(std::count(turns.begin(), turns.end(), 0), static_cast<std::ptrdiff_t>(turns.size()));
    const double volume = massProperties(mesh).volumeMm3;
    EXPECT_NEAR(std::abs(lengths) * 0.05 * 0.05, volume, 1e-3 * volume);
  }
}

// Axis-parallel, with corners and edges exactly on samples: the hardest case for counting.
TEST(Raster, EachSampleOfASharedEdgeBelongsToOneTriangle) {
  const TriangleMesh box = shapes::box({-5.05, -1, -5.05}, {4.95, 1, 4.95});
  PictureRequest request = frontView();
  request.shapes = {shown(box, kRed)};
  const Camera camera = fitCamera(request);
  const SeenSurface surface = makeSeenSurface(request, camera);
  const SampleRows rows{400, 0, 300, 1};
  std::vector<int> count(rows.size(), 0);
  for (const DrawnTriangle& triangle : surface.triangles) {
    forEachCovered(triangle, rows, [&](const Covered& covered) { ++count[covered.index]; });
  }
  int covered = 0;
  for (const int times : count) {
    ASSERT_TRUE(times == 0 || times == 2) << times;
    covered += times == 2;
  }
  EXPECT_NEAR(covered, 100 * 100, 200);  // 10 mm square; its border may fall to either side.
}

}  // namespace
}  // namespace swingroom
