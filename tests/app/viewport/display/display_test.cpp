#include <gtest/gtest.h>

#include <QApplication>
#include <QSignalSpy>
#include <QTest>
#include <cmath>

#include "app/viewport/viewport.h"
#include "tests/support/shapes.h"

// The 3D view as it is drawn, by whatever OpenGL the display has.
namespace swingroom {
namespace {

ViewPart partOf(const TriangleMesh& mesh, Rgb colour) {
  ViewPart part;
  part.surface = std::make_shared<const Surface>(std::make_shared<const TriangleMesh>(mesh));
  part.colour = colour;
  return part;
}

int difference(const QColor& a, const QColor& b) {
  return std::max({std::abs(a.red() - b.red()), std::abs(a.green() - b.green()),
                   std::abs(a.blue() - b.blue())});
}

class ViewportOnDisplay : public ::testing::Test {
 protected:
  void show(const std::vector<ViewPart>& parts) {
    scene_.parts = parts;
    view_.setReducedMotion(true);
    view_.resize(800, 600);
    view_.setScene(scene_);
    view_.setPoses(std::vector<Pose>(parts.size(), Pose::Identity()));
    view_.show();
    ASSERT_TRUE(QTest::qWaitFor([&] { return view_.framesDrawn() > 0; }, 10'000))
        << qPrintable(view_.failure());
    ASSERT_EQ(view_.failure(), QString());
  }
  /// Until nothing more is to be drawn.
  void settle() {
    int before = -1;
    while (before != view_.framesDrawn()) {
      before = view_.framesDrawn();
      QTest::qWait(400);
    }
  }
  int countNear(const QImage& image, const QColor& colour, const QRect& within) const {
    int count = 0;
    for (int y = within.top(); y <= within.bottom(); ++y) {
      for (int x = within.left(); x <= within.right(); ++x)
        count += difference(image.pixelColor(x, y), colour) < 24;
    }
    return count;
  }

  ViewScene scene_;
  Viewport view_;
  ViewColours colours_;
};

// Closed form: pi r^2. From below, where no floor is drawn. The outline stands out half its width,
// 0.6 pixels of 240: half a per cent of the area.
TEST_F(ViewportOnDisplay, SphereInParallelViewCoversItsDisc) {
  show({partOf(shapes::sphere(20, 5), {40, 60, 90})});
  view_.setPerspective(false);
  view_.lookFrom(Viewport::LookFrom::below);
  const QImage picture = view_.picture();
  int covered = 0;
  for (int y = 0; y < picture.height(); ++y) {
    for (int x = 0; x < picture.width(); ++x)
      covered += difference(picture.pixelColor(x, y), colours_.ground) > 48;
  }
  const double radius = 20 / (view_.camera().spanMm / 600);
  EXPECT_NEAR(covered, kPi * radius * radius, 0.01 * kPi * radius * radius);
  EXPECT_GT(radius, 200);
}

TEST_F(ViewportOnDisplay, OverlapIsHatchedInItsRectangleAndNowhereElse) {
  show({partOf(shapes::box({0, 0, 0}, {20, 20, 20}), {40, 60, 90}),
        partOf(shapes::box({0, 0, 0}, {20, 20, 20}), {90, 120, 60})});
  view_.setPoses({Pose::Identity(), translation({15, 12, 7})});
  view_.setPerspective(false);
  view_.lookFrom(Viewport::LookFrom::front);
  const QRect all(0, 0, 800, 600);
  EXPECT_EQ(countNear(view_.picture(), colours_.clash, all), 0);
  view_.setEmphasis({{PartId{0}, PartId{1}}, true});
  // The common box's corners as the camera sees them.
  const Eigen::Vector2d low = view_.projection().pixel({20, 12, 20}),
                        high = view_.projection().pixel({20, 20, 7});
  const QRect common(QPoint(int(low.x()), int(low.y())), QPoint(int(high.x()), int(high.y())));
  const int inside = countNear(view_.picture(), colours_.clash, common.adjusted(-1, -1, 1, 1));
  EXPECT_EQ(countNear(view_.picture(), colours_.clash, all), inside);
  // Hatching of about a quarter, at least.
  EXPECT_GT(inside, common.width() * common.height() / 5);
  view_.setPoses({Pose::Identity(), translation({15, 21, 7})});
  EXPECT_EQ(countNear(view_.picture(), colours_.clash, all), 0);
}

TEST_F(ViewportOnDisplay, NothingIsDrawnAgainForAnEqualValue) {
  show({partOf(shapes::box({-5, -5, -5}, {5, 5, 5}), {40, 60, 90})});
  const ViewDimension dimension{{Vector3d(0, 0, 0), Vector3d(1, 0, 0)}, QStringLiteral("1.00 mm")};
  const ViewAxis axis{Vector3d(0, 0, 0), Vector3d(0, 0, 1), -9, 9, true, true};
  const auto setAll = [&] {
    ViewScene scene = scene_;
    view_.setScene(scene);
    view_.setPoses({translation({0, 0, 2})});
    view_.setEmphasis({{PartId{0}}, false});
    view_.setDimension(dimension);
    view_.setAxes({axis});
    view_.setZones({ViewZone{Vector3d(0, 0, 0), Vector3d(0, 0, 1), 3, 0}});
    view_.setColours(ViewColours());
    view_.setPerspective(true);
  };
  setAll();
  settle();
  const int before = view_.framesDrawn();
  setAll();
  QTest::qWait(400);
  EXPECT_EQ(view_.framesDrawn(), before);
  view_.setPoses({translation({0, 0, 3})});
  settle();
  EXPECT_EQ(view_.framesDrawn(), before + 2);  // One at once, and the fine one when calm.
}

TEST_F(ViewportOnDisplay, OthersLoseTheirColourChosenOnesKeepIt) {
  show({partOf(shapes::box({-5, -15, -5}, {5, -5, 5}), {200, 40, 40}),
        partOf(shapes::box({-5, 5, -5}, {5, 15, 5}), {200, 40, 40})});
  view_.lookFrom(Viewport::LookFrom::front);
  view_.setEmphasis({{PartId{0}}, false});
  const QImage picture = view_.picture();
  const auto saturation = [&](const Vector3d& p) {
    const Eigen::Vector2d seen = view_.projection().pixel(p);
    return picture.pixelColor(int(seen.x()), int(seen.y())).saturation();
  };
  EXPECT_GT(saturation({5, -10, 0}), 150);
  EXPECT_LT(saturation({5, 10, 0}), 60);
}

TEST_F(ViewportOnDisplay, DragKeepsThePointUnderTheCursor) {
  show({partOf(shapes::box({-10, -10, -10}, {10, 10, 10}), {40, 60, 90})});
  const QPoint from(430, 330), to(520, 290);
  const auto grabbed = view_.pick(from);
  ASSERT_TRUE(grabbed);
  QTest::mousePress(&view_, Qt::MiddleButton, {}, from);
  QTest::mouseMove(&view_, to);
  QTest::mouseRelease(&view_, Qt::MiddleButton, {}, to);
  EXPECT_LT((view_.projection().pixel(grabbed->p_W) - Eigen::Vector2d(to.x(), to.y())).norm(),
            1e-6);

  QSignalSpy clicks(&view_, &Viewport::partClicked);
  const auto pivot = view_.pick(to);
  QTest::mousePress(&view_, Qt::LeftButton, {}, to);
  QTest::mouseMove(&view_, to + QPoint(40, 25));
  QTest::mouseRelease(&view_, Qt::LeftButton, {}, to + QPoint(40, 25));
  EXPECT_LT((view_.projection().pixel(pivot->p_W) - Eigen::Vector2d(to.x(), to.y())).norm(), 1e-6);
  EXPECT_EQ(clicks.count(), 0);
  QTest::mouseClick(&view_, Qt::LeftButton, Qt::ControlModifier, to);
  ASSERT_EQ(clicks.count(), 1);
  EXPECT_EQ(clicks[0][0].value<std::optional<PartId>>(), PartId{0});
  QTest::mouseClick(&view_, Qt::LeftButton, {}, QPoint(5, 5));
  EXPECT_FALSE(clicks.at(1)[0].value<std::optional<PartId>>());
}

TEST_F(ViewportOnDisplay, ArrowKeysAreLeftToOthers) {
  show({partOf(shapes::box({-10, -10, -10}, {10, 10, 10}), {40, 60, 90})});
  for (const int key : {Qt::Key_Left, Qt::Key_Right, Qt::Key_Up, Qt::Key_Down, Qt::Key_Space}) {
    QKeyEvent event(QEvent::KeyPress, key, Qt::NoModifier);
    QApplication::sendEvent(&view_, &event);
    EXPECT_FALSE(event.isAccepted()) << key;
  }
  const bool before = view_.perspective();
  QTest::keyClick(&view_, Qt::Key_P);
  EXPECT_NE(view_.perspective(), before);
}

TEST_F(ViewportOnDisplay, AMillionTrianglesAreDrawn) {
  show({partOf(shapes::torus(40, 15, 1000, 500), {40, 60, 90})});
  const Eigen::Vector2d seen = view_.projection().pixel({55, 0, 0});
  EXPECT_GT(difference(view_.picture().pixelColor(int(seen.x()), int(seen.y())), colours_.ground),
            48);
}

TEST_F(ViewportOnDisplay, SurvivesANewWindow) {
  show({partOf(shapes::box({-10, -10, -10}, {10, 10, 10}), {40, 60, 90})});
  QWidget other;
  other.resize(700, 500);
  view_.setParent(&other);
  view_.setGeometry(0, 0, 700, 500);
  other.show();
  view_.show();
  QTest::qWait(300);
  EXPECT_EQ(view_.failure(), QString());
  EXPECT_GT(difference(view_.picture().pixelColor(350, 250), colours_.ground), 48);
  view_.setParent(nullptr);
}

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) {
  ::testing::InitGoogleTest(&argc, argv);
  QApplication app(argc, argv);
  return RUN_ALL_TESTS();
}
