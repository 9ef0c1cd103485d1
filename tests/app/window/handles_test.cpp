// Handles, grips and measuring in the 3D view by the real mouse, on the hatch box: closed forms in
// its README.
#include <QClipboard>
#include <QGuiApplication>
#include <QTest>
#include <algorithm>
#include <cmath>

#include "app/edits/joint_edits.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class HandlesInView : public OpenWindow {
 protected:
  Viewport& view() { return *window_->view(); }
  const ViewHandle& handle(std::size_t i) { return view().handles().handles().at(i); }
  QPointF seenAt(const Vector3d& p_W) {
    const Eigen::Vector2d pixel = view().projection().pixel(p_W);
    return {pixel.x(), pixel.y()};
  }
  /// Where the handle's knob is when it stands at a value.
  QPointF knobAt(std::size_t i, double value) {
    return seenAt(trackPoint(handle(i), view().projection(), value, 1));
  }
  double valueOf(const char* joint) {
    return session()
        .stand()
        .standing()
        .values[session().scene()->assembly().findJoint(joint)->index]
        .x();
  }
  double lidDeg() { return degFromRad(valueOf("lid hinge")); }
};

TEST_F(HandlesInView, LidsHandleStopsAtTheKeeperAndEscapeTakesItBack) {
  open();
  chooseJointsKnown("lid");
  const QPointF from = knobAt(0, 0), aim = knobAt(0, radFromDeg(60));
  hand_.press(view(), from);
  hand_.moveTo(view(), (from + aim) / 2);
  hand_.moveTo(view(), aim);
  EXPECT_NEAR(lidDeg(), keeperDeg(), 1e-4);
  EXPECT_TRUE(handle(0).text.contains(QStringLiteral("box touches bolt")))
      << handle(0).text.toStdString();
  hand_.key(QStringLiteral("Escape"));
  EXPECT_EQ(lidDeg(), 0);
  hand_.release();
  EXPECT_FALSE(session().stand().isByHand());
  EXPECT_EQ(session().choice().part(), part("lid")) << "no click beside it";

  hand_.press(view(), from);
  hand_.moveTo(view(), aim);
  hand_.release();
  EXPECT_NEAR(lidDeg(), keeperDeg(), 1e-4);
}

TEST_F(HandlesInView, UnboltedLidFollowsTheMouseOverItsWholeRange) {
  open();
  chooseJointsKnown("bolt");
  const QPointF start = knobAt(0, 0), back = knobAt(0, 9);
  hand_.press(view(), start);
  hand_.moveTo(view(), back);
  hand_.release();
  EXPECT_EQ(valueOf("bolt slide"), 8) << "its range ends";
  chooseJointsKnown("lid");
  const double onePixelDeg = degFromRad(1 / kRingPixels);
  const QPointF from = knobAt(0, 0), half = knobAt(0, radFromDeg(45)),
                far = knobAt(0, radFromDeg(80));
  hand_.press(view(), from);
  hand_.moveTo(view(), half);
  EXPECT_NEAR(lidDeg(), 45, 4 * onePixelDeg) << "the ring is seen aslant";
  hand_.moveTo(view(), far);
  EXPECT_NEAR(lidDeg(), 80, 4 * onePixelDeg);
  hand_.release();
}

TEST_F(HandlesInView, ZonesEndIsDraggedAsOneEditThatCanBeUndone) {
  open();
  chooseJointsKnown("lid");
  // The hinge's handle, then from, to, radius of both zones.
  ASSERT_EQ(view().handles().handles().size(), 7u);
  ASSERT_NEAR(handle(5).value, 26.9, 1e-9);
  const QPointF from = knobAt(5, 26.9), aim = knobAt(5, 32);
  hand_.press(view(), from);
  hand_.moveTo(view(), (from + aim) / 2);
  hand_.moveTo(view(), aim);
  EXPECT_EQ(bytes(), original_);
  hand_.release();
  const auto size = edits::zoneSize(session().document().document(), "lid hinge", 1);
  ASSERT_TRUE(size);
  const double pixelMm =
      view().projection().mmPerPixel(view().projection().depthMm(handle(5).point_W));
  EXPECT_NEAR(*size->to, 32, 3 * pixelMm);
  EXPECT_EQ(*size->to, edits::toZoneStep(*size->to));
  EXPECT_EQ(size->from, 20.3);
  EXPECT_EQ(session().document().undoStack().count(), 1);
  waitForCheck();
  hand_.key(QStringLiteral("ctrl+z"));
  ASSERT_TRUE(soon([&] { return !session().document().isModified(); }));
  EXPECT_EQ(edits::zoneSize(session().document().document(), "lid hinge", 1)->to, 26.9);
}

TEST_F(HandlesInView, DistanceOfTwoCornersIsThatOfTheMesh) {
  open();
  view().lookFrom(Viewport::LookFrom::top);
  QTest::qWait(200);
  // The box's outer corners, by its mesh.
  const auto& vertices = session().scene()->assembly().part(part("box")).mesh->vertices;
  const auto cornerNear = [&](double x, double y) {
    return *std::max_element(
        vertices.begin(), vertices.end(), [&](const Vector3d& a, const Vector3d& b) {
          return x * a.x() + y * a.y() + 0.01 * a.z() < x * b.x() + y * b.y() + 0.01 * b.z();
        });
  };
  // Those at the front: the back ones may lie under the view's own buttons.
  const Vector3d a = cornerNear(-1, -1), b = cornerNear(1, -1);
  hand_.key(QStringLiteral("m"));
  ASSERT_TRUE(view().measure().isOn());
  // A little inside the corner: the corner is snapped to.
  const Vector3d inA = a + Vector3d(0.5, 0.5, 0), inB = b + Vector3d(-0.5, 0.5, 0);
  ASSERT_TRUE(view().pick(seenAt(inA)) && view().pick(seenAt(inB)));
  hand_.click(view(), seenAt(inA));
  hand_.click(view(), seenAt(inB));
  ASSERT_TRUE(soon([&] { return !view().measure().text().isEmpty(); }));
  const QString text = view().measure().text();
  EXPECT_TRUE(text.startsWith(QStringLiteral("%1 mm").arg((a - b).norm(), 0, 'f', 2)))
      << text.toStdString();
  EXPECT_FALSE(session().choice().part()) << "clicks measure, they do not choose";
  hand_.key(QStringLiteral("ctrl+c"));
  EXPECT_EQ(QGuiApplication::clipboard()->text(), text);
  hand_.key(QStringLiteral("Escape"));
  EXPECT_FALSE(view().measure().isOn());
}

}  // namespace
}  // namespace swingroom
