#include <gtest/gtest.h>

#include <QApplication>
#include <QSignalSpy>
#include <QTest>
#include <cmath>

#include "app/viewport/viewport.h"
#include "tests/support/shapes.h"

// Painted surfaces as they are drawn, and the pointer over them.
namespace swingroom {
namespace {

ViewPart plainPart(const TriangleMesh& mesh) {
  ViewPart part;
  part.surface = std::make_shared<const Surface>(std::make_shared<const TriangleMesh>(mesh));
  part.colour = {200, 80, 30};
  return part;
}

PaintScale greenToRed() {
  PaintScale scale;
  scale.stops = {{0, QColor(60, 180, 90)}, {4, QColor(180, 60, 120)}};
  scale.line = Qt::black;
  scale.leftOut = QColor(150, 150, 150);
  scale.broken = QColor(220, 120, 20);
  return scale;
}

using Surface_ = std::shared_ptr<const PaintedSurface>;

/// Every triangle in one piece.
Surface_ evenly(const TriangleMesh& mesh, float mm, PieceState state = PieceState::figured) {
  PaintedSurface surface;
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
    surface.pieces.push_back(
        {{mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)}, t, mm, state});
  }
  return std::make_shared<const PaintedSurface>(std::move(surface));
}

/// The top of a box in strips across x; a strip's figure is that of its end.
Surface_ rising(const TriangleMesh& box, std::uint32_t triangle, float mmAtEnd, int strips) {
  PaintedSurface surface;
  surface.blend = PaintBlend::lowest;
  const double low = boundsOf(box).min().x(), wide = boundsOf(box).sizes().x();
  const double y0 = boundsOf(box).min().y(), y1 = boundsOf(box).max().y();
  const double z = boundsOf(box).max().z();
  for (int i = 0; i < strips; ++i) {
    const double x0 = low + wide * i / strips, x1 = low + wide * (i + 1) / strips;
    const float mm = mmAtEnd * static_cast<float>(i + 1) / static_cast<float>(strips);
    surface.pieces.push_back({{Vector3d(x0, y0, z), {x1, y0, z}, {x1, y1, z}}, triangle, mm});
    surface.pieces.push_back({{Vector3d(x0, y0, z), {x1, y1, z}, {x0, y1, z}}, triangle, mm});
  }
  return std::make_shared<const PaintedSurface>(std::move(surface));
}

/// One of the two on top.
std::uint32_t topOf(const TriangleMesh& box) {
  const double z = boundsOf(box).max().z();
  for (std::uint32_t t = 0; t < box.triangles.size(); ++t) {
    if (box.corner(t, 0).z() == z && box.corner(t, 1).z() == z && box.corner(t, 2).z() == z)
      return t;
  }
  return 0;
}

