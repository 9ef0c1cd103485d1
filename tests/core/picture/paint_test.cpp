#include <gtest/gtest.h>

#include "tests/core/picture/picture_tools.h"

namespace swingroom {
namespace {

using namespace picture_tools;

/// A red box nearer in -y than a blue one that is larger, seen from `towards`.
Image boxBeforeBox(const Vector3d& towards) {
  const TriangleMesh front = shapes::box({-3, -8, -3}, {3, -6, 3});
  const TriangleMesh back = shapes::box({-8, 6, -8}, {8, 8, 8});
  PictureRequest request = frontView();
  request.view.towards = towards;
  request.shapes = {shown(front, kRed), shown(back, kBlue)};
  return paint(request).image;
}

TEST(Painting, TheNearerOfTwoBoxesIsSeen) {
  const Image image = boxBeforeBox(Vector3d::UnitY());
  // 10 pixels a mm, so the red box covers 170..230 by 120..180, the blue one 120..280 by 70..230.
  for (const int x : {173, 200, 226})
    EXPECT_GT(pixel(image, x, 150).red, pixel(image, x, 150).blue) << x;
  for (const int x : {125, 166, 234, 275})
    EXPECT_LT(pixel(image, x, 150).red, pixel(image, x, 150).blue) << x;
  for (const int y : {75, 116, 184, 225})
    EXPECT_LT(pixel(image, 200, y).red, pixel(image, 200, y).blue) << y;
}

TEST(Painting, FromBehindTheOtherBoxIsSeen) {
  const Image image = boxBeforeBox(-Vector3d::UnitY());
  for (int x = 124; x < 277; ++x)
    ASSERT_LT(pixel(image, x, 150).red, pixel(image, x, 150).blue) << x;
}

TEST(Painting, NothingIsPaintedBesideTheShapes) {
  const Image image = boxBeforeBox(Vector3d::UnitY());
  for (int y = 0; y < image.height; ++y) {
    for (int x = 0; x < image.width; ++x) {
      // An outline is at most two pixels wide.
      if (x > 117 && x < 282 && y > 67 && y < 232) continue;
      ASSERT_EQ(pixel(image, x, y), kPaper) << x << " " << y;
    }
  }
}

TEST(Painting, RightIsRightAndUpIsUp) {
  const TriangleMesh box = shapes::box({4, 0, 5}, {8, 4, 9});
  PictureRequest request = frontView();
  request.shapes = {shown(box, kRed)};
  const Image image = paint(request).image;
  EXPECT_GT(pixel(image, 260, 80).red, pixel(image, 260, 80).blue + 50);
  EXPECT_EQ(pixel(image, 140, 80), kPaper);
  EXPECT_EQ(pixel(image, 260, 220), kPaper);
}

TEST(Painting, WithoutFocusTheShapesFillThePictureToItsMargin) {
  const TriangleMesh box = shapes::box({100, 0, 50}, {140, 7, 60});
  PictureRequest request = frontView();
  request.view.focus.reset();
  request.shapes = {shown(box, kRed)};
  const Image image = paint(request).image;
  // 40 mm between margins of 21 pixels: 8.95 pixels a mm, 89.5 pixels high.
  EXPECT_NE(pixel(image, 23, 150), kPaper);
  EXPECT_NE(pixel(image, 376, 150), kPaper);
  EXPECT_EQ(pixel(image, 18, 150), kPaper);
  EXPECT_EQ(pixel(image, 381, 150), kPaper);
  EXPECT_NE(pixel(image, 200, 108), kPaper);
  EXPECT_EQ(pixel(image, 200, 102), kPaper);
}

PictureRequest busyScene(const TriangleMesh& torus, const TriangleMesh& box) {
  PictureRequest request;
  request.width = 321;
  request.height = 203;
  request.floor = true;
  std::mt19937_64 random(7);
  for (int i = 0; i < 6; ++i) {
    request.shapes.push_back(
        shown(i % 2 ? torus : box, i % 3 ? kRed : kBlue, shapes::randomPose(random, 15)));
    request.shapes.back().pale = i == 2;
    request.shapes.back().clear = i == 3;
    request.labels.push_back(
        {request.shapes.back().X_WP.translation(), "part " + std::to_string(i)});
  }
  request.overlap = {{0, 1}};
  return request;
}

TEST(Painting, OneThreadAndThreeGiveTheSameBytesAndSoDoesASecondRun) {
  const TriangleMesh torus = shapes::torus(10, 4, 24, 12),
                     box = shapes::box({-9, -9, -9}, {9, 9, 9});
  PictureRequest request = busyScene(torus, box);
  const std::string once = toSvg(paint(request), "busy");
  EXPECT_EQ(toSvg(paint(request), "busy"), once);
  request.threads = 3;
  EXPECT_EQ(toSvg(paint(request), "busy"), once);
}

TEST(Painting, PaleIsNearerToTheGroundAndStillSolid) {
  const TriangleMesh box = shapes::box({-5, -5, -5}, {5, 5, 5}),
                     behind = shapes::box({-5, 6, -5}, {5, 9, 5});
  PictureRequest request = frontView();
  request.shapes = {shown(box, kRed)};
  const Rgb full = pixel(paint(request).image, 200, 150);
  request.shapes[0].pale = true;
  const Rgb pale = pixel(paint(request).image, 200, 150);
  EXPECT_GT(lightness(pale), lightness(full) + 60);
  EXPECT_LT(pale.red - pale.blue, (full.red - full.blue) / 2);
  EXPECT_LT(lightness(pale), lightness(kPaper) - 20);
  request.shapes.push_back(shown(behind, kBlue));
  EXPECT_EQ(pixel(paint(request).image, 200, 150), pale);
}

TEST(Painting, ThroughAClearShapeTheOneBehindIsSeen) {
  const TriangleMesh window = shapes::box({-9, -5, -9}, {9, -4, 9}),
                     behind = shapes::box({-5, 6, -5}, {5, 9, 5});
  PictureRequest request = frontView();
  request.shapes = {shown(window, kBlue), shown(behind, kRed)};
  EXPECT_LT(pixel(paint(request).image, 200, 150).red, pixel(paint(request).image, 200, 150).blue);
  request.shapes[0].clear = true;
  const Image image = paint(request).image;
  EXPECT_GT(pixel(image, 200, 150).red, pixel(image, 200, 150).blue);
  EXPECT_NE(pixel(image, 130, 150), kPaper);          // The window alone leaves a tint,
  EXPECT_GT(lightness(pixel(image, 130, 150)), 500);  // a light one.
}

TEST(Painting, ALineShowsWhereTwoFlushShapesMeet) {
  const TriangleMesh left = shapes::box({-8, 0, -8}, {0, 4, 8}),
                     right = shapes::box({0, 0, -8}, {8, 4, 8});
  PictureRequest request = frontView();
  request.shapes = {shown(left, kGrey), shown(right, kGrey)};
  const Image image = paint(request).image;
  const int face = lightness(pixel(image, 160, 150));
  EXPECT_LT(lightness(pixel(image, 199, 150)) + lightness(pixel(image, 200, 150)), 2 * face - 200);
  EXPECT_EQ(lightness(pixel(image, 190, 150)), face);
  EXPECT_EQ(lightness(pixel(image, 210, 150)), face);
}

/// Largest step of lightness between neighbours in the middle row, away from the outline.
int largestStep(const TriangleMesh& prism) {
  PictureRequest request = frontView();
  request.shapes = {shown(prism, kGrey)};
  const Image image = paint(request).image;
  int largest = 0;
  for (int x = 115; x < 285; ++x) {
    largest = std::max(
        largest, std::abs(lightness(pixel(image, x, 150)) - lightness(pixel(image, x + 1, 150))));
  }
  return largest;
}

TEST(Painting, EdgesOfMoreThan30DegreesAreLinesAndFinerFacetsAreNot) {
  EXPECT_GT(largestStep(shapes::cylinder(9, -9, 9, 8)), 80);  // 45 degrees an edge.
  EXPECT_LT(largestStep(shapes::cylinder(9, -9, 9, 12)),
            30);  // 30 degrees, in rounded coordinates.
  EXPECT_LT(largestStep(shapes::cylinder(9, -9, 9, 48)), 30);
}

TEST(Painting, TheFloorIsAGridThatFadesBeforeTheCorners) {
  const TriangleMesh box = shapes::box({-10, -10, 0}, {10, 10, 10});
  PictureRequest request;
  request.shapes = {shown(box, kRed)};
  request.view.focus = {Vector3d(0, 0, 0), 30};
  const Image without = paint(request).image;
  request.floor = true;
  const Image with = paint(request).image;
  std::size_t changed = 0;
  for (std::size_t i = 0; i < with.pixels.size(); ++i)
    changed += with.pixels[i] != without.pixels[i];
  EXPECT_GT(changed, with.pixels.size() / 100);
  for (const int x : {0, 639}) {
    for (const int y : {0, 479}) EXPECT_EQ(pixel(with, x, y), kPaper);
  }
  request.view.towards = Vector3d(-1, 1, 0.6);
  const Image below = paint(request).image;
  request.floor = false;
  EXPECT_EQ(below, paint(request).image);
}

TEST(Painting, TheFloorIsDarkerUnderAShapeThatStandsOnIt) {
  const TriangleMesh box = shapes::box({-10, -10, 0}, {10, 10, 10});
  PictureRequest request = frontView({0, 0, 0});
  request.view.towards = Vector3d(0, 1, -1);
  request.shapes = {shown(box, kRed)};
  request.floor = true;
  const Image image = paint(request).image;
  // The box's front foot is at y = -10: 71 pixels below the middle; 1 mm of floor is 7.1 pixels.
  const int near = lightness(pixel(image, 230, 150 + 71 + 5)),
            far = lightness(pixel(image, 230, 150 + 71 + 45));
  EXPECT_LT(near, far - 20);
}

}  // namespace
}  // namespace swingroom
