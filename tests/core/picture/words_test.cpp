#include <gtest/gtest.h>

#include "tests/core/picture/picture_tools.h"

namespace swingroom {
namespace {

using namespace picture_tools;
using Box2 = Eigen::AlignedBox2d;

/// Words of 13 px take 0.6 of that a character on the average and 1.2 a line (common practice in
/// layout).
Box2 boxOfWords(const Eigen::Vector2d& middle, const std::string& text) {
  const Eigen::Vector2d half(0.3 * 13 * static_cast<double>(text.size()), 0.6 * 13);
  return {Eigen::Vector2d(middle - half), Eigen::Vector2d(middle + half)};
}

void expectApartAndInside(const Picture& picture) {
  std::vector<Box2> boxes;
  for (const PlacedLabel& label : picture.labels)
    boxes.push_back(boxOfWords(label.label, label.text));
  for (const PlacedDimension& one : picture.dimensions)
    boxes.push_back(boxOfWords(one.label, one.text));
  const Box2 whole(Eigen::Vector2d(0, 0),
                   Eigen::Vector2d(picture.image.width, picture.image.height));
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    EXPECT_TRUE(whole.contains(boxes[i])) << i;
    for (std::size_t k = 0; k < i; ++k)
      EXPECT_TRUE(boxes[i].intersection(boxes[k]).isEmpty()) << i << " " << k;
  }
}

TEST(Words, TwelveLabelsAtOnePointAreApartAndInside) {
  const TriangleMesh box = shapes::box({-9, -9, -9}, {9, 9, 9});
  for (const Vector3d& point :
       {Vector3d(0, 0, 0), Vector3d(19.9, 0, 14.9), Vector3d(-19, 0, -14)}) {
    PictureRequest request = frontView();
    request.shapes = {shown(box, kRed)};
    for (int i = 0; i < 12; ++i)
      request.labels.push_back({point, "turntable " + std::to_string(i)});
    const Picture picture = paint(request);
    EXPECT_EQ(picture.labels.size(), 12u);
    for (const PlacedLabel& label : picture.labels) {
      EXPECT_NEAR(label.point.x(), 200 + 10 * point.x(), 1e-6);
      EXPECT_NEAR(label.point.y(), 150 - 10 * point.z(), 1e-6);
    }
    expectApartAndInside(picture);
  }
}

TEST(Words, LabelsAndDimensionsKeepOutOfEachOthersWay) {
  const TriangleMesh box = shapes::box({-9, -9, -9}, {9, 9, 9});
  PictureRequest request = frontView();
  request.shapes = {shown(box, kRed)};
  request.dimensions = {{{Vector3d(-2, 0, 0), Vector3d(2, 0, 0)}, "4.00 mm"},
                        {{Vector3d(0, 0, 0), Vector3d(0, 0, 0.1)}, "0.10 mm"}};
  for (int i = 0; i < 6; ++i) request.labels.push_back({Vector3d(0.5 * i, 0, 0), "lid"});
  const Picture picture = paint(request);
  EXPECT_EQ(picture.dimensions.size(), 2u);
  EXPECT_EQ(picture.labels.size(), 6u);
  expectApartAndInside(picture);
}

TEST(Words, EndsOfADimensionAreWhereTheyProject) {
  const TriangleMesh box = shapes::box({-9, -9, -9}, {9, 9, 9});
  PictureRequest request = frontView({1, 2, 3});
  request.shapes = {shown(box, kRed)};
  request.dimensions = {{{Vector3d(-4, 11, 2), Vector3d(6, -7, 5)}, "10.4 mm"}};
  const Picture front = paint(request);
  ASSERT_EQ(front.dimensions.size(), 1u);
  EXPECT_NEAR(front.dimensions[0].ends[0].x(), 200 + 10 * (-4 - 1), 1e-9);
  EXPECT_NEAR(front.dimensions[0].ends[0].y(), 150 - 10 * (2 - 3), 1e-9);
  EXPECT_NEAR(front.dimensions[0].ends[1].x(), 200 + 10 * (6 - 1), 1e-9);
  EXPECT_NEAR(front.dimensions[0].ends[1].y(), 150 - 10 * (5 - 3), 1e-9);

  // Isometric projection (ISO 5456-3): a mm along each axis is sqrt(2/3) mm in the picture; x runs
  // down to the right and y up to the right at 30 degrees if the eye looks along (-1, 1, -1).
  request.view.towards = Vector3d(-1, 1, -1);
  request.dimensions[0].ends_W = {Vector3d(1, 2, 3), Vector3d(4, 2, 3)};
  const Picture isometric = paint(request);
  ASSERT_EQ(isometric.dimensions.size(), 1u);
  const double length = 30 * std::sqrt(2.0 / 3);
  EXPECT_NEAR(isometric.dimensions[0].ends[1].x(), 200 + length * std::cos(kPi / 6), 1e-9);
  EXPECT_NEAR(isometric.dimensions[0].ends[1].y(), 150 + length * std::sin(kPi / 6), 1e-9);
}

TEST(Words, WhatIsOutsideThePictureOrWiderThanItIsLeftOut) {
  const TriangleMesh box = shapes::box({-9, -9, -9}, {9, 9, 9});
  PictureRequest request = frontView();
  request.shapes = {shown(box, kRed)};
  request.labels = {{Vector3d(500, 0, 0), "far"},
                    {Vector3d(0, 0, 0), std::string(80, 'm')},
                    {Vector3d(std::nan(""), 0, 0), "nowhere"},
                    {Vector3d(0, 0, 0), "here"}};
  request.dimensions = {{{Vector3d(500, 0, 0), Vector3d(600, 0, 0)}, "100 mm"}};
  const Picture picture = paint(request);
  EXPECT_TRUE(picture.dimensions.empty());
  ASSERT_EQ(picture.labels.size(), 1u);
  EXPECT_EQ(picture.labels[0].text, "here");
}

TEST(Words, StandBesideTheShapeIfThereIsRoomNear) {
  const TriangleMesh box = shapes::box({-3, -3, -3}, {3, 3, 3});
  PictureRequest request = frontView();
  request.shapes = {shown(box, kRed)};
  request.labels = {{Vector3d(2.5, 0, 0), "pin"}};
  const Picture picture = paint(request);
  ASSERT_EQ(picture.labels.size(), 1u);
  const Box2 words = boxOfWords(picture.labels[0].label, "pin");
  EXPECT_TRUE(
      words.intersection(Box2(Eigen::Vector2d(170, 120), Eigen::Vector2d(230, 180))).isEmpty());
}

}  // namespace
}  // namespace swingroom
