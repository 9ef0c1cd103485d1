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
  /// Of the picture, where the point is seen.
  int saturationAt(const Vector3d& p_W) {
    const Eigen::Vector2d seen = view_.projection().pixel(p_W);
    return view_.picture().pixelColor(int(seen.x()), int(seen.y())).saturation();
  }
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

/// Seen square to the cut, in parallel view: areas are closed forms.
class SectionOnDisplay : public ViewportOnDisplay {
 protected:
  void showFromFront(const std::vector<ViewPart>& parts) {
    show(parts);
    view_.setPerspective(false);
    view_.lookFrom(Viewport::LookFrom::front);  // From +x.
  }
  void cutAt(double mm) { view_.setSection(ViewSection{Vector3d::UnitX(), Vector3d::UnitY(), mm}); }
  /// Pixels of a colour of that hue, hatched or not.
  int countHue(const QImage& image, int hue) const {
    int count = 0;
    for (int y = 0; y < image.height(); ++y) {
      for (int x = 0; x < image.width(); ++x) {
        const QColor colour = image.pixelColor(x, y);
        const int off = std::abs(colour.hsvHue() - hue);
        count += colour.hsvSaturation() > 60 && std::min(off, 360 - off) < 20;
      }
    }
    return count;
  }
  double pixelsAMm2() const {
    const double pixelsAMm = view_.height() / view_.camera().spanMm;
    return pixelsAMm * pixelsAMm;
  }
};

constexpr Rgb kReddish{200, 40, 40}, kGreenish{40, 160, 60};
constexpr int kRedHue = 0, kGreenHue = 130;

TEST_F(SectionOnDisplay, CutFaceFillsTheRingAndLeavesItsHoleOpen) {
  const Pose lying = Pose(Eigen::AngleAxisd(kPi / 2, Vector3d::UnitY()));
  showFromFront({partOf(shapes::moved(shapes::tube(9, 6, -7, 7, 96), lying), kGreenish)});
  cutAt(2);
  const int covered = countHue(view_.picture(), kGreenHue);
  // Rims are drawn half inside, and the hole shows the wall behind it by none: it is seen end on.
  const double ring = kPi * (9 * 9 - 6 * 6) * pixelsAMm2();
  EXPECT_NEAR(covered, ring, 0.06 * ring);
}

