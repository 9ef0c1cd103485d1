// Closed forms: |(3, 4, 12)| = 13.
#include "app/viewport/tools/measure_snap.h"

#include <gtest/gtest.h>

namespace swingroom {
namespace {

SnapPoint onFace(const Vector3d& at, const Vector3d& normal) {
  return {SnapPoint::Kind::face, {}, at, normal.normalized()};
}

Measured between(const SnapPoint& from, const SnapPoint& to) {
  return measured(from, to, Vector3d::UnitZ(), -Vector3d::UnitY());
}

TEST(Measure, AThicknessIsSquareToItsFacesWhereverTheyWereClicked) {
  const SnapPoint top = onFace({3, 4, 12}, {0, 0, 1}), under = onFace({0, 0, 0}, {0, 0, -1});
  const Measured found = between(under, top);
  EXPECT_DOUBLE_EQ(found.distanceMm, 13);
  ASSERT_TRUE(found.facesMm);
  EXPECT_DOUBLE_EQ(*found.facesMm, 12);
  EXPECT_DOUBLE_EQ(found.lengthMm(), 12);
  EXPECT_TRUE(measuredText(found).endsWith(QStringLiteral(", faces parallel, 12.00 apart")));
}

TEST(Measure, FacesThatMeetAndCornersHaveTheirDistanceOnly) {
  const Measured turned = between(onFace({0, 0, 0}, {0, 0, -1}), onFace({3, 4, 12}, {0, 1, 1}));
  EXPECT_FALSE(turned.facesMm);
  EXPECT_DOUBLE_EQ(turned.lengthMm(), 13);
  const Measured corners = between({SnapPoint::Kind::corner, {}, {0, 0, 0}, {}},
                                   {SnapPoint::Kind::corner, {}, {3, 4, 12}, {}});
  EXPECT_FALSE(corners.facesMm);
  EXPECT_DOUBLE_EQ(corners.lengthMm(), 13);
}

}  // namespace
}  // namespace swingroom