class PaintOnDisplay : public ::testing::Test {
 protected:
  void SetUp() override {
    scene_.parts = {plainPart(box_), plainPart(shapes::box({30, -10, 0}, {40, 10, 10}))};
    view_.setReducedMotion(true);
    view_.resize(800, 600);
    view_.setScene(scene_);
    view_.setPoses({Pose::Identity(), Pose::Identity()});
    view_.setPerspective(false);
    view_.lookFrom(Viewport::LookFrom::top);
    view_.show();
    ASSERT_TRUE(QTest::qWaitFor([&] { return view_.framesDrawn() > 0; }, 10'000))
        << qPrintable(view_.failure());
  }
  QColor at(const Vector3d& p_W) {
    const Eigen::Vector2d seen = view_.projection().pixel(p_W);
    return view_.picture().pixelColor(int(seen.x()), int(seen.y()));
  }
  QPoint pointAt(const Vector3d& p_W) const {
    const Eigen::Vector2d seen = view_.projection().pixel(p_W);
    return {int(seen.x()), int(seen.y())};
  }
  ViewPaint paintOf(Surface_ surface) const {
    return {{{PartId{0}, std::move(surface)}}, greenToRed()};
  }

  TriangleMesh box_ = shapes::box({-20, -10, 0}, {20, 10, 10});
  ViewScene scene_;
  Viewport view_;
};

/// Of one hue: light takes the same share of each channel, to rounding.
void expectLit(const QColor& seen, const QColor& paint) {
  const double share = double(seen.green()) / paint.green();
  EXPECT_GT(share, 0.7);
  EXPECT_LT(share, 1.05);
  EXPECT_NEAR(seen.red(), share * paint.red(), 2) << seen.name().toStdString();
  EXPECT_NEAR(seen.blue(), share * paint.blue(), 2) << seen.name().toStdString();
}

TEST_F(PaintOnDisplay, APieceHasTheScalesColourAndNotThePartsOwn) {
  view_.setPaint(paintOf(evenly(box_, 3)));
  expectLit(at({3, -2, 10}), colourAt(greenToRed(), 2));  // Without levels one band, 0 to 4.
  PaintScale scale = greenToRed();
  scale.levelsMm = {2};
  view_.setPaint({{{PartId{0}, evenly(box_, 3)}}, scale});
  expectLit(at({3, -2, 10}), colourAt(scale, 3));
}

TEST_F(PaintOnDisplay, ColoursGoOnEvenlyAndALevelIsALineWhereItIs) {
  PaintScale scale = greenToRed();
  scale.levelsMm = {1, 3};
  view_.setPaint({{{PartId{0}, rising(box_, topOf(box_), 4, 80)}}, scale});
  // The figure at x is (x + 20) / 10: level 1 at -10, level 3 at 10.
  const QImage picture = view_.picture();
  for (const double mm : {1.0, 3.0}) {
    const QPoint line = pointAt({10 * mm - 20, 3, 10});
    int darkest = 0, least = 255;
    for (int dx = -9; dx <= 9; ++dx) {
      const int lightness = picture.pixelColor(line + QPoint(dx, 0)).lightness();
      if (lightness < least) least = lightness, darkest = dx;
    }
    EXPECT_LE(std::abs(darkest), 1) << mm;
    EXPECT_LT(least, 0.75 * picture.pixelColor(line + QPoint(9, 0)).lightness()) << mm;
  }
  for (const double mm : {0.5, 2.0, 3.6}) expectLit(at({10 * mm - 20, 3, 10}), colourAt(scale, mm));
}

TEST_F(PaintOnDisplay, WhatIsLeftOutIsDottedWhatIsBrokenIsHatched) {
  const QPoint middle = pointAt({0, 0, 10});
  const auto tones = [&](PieceState state) {
    view_.setPaint(paintOf(evenly(box_, 3, state)));
    const QImage picture = view_.picture();
    std::map<int, int> count;
    for (int y = -30; y < 30; ++y) {
      for (int x = -30; x < 30; ++x) ++count[picture.pixelColor(middle + QPoint(x, y)).lightness()];
    }
    return count;
  };
  for (const PieceState state : {PieceState::leftOut, PieceState::broken}) {
    const auto count = tones(state);
    const int darkest = count.begin()->first, palest = count.rbegin()->first;
    EXPECT_LT(darkest, palest - 20);
    EXPECT_GT(count.rbegin()->second, 1800);  // Most of 3 600 pixels are the plain tone.
  }
  EXPECT_EQ(tones(PieceState::figured).size(), 1u);
}

TEST_F(PaintOnDisplay, OthersStandBackUntilThePaintIsTakenAway) {
  const int before = at({35, 0, 10}).saturation();
  view_.setPaint(paintOf(evenly(box_, 3)));
  EXPECT_LT(at({35, 0, 10}).saturation(), before / 3);
  view_.setPaint(ViewPaint());
  EXPECT_EQ(at({35, 0, 10}).saturation(), before);
  expectLit(at({3, -2, 10}), at({35, 0, 10}));  // Both parts are of one colour.
}

TEST_F(PaintOnDisplay, EdgesOfThePartStayDrawn) {
  view_.setPaint(paintOf(evenly(box_, 3)));
  const QImage picture = view_.picture();
  const QPoint rim = pointAt({-20, 0, 10});
  int least = 255;
  for (int dx = -2; dx <= 2; ++dx)
    least = std::min(least, picture.pixelColor(rim + QPoint(dx, 0)).lightness());
  EXPECT_LT(least, 80);
}

TEST_F(PaintOnDisplay, PointerIsToldWhichPieceItIsAtAndShowsWordsThere) {
  const std::uint32_t top = topOf(box_);
  const Surface_ surface = rising(box_, top, 4, 4);
  view_.setPaint(paintOf(surface));
  view_.picture();  // Waits until it is ready.
  // The box's top is two triangles, and the pieces are all said to be in the first: only there.
  Vector3d inside = Vector3d::Zero();
  for (int i = 0; i < 3; ++i) inside += box_.corner(top, i) / 3;
  std::optional<PaintPick> told;
  int times = 0;
  QObject::connect(&view_.paintTool(), &PaintTool::hovered, &view_,
                   [&](const std::optional<PaintPick>& pick) {
                     told = pick;
                     ++times;
                     view_.paintTool().setWords(QStringLiteral("room"));
                   });
  // The display sends moves when it has time.
  const auto come = [](const auto& what) { return QTest::qWaitFor(what, 5'000); };
  QTest::mouseMove(&view_, pointAt(inside));
  ASSERT_TRUE(come([&] { return told.has_value(); }));
  EXPECT_EQ(told->part, PartId{0});
  EXPECT_EQ(told->surface, surface);
  EXPECT_EQ(surface->pieces[told->piece].figureMm, std::floor((inside.x() + 20) / 10) + 1);
  EXPECT_LT((told->p_W - inside).norm(), 0.2);  // A pixel is 0.1 mm.
  EXPECT_EQ(view_.paintTool().words(), QStringLiteral("room"));
  QTest::mouseMove(&view_, pointAt({35, 0, 10}));  // Another part.
  EXPECT_TRUE(come([&] { return !told; }));
  EXPECT_EQ(view_.paintTool().words(), QString());
  const int before = times;
  QTest::mouseMove(&view_, pointAt({36, 0, 10}));
  QTest::qWait(200);
  EXPECT_EQ(times, before);
  // Taken away under the pointer.
  QTest::mouseMove(&view_, pointAt(inside));
  EXPECT_TRUE(come([&] { return told.has_value(); }));
  view_.setPaint(ViewPaint());
  EXPECT_FALSE(told);
}

TEST_F(PaintOnDisplay, ClicksOnPiecesAreTakenOnlyWhereWanted) {
  view_.setPaint(paintOf(evenly(box_, 3)));
  view_.picture();
  QSignalSpy parts(&view_, &Viewport::partClicked);
  QSignalSpy pieces(&view_.paintTool(), &PaintTool::clicked);
  const auto click = [&](const Vector3d& p_W) {
    QTest::mouseClick(&view_, Qt::LeftButton, {}, pointAt(p_W));
  };
  click({0, 0, 10});
  EXPECT_EQ(parts.size(), 1);
  EXPECT_EQ(pieces.size(), 0);
  view_.paintTool().setTakesClicks(true);
  click({0, 0, 10});
  EXPECT_EQ(parts.size(), 1);
  EXPECT_EQ(pieces.size(), 1);
  click({35, 0, 10});
  EXPECT_EQ(parts.size(), 2);
}

TEST_F(PaintOnDisplay, ANewerSurfaceTakesThePlaceOfTheOneBefore) {
  PaintScale scale = greenToRed();
  scale.levelsMm = {2};
  view_.setPaint({{{PartId{0}, evenly(box_, 1)}}, scale});
  expectLit(at({3, -2, 10}), colourAt(scale, 1));
  view_.setPaint({{{PartId{0}, evenly(box_, 3)}}, scale});
  ASSERT_TRUE(QTest::qWaitFor([&] {
    const auto pick = view_.pickPaint(pointAt({3, -2, 10}));
    return pick && pick->surface->pieces[pick->piece].figureMm == 3;
  }));
  expectLit(at({3, -2, 10}), colourAt(scale, 3));
}

TEST_F(PaintOnDisplay, APartWithAnotherMeshLosesItsPaint) {
  view_.setPaint(paintOf(evenly(box_, 3)));
  view_.picture();
  EXPECT_TRUE(view_.pickPaint(pointAt({3, -2, 10})));
  scene_.parts[0] = plainPart(box_);
  view_.setScene(scene_);
  EXPECT_FALSE(view_.pickPaint(pointAt({3, -2, 10})));
  expectLit(at({3, -2, 10}), at({35, 0, 10}));
}

TEST_F(PaintOnDisplay, NothingIsDrawnAgainForAnEqualPaint) {
  const ViewPaint paint = paintOf(evenly(box_, 3));
  view_.setPaint(paint);
  view_.picture();
  int before = -1;
  while (before != view_.framesDrawn()) {
    before = view_.framesDrawn();
    QTest::qWait(400);
  }
  view_.setPaint(ViewPaint(paint));
  QTest::qWait(400);
  EXPECT_EQ(view_.framesDrawn(), before);
}

}  // namespace
}  // namespace swingroom