TEST_F(SectionOnDisplay, WhatLiesBeyondIsGoneAndTheCutFaceIsHatched) {
  showFromFront({partOf(shapes::box({-10, -10, -10}, {10, 10, 10}), kGreenish),
                 partOf(shapes::box({12, -10, -10}, {20, 10, 10}), kReddish)});
  EXPECT_EQ(countHue(view_.picture(), kGreenHue), 0) << "it stands behind the other";
  EXPECT_GT(countHue(view_.picture(), kRedHue), 10'000);
  cutAt(5);
  const QImage picture = view_.picture();
  EXPECT_EQ(countHue(picture, kRedHue), 0);
  EXPECT_NEAR(countHue(picture, kGreenHue), 400 * pixelsAMm2(), 0.04 * 400 * pixelsAMm2());
  // Along a row in its middle the hatching changes the colour again and again.
  int changes = 0;
  for (int x = 330; x < 470; ++x)
    changes += difference(picture.pixelColor(x, 300), picture.pixelColor(x + 1, 300)) > 24;
  EXPECT_GT(changes, 8);
  view_.setSection(std::nullopt);
  EXPECT_EQ(countHue(view_.picture(), kGreenHue), 0) << "whole again";
}

TEST_F(SectionOnDisplay, WherePartsOverlapTheCutHasTheColourOfAClash) {
  showFromFront({partOf(shapes::box({-10, -10, -10}, {10, 4, 10}), {60, 90, 200}),
                 partOf(shapes::box({-10, -2, -10}, {10, 12, 10}), kGreenish)});
  cutAt(0);
  const QImage picture = view_.picture();
  const Eigen::Vector2d low = view_.projection().pixel({0, -2, -10}),
                        high = view_.projection().pixel({0, 4, 10});
  const QRect common =
      QRect(QPoint(int(low.x()), int(high.y())), QPoint(int(high.x()), int(low.y())));
  const int inside = countNear(picture, colours_.clash, common.adjusted(-1, -1, 1, 1));
  EXPECT_GT(inside, common.width() * common.height() / 5);
  EXPECT_EQ(countNear(picture, colours_.clash, picture.rect()), inside);
}

TEST_F(SectionOnDisplay, OpenSurfaceIsCutWithoutAFace) {
  TriangleMesh open = shapes::box({-10, -10, -10}, {10, 10, 10});
  // Without the side at +y: the cut at x = 0 has one line less.
  std::erase_if(open.triangles, [&](const Triangle& t) {
    return std::all_of(t.begin(), t.end(), [&](auto v) { return open.vertices[v].y() > 9; });
  });
  showFromFront({partOf(open, kGreenish)});
  cutAt(0);
  // Into the box one sees the inside of its back: as much as a face, without hatching.
  const QImage picture = view_.picture();
  EXPECT_LT(difference(picture.pixelColor(380, 300), picture.pixelColor(420, 300)), 8);
}

TEST_F(SectionOnDisplay, NothingIsDrawnAgainForAnEqualSectionOrGhost) {
  showFromFront({partOf(shapes::box({-10, -10, -10}, {10, 10, 10}), kGreenish)});
  scene_.parts[0].ghost = true;
  const auto setBoth = [&] {
    ViewScene same = scene_;
    view_.setScene(same);
    cutAt(1.5);
  };
  setBoth();
  settle();
  const int before = view_.framesDrawn();
  setBoth();
  QTest::qWait(400);
  EXPECT_EQ(view_.framesDrawn(), before);
  cutAt(2);
  settle();
  EXPECT_EQ(view_.framesDrawn(), before + 2);
}

TEST_F(SectionOnDisplay, DraggingTheKnobAsksForAnotherPlace) {
  show({partOf(shapes::box({-10, -10, -10}, {10, 10, 10}), kGreenish)});
  cutAt(0);
  std::vector<double> wanted;
  QObject::connect(&view_, &Viewport::sectionWanted, [&](double mm) {
    wanted.push_back(mm);
    cutAt(mm);
  });
  const ViewCamera before = view_.camera();
  const auto handle = view_.sectionHandle();
  ASSERT_TRUE(handle);
  const QPoint from(int(std::lround(handle->place.x())), int(std::lround(handle->place.y())));
  const Eigen::Vector2d way = 30 * handle->way;
  const QPoint to = from + QPoint(int(std::lround(way.x())), int(std::lround(way.y())));
  QTest::mousePress(&view_, Qt::LeftButton, {}, from);
  QTest::mouseMove(&view_, to);
  QTest::mouseRelease(&view_, Qt::LeftButton, {}, to);
  ASSERT_FALSE(wanted.empty());
  EXPECT_NEAR(wanted.back(), 30 * handle->mmPerPixel, 0.05 * 30 * handle->mmPerPixel);
  EXPECT_EQ(view_.camera(), before) << "the eye stays";
}

TEST_F(ViewportOnDisplay, GhostLosesItsColour) {
  show({partOf(shapes::box({-5, -15, -5}, {5, -5, 5}), {200, 40, 40}),
        partOf(shapes::box({-5, 5, -5}, {5, 15, 5}), {200, 40, 40})});
  view_.lookFrom(Viewport::LookFrom::front);
  scene_.parts[1].ghost = true;
  view_.setScene(scene_);
  EXPECT_GT(saturationAt({5, -10, 0}), 150);
  EXPECT_LT(saturationAt({5, 10, 0}), 60);
}

TEST_F(ViewportOnDisplay, OthersLoseTheirColourChosenOnesKeepIt) {
  show({partOf(shapes::box({-5, -15, -5}, {5, -5, 5}), {200, 40, 40}),
        partOf(shapes::box({-5, 5, -5}, {5, 15, 5}), {200, 40, 40})});
  view_.lookFrom(Viewport::LookFrom::front);
  view_.setEmphasis({{PartId{0}}, false});
  EXPECT_GT(saturationAt({5, -10, 0}), 150);
  EXPECT_LT(saturationAt({5, 10, 0}), 60);
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

TEST_F(ViewportOnDisplay, LargeMeshesAppearWhenTheyAreReady) {
  show({partOf(shapes::box({-1, -1, -1}, {1, 1, 1}), {40, 60, 90})});
  scene_.parts.push_back(partOf(shapes::torus(40, 15, 300, 150), {200, 40, 40}));
  view_.setScene(scene_);
  view_.setPoses({Pose::Identity(), Pose::Identity()});
  EXPECT_TRUE(view_.isWaiting()) << "the window did not wait for it";
  view_.fit();
  ASSERT_TRUE(QTest::qWaitFor([&] { return !view_.isWaiting(); }, 20'000));
  settle();
  const Eigen::Vector2d seen = view_.projection().pixel({55, 0, 0});
  EXPECT_TRUE(view_.pick({seen.x(), seen.y()}));
  EXPECT_GT(difference(view_.picture().pixelColor(int(seen.x()), int(seen.y())), colours_.ground),
            48);
}

TEST_F(ViewportOnDisplay, PictureHasTheSizeAskedForAndShowsThroughWhereNothingIs) {
  show({partOf(shapes::sphere(20, 4), {200, 40, 40})});
  view_.setPerspective(false);
  for (const double scale : {1.0, 2.0}) {
    const QImage picture = view_.pictureAt(scale, false);
    EXPECT_EQ(picture.size(), QSize(800, 600) * scale);
    EXPECT_FALSE(picture.hasAlphaChannel());
    EXPECT_LT(difference(picture.pixelColor(3, 3), colours_.ground), 24) << "the floor";
  }
  const QImage alone = view_.pictureAt(2, true);
  EXPECT_EQ(alone.pixelColor(3, 3).alpha(), 0);
  EXPECT_EQ(alone.pixelColor(800, 600).alpha(), 255);
  // Closed form: pi r^2 of it is opaque; its outline stands out half its width, 0.6 of 200 pixels.
  int opaque = 0;
  for (int y = 0; y < alone.height(); ++y) {
    for (int x = 0; x < alone.width(); ++x) opaque += alone.pixelColor(x, y).alpha() > 128;
  }
  const double radius = 20 * 1200 / view_.camera().spanMm;
  EXPECT_NEAR(opaque, kPi * radius * radius, 0.01 * kPi * radius * radius);
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
