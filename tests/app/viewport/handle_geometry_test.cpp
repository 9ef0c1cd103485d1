// Handles, rays and axes. Expected values are closed forms.
#include "app/viewport/tools/handle_geometry.h"

#include <gtest/gtest.h>

namespace swingroom {
namespace {

constexpr double kHandleExact = 1e-9;

/// Parallel, from the front (along +x), 100 mm over 400 pixels: y to the left... see `right_W`.
ViewProjection flatView() {
  ViewCamera camera = uprightCamera(Vector3d::UnitZ(), Vector3d::UnitX());
  camera.perspective = false;
  camera.spanMm = 100;
  return {camera, {600, 400}};
}
ViewProjection deepView(double yawRad, double pitchRad) {
  ViewCamera camera = uprightCamera(Vector3d::UnitZ(), Vector3d::UnitX());
  camera.yawRad = yawRad;
  camera.pitchRad = pitchRad;
  camera.spanMm = 100;
  return {camera, {600, 400}};
}

ViewHandle slideAlong(const Vector3d& point, const Vector3d& axis) {
  ViewHandle handle;
  handle.kind = ViewHandle::Kind::slide;
  handle.point_W = point;
  handle.axis_W = axis.normalized();
  handle.least = -50, handle.greatest = 50;
  return handle;
}

ViewHandle turnAbout(const Vector3d& point, const Vector3d& axis, const Vector3d& zero) {
  ViewHandle handle;
  handle.point_W = point;
  handle.axis_W = axis.normalized();
  handle.zero_W = zero.normalized();
  handle.least = -kPi, handle.greatest = kPi;
  return handle;
}

TEST(HandleGeometry, PlaceAlongAnAxisIsTheFootOfTheCommonNormal) {
  // Axis x through the origin; a ray along -z at x = 7, passing 3 beside it.
  const ViewHandle handle = slideAlong(Vector3d::Zero(), Vector3d::UnitX());
  EXPECT_NEAR(placeAlong(handle, {{7, 3, 20}, -Vector3d::UnitZ()}).value(), 7, kHandleExact);
  // Check value D-S5's lines: axis x, and the line through (5,-3,4) and (8,3,4): feet at x = 6.5.
  const Vector3d direction = Vector3d(3, 6, 0).normalized();
  EXPECT_NEAR(placeAlong(handle, {{5, -3, 4}, direction}).value(), 6.5, kHandleExact);
  EXPECT_FALSE(placeAlong(handle, {{0, 0, 1}, Vector3d(1, 0, 0.05).normalized()})) << "end-on";
}

TEST(HandleGeometry, AngleIsThatOfThePointOfThePlaneUnderTheRay) {
  const ViewHandle handle = turnAbout({1, 2, 3}, Vector3d::UnitZ(), Vector3d::UnitX());
  // Straight down onto (1 + 4, 2 + 4): 45 degrees; aslant through the same point as well.
  EXPECT_NEAR(angleAbout(handle, {{5, 6, 50}, -Vector3d::UnitZ()}).value(), kPi / 4, kHandleExact);
  const Vector3d eye(40, -30, 60);
  EXPECT_NEAR(angleAbout(handle, {eye, (Vector3d(5, 6, 3) - eye).normalized()}).value(), kPi / 4,
              kHandleExact);
  EXPECT_NEAR(angleAbout(handle, {{1, -9, 9}, -Vector3d::UnitZ()}).value(), -kPi / 2, kHandleExact);
  EXPECT_FALSE(angleAbout(handle, {{50, 0, 4}, Vector3d(-1, 0, -0.02).normalized()})) << "edge-on";
}

TEST(HandleGeometry, RadiusIsTheDistanceOfTwoLines) {
  // Check value D-C1: lines 34/5 apart.
  ViewHandle handle = slideAlong({1, 2, 3}, Vector3d::UnitX());
  EXPECT_NEAR(distanceFromAxis(handle, {{4, -2, 9}, Vector3d(0, 3, 4) / 5}), 6.8, kHandleExact);
  EXPECT_NEAR(distanceFromAxis(handle, {{-9, 5, 7}, Vector3d::UnitX()}), 5, kHandleExact)
      << "end-on: 3, 4, 5";
}

TEST(HandleGeometry, DraggedSlideStaysUnderTheMouse) {
  for (const ViewProjection& view : {flatView(), deepView(0.7, 0.5), deepView(-2.0, -0.4)}) {
    ViewHandle handle = slideAlong({3, -4, 5}, {0.2, 1, 0.4});
    handle.value = 2;
    HandleDrag drag(handle, view, view.pixel(knobOf(handle, view, 1)));
    for (const double wanted : {4.0, -11.0, 13.5}) {
      EXPECT_NEAR(drag.moveTo(view.pixel(handle.point_W + wanted * handle.axis_W), view, false),
                  wanted, 1e-6);
    }
  }
}

TEST(HandleGeometry, DraggedRingStaysUnderTheMouseAndTurnsRoundMoreThanOnce) {
  for (const ViewProjection& view : {deepView(0.7, 0.5), deepView(-2.0, -0.8)}) {
    ViewHandle handle =
        turnAbout({3, -4, 5}, {0.1, 0.2, 1}, Vector3d(0.1, 0.2, 1).unitOrthogonal());
    handle.value = 0.3;
    HandleDrag drag(handle, view, view.pixel(knobOf(handle, view, 1)));
    double value = 0.3;
    while (value < 0.3 + 2.5 * kPi) {
      value += 0.4;
      EXPECT_NEAR(drag.moveTo(view.pixel(trackPoint(handle, view, value, 1)), view, false), value,
                  1e-6);
    }
  }
}

TEST(HandleGeometry, FineIsATenthAndGoesOnFromThere) {
  const ViewProjection view = flatView();
  // Along the picture's right: 0.25 mm a pixel.
  const ViewHandle handle = slideAlong(Vector3d::Zero(), view.camera().right_W());
  HandleDrag drag(handle, view, {300, 200});
  EXPECT_NEAR(drag.moveTo({340, 200}, view, false), 10, kHandleExact);
  EXPECT_NEAR(drag.moveTo({380, 200}, view, true), 11, kHandleExact);
  EXPECT_NEAR(drag.moveTo({340, 200}, view, false), 1, kHandleExact);
}

TEST(HandleGeometry, EdgeOnRingIsPulledAsARack) {
  const ViewProjection view = flatView();  // Looks along -x.
  const ViewHandle handle = turnAbout(Vector3d::Zero(), Vector3d::UnitZ(), Vector3d::UnitX());
  // The ring is seen as a level line; its near side, at the eye, moves to +y when it turns onwards.
  const double radiusMm = ringRadiusMm(handle, view, 1);
  EXPECT_NEAR(radiusMm, kRingPixels * 0.25, kHandleExact);
  HandleDrag drag(handle, view, {300, 200});
  const double towardsY = view.camera().right_W().y() > 0 ? 1 : -1;
  const double value = drag.moveTo({320, 200}, view, false);
  EXPECT_NEAR(value, towardsY * 20 * 0.25 / radiusMm, 1e-6);
  EXPECT_NEAR(drag.moveTo({320, 260}, view, false), value, 1e-6) << "across it nothing happens";
}

TEST(HandleGeometry, RingHasTheSameSizeInPixelsFarAndNear) {
  ViewProjection near = deepView(0.2, 1.2);
  ViewCamera away = near.camera();
  away.spanMm = 900;
  const ViewProjection far(away, near.size());
  const ViewHandle handle =
      turnAbout(Vector3d::Zero(), near.camera().towards_W(), near.camera().right_W());
  for (const ViewProjection& view : {near, far}) {
    const double pixels = (view.pixel(knobOf(handle, view, 1)) - view.pixel(handle.point_W)).norm();
    EXPECT_NEAR(pixels, kRingPixels, 1e-6) << "seen square on";
  }
}

TEST(HandleGeometry, KnobIsPickedBeforeARingAndNothingBesideThem) {
  const ViewProjection view = deepView(0, kPi / 2);  // From above.
  const ViewHandle ring = turnAbout(Vector3d::Zero(), Vector3d::UnitZ(), Vector3d::UnitX());
  ViewHandle slide = slideAlong(Vector3d::Zero(), Vector3d::UnitX());
  slide.value = ringRadiusMm(ring, view, 1) + 0.5;  // Its knob all but on the ring's.
  const std::vector<ViewHandle> handles{ring, slide};
  EXPECT_EQ(handleAt(handles, view, view.pixel(trackPoint(ring, view, 2, 1))), 0u);
  EXPECT_EQ(handleAt(handles, view, view.pixel(knobOf(slide, view, 1))), 1u);
  EXPECT_FALSE(handleAt(handles, view, view.pixel(Vector3d::Zero())));
}

}  // namespace
}  // namespace swingroom
