#include "app/viewport/dimension_place.h"

#include <gtest/gtest.h>

#include <random>

namespace swingroom {
namespace {

TEST(DimensionPlace, CardStaysInsideAndOffTheGap) {
  std::mt19937_64 random(31);
  const ViewSize size{900, 600};
  std::uniform_real_distribution<double> x(0, 900), y(0, 600), off(-60, 60);
  std::optional<Eigen::Vector2d> last;
  for (int i = 0; i < 2000; ++i) {
    const Eigen::Vector2d a(x(random), y(random));
    const std::array ends{a, Eigen::Vector2d(a + Eigen::Vector2d(off(random), off(random)))};
    const DimensionPlace place = placeDimension(ends, QSizeF(110, 28), size, 1, last);
    ASSERT_TRUE(QRectF(0, 0, 900, 600).contains(place.card));
    for (int k = 0; k <= 20; ++k) {
      const Eigen::Vector2d p = ends[0] + (ends[1] - ends[0]) * (k / 20.0);
      EXPECT_FALSE(place.card.contains(QPointF(p.x(), p.y())));
    }
    EXPECT_TRUE(place.card.adjusted(-1, -1, 1, 1)
                    .contains(QPointF(place.leaderFrom.x(), place.leaderFrom.y())));
    last = Eigen::Vector2d(place.card.center().x(), place.card.center().y()) - place.middle;
  }
}

TEST(DimensionPlace, StaysOnItsSideWhileTheGapMovesALittle) {
  const ViewSize size{900, 600};
  std::optional<Eigen::Vector2d> last;
  for (int i = 0; i < 200; ++i) {
    // The line turns all the way round, in the middle of the picture.
    const double angle = 0.031 * i;
    const Eigen::Vector2d half(10 * std::cos(angle), 10 * std::sin(angle)), middle(450, 300);
    const DimensionPlace place =
        placeDimension({Eigen::Vector2d(middle - half), Eigen::Vector2d(middle + half)},
                       QSizeF(110, 28), size, 1, last);
    const Eigen::Vector2d off =
        Eigen::Vector2d(place.card.center().x(), place.card.center().y()) - middle;
    if (last) {
      EXPECT_LT((off - *last).norm(), 90) << i;
    }
    last = off;
  }
}

}  // namespace
}  // namespace swingroom
