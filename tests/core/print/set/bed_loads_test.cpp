#include "core/print/set/bed_loads.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace swingroom {
namespace {

struct Laid {
  std::size_t load;
  double x, y, w, d;
};

std::vector<Laid> laidOf(const std::vector<LoadPiece>& pieces,
                         const std::vector<LoadPlace>& places) {
  std::vector<Laid> laid;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const bool t = places[i].turned;
    laid.push_back({places[i].load, places[i].xMm, places[i].yMm,
                    t ? pieces[i].depthMm : pieces[i].widthMm,
                    t ? pieces[i].widthMm : pieces[i].depthMm});
  }
  return laid;
}

void expectApart(const std::vector<Laid>& laid, double width, double depth,
                 const LoadSettings& settings) {
  constexpr double kRounding = 1e-5;
  for (std::size_t i = 0; i < laid.size(); ++i) {
    const Laid& a = laid[i];
    EXPECT_GE(std::min(a.x, a.y), settings.marginMm - kRounding);
    EXPECT_LE(a.x + a.w, width - settings.marginMm + kRounding);
    EXPECT_LE(a.y + a.d, depth - settings.marginMm + kRounding);
    for (std::size_t j = 0; j < i; ++j) {
      const Laid& b = laid[j];
      if (a.load != b.load) continue;
      const double gap = std::max(std::max(a.x - b.x - b.w, b.x - a.x - a.w),
                                  std::max(a.y - b.y - b.d, b.y - a.y - a.d));
      EXPECT_GE(gap, settings.spacingMm - kRounding) << i << " and " << j;
    }
  }
}

TEST(BedLoads, RandomPiecesNeverOverlapAndKeepTheirSpacing) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> side(1, seed % 2 ? 40 : 150);
    std::vector<LoadPiece> pieces(120);
    double area = 0;
    for (LoadPiece& piece : pieces) {
      piece = {side(random), side(random)};
      area += piece.widthMm * piece.depthMm;
    }
    const LoadSettings settings{seed * 0.4, 3};
    const auto places = packLoads(pieces, 220, 180, settings);
    expectApart(laidOf(pieces, places), 220, 180, settings);
    std::size_t loads = 0;
    for (const LoadPlace& place : places) loads = std::max(loads, place.load + 1);
    std::vector<bool> used(loads, false);
    for (const LoadPlace& place : places) used[place.load] = true;
    for (std::size_t l = 0; l < loads; ++l) EXPECT_TRUE(used[l]);
    EXPECT_GE(static_cast<double>(loads), area / (220 * 180));
    EXPECT_EQ(packLoads(pieces, 220, 180, settings), places);
  }
}

// Four of 50 x 50 with 10 between just fill 110 x 110; a fifth needs another bed.
TEST(BedLoads, WhatJustFitsFits) {
  const LoadSettings settings{10, 0};
  const std::vector<LoadPiece> pieces(5, {50, 50});
  const auto places = packLoads(pieces, 110, 110, settings);
  EXPECT_EQ(places[3].load, 0u);
  EXPECT_EQ(places[4].load, 1u);
  expectApart(laidOf(pieces, places), 110, 110, settings);
}

TEST(BedLoads, APieceTurnsToFit) {
  const auto places = packLoads({{30, 190}}, 200, 100, {5, 5});
  EXPECT_TRUE(places[0].turned);
}

TEST(BedLoads, WhatNeedsTheMarginLiesAloneInTheMiddle) {
  const auto places = packLoads({{199, 50}, {20, 20}}, 200, 100, {5, 5});
  EXPECT_EQ(places[0], (LoadPlace{0, 0.5, 25, false}));
  EXPECT_EQ(places[1].load, 1u);
  EXPECT_THROW(packLoads({{201, 50}}, 200, 100, {5, 5}), std::invalid_argument);
}

}  // namespace
}  // namespace swingroom
