// Verdicts as eyes see them that tell fewer colours apart, and without any colour.
#include <gtest/gtest.h>

#include <QPainter>
#include <array>
#include <set>

#include "app/panels/marks.h"
#include "app/panels/theme.h"
#include "tests/app/panels/picture.h"
#include "tests/app/panels/wcag.h"

namespace swingroom {
namespace {

using Triple = std::array<double, 3>;
using Matrix = std::array<Triple, 3>;

/// A way of seeing: how colours change, and the smallest CIE76 difference inside the Okabe-Ito
/// palette then.
struct Vision {
  const char* name;
  Matrix matrix;
  double leastInPalette;
};

// Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color Vision
// Deficiency" (2009), severity 1, on linear RGB. The differences were worked out beside the code.
const Vision kVisions[] = {{"normal", {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}, 26.4},
                           {"protan",
                            {{{0.152286, 1.052583, -0.204868},
                              {0.114503, 0.786281, 0.099216},
                              {-0.003882, -0.048116, 1.051998}}},
                            20.7},
                           {"deutan",
                            {{{0.367322, 0.860646, -0.227968},
                              {0.280085, 0.672501, 0.047413},
                              {-0.011820, 0.042940, 0.968881}}},
                            17.0},
                           {"tritan",
                            {{{1.255528, -0.076749, -0.178779},
                              {-0.078411, 0.930809, 0.147602},
                              {0.004733, 0.691367, 0.303900}}},
                            16.1}};
/// How far the differences above are rounded.
constexpr double kRounded = 0.2;

Triple times(const Matrix& matrix, const Triple& v) {
  Triple product{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) product[i] += matrix[i][j] * v[j];
  }
  return product;
}

/// CIE L*a*b* of linear sRGB, white D65 (IEC 61966-2-1, CIE 15).
Triple labOf(const Triple& rgb) {
  const Triple xyz = times({{{0.4124564, 0.3575761, 0.1804375},
                             {0.2126729, 0.7151522, 0.0721750},
                             {0.0193339, 0.1191920, 0.9503041}}},
                           rgb);
  const auto f = [](double t) {
    return t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116;
  };
  const double x = f(xyz[0] / 0.95047), y = f(xyz[1]), z = f(xyz[2] / 1.08883);
  return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

Triple seen(const QColor& colour, const Vision& vision) {
  Triple rgb = times(vision.matrix, {linearChannel(colour.red()), linearChannel(colour.green()),
                                     linearChannel(colour.blue())});
  for (double& channel : rgb) channel = std::clamp(channel, 0.0, 1.0);
  return labOf(rgb);
}

double apart(const QColor& a, const QColor& b, const Vision& vision) {
  const Triple p = seen(a, vision), q = seen(b, vision);
  return std::hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

double leastApart(const std::vector<QColor>& colours, const Vision& vision) {
  double least = 1e9;
  for (std::size_t i = 0; i < colours.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      least = std::min(least, apart(colours[i], colours[j], vision));
    }
  }
  return least;
}

TEST(ColourVision, SimulationGivesTheDifferencesInsideThePalette) {
  std::vector<QColor> palette;
  for (const QRgb rgb :
       {0x000000u, 0xE69F00u, 0x56B4E9u, 0x009E73u, 0xF0E442u, 0x0072B2u, 0xD55E00u, 0xCC79A7u}) {
    palette.push_back(QColor::fromRgb(rgb));
  }
  for (const Vision& vision : kVisions) {
    EXPECT_NEAR(leastApart(palette, vision), vision.leastInPalette, kRounded) << vision.name;
  }
  // A plain red and green, which fail as a pair of pass and fail.
  EXPECT_NEAR(apart(QColor(0xFF, 0, 0), QColor(0, 0xA0, 0), kVisions[0]), 141.2, kRounded);
  EXPECT_NEAR(apart(QColor(0xFF, 0, 0), QColor(0, 0xA0, 0), kVisions[2]), 12.1, kRounded);
}

class VerdictVision : public ::testing::TestWithParam<bool> {};

TEST_P(VerdictVision, VerdictColoursStayAsFarApartAsThePalettes) {
  const Theme theme = GetParam() ? darkTheme() : lightTheme();
  const std::vector<QColor> verdicts{theme.clash, theme.tight, theme.loose, theme.unproven,
                                     theme.clear};
  for (const Vision& vision : kVisions) {
    EXPECT_GE(leastApart(verdicts, vision), vision.leastInPalette - kRounded) << vision.name;
  }
}

TEST_P(VerdictVision, MarksOrTheirOutlinesStandOutOnPanelAndChosenRow) {
  applyTheme(*qApp, GetParam() ? darkTheme() : lightTheme());
  for (const QColor& ground : {theme().panel, theme().ground, theme().chosen, theme().hover}) {
    for (int v = 0; v <= static_cast<int>(Verdict::allowed); ++v) {
      QImage image(64, 64, QImage::Format_RGB32);
      image.fill(ground);
      QPainter painter(&image);
      paintMark(painter, image.rect(), static_cast<Verdict>(v));
      painter.end();
      // Of 64 x 64 pixels a mark's shape takes well over a hundred.
      int strong = 0;
      for (int x = 0; x < 64; ++x) {
        for (int y = 0; y < 64; ++y) {
          strong += contrast(image.pixelColor(x, y), ground) >= kGraphics;
        }
      }
      EXPECT_GT(strong, 100) << "verdict " << v << " on " << ground.name().toStdString();
    }
  }
  applyTheme(*qApp, lightTheme());
}

INSTANTIATE_TEST_SUITE_P(LightAndDark, VerdictVision, ::testing::Bool());

/// A mark in black on white, each pixel one or the other.
std::vector<bool> blackAndWhite(Verdict verdict, int side) {
  Theme ink = lightTheme();
  for (QColor* colour : {&ink.clash, &ink.tight, &ink.loose, &ink.unproven, &ink.clear,
                         &ink.allowed, &ink.tightEdge, &ink.looseEdge}) {
    *colour = Qt::black;
  }
  applyTheme(*qApp, ink);
  QImage image(side, side, QImage::Format_RGB32);
  image.fill(Qt::white);
  QPainter painter(&image);
  paintMark(painter, image.rect(), verdict);
  painter.end();
  applyTheme(*qApp, lightTheme());
  std::vector<bool> black;
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) black.push_back(qGray(image.pixel(x, y)) < 128);
  }
  return black;
}

// As small as they are painted in rows, and large: of what either of two marks covers, at least a
// third is covered by one of them alone.
TEST(Marks, ShapesTellThemApartInBlackAndWhite) {
  for (const int side : {11, 13, 64}) {
    for (int a = 0; a <= static_cast<int>(Verdict::allowed); ++a) {
      const auto first = blackAndWhite(static_cast<Verdict>(a), side);
      for (int b = 0; b < a; ++b) {
        const auto second = blackAndWhite(static_cast<Verdict>(b), side);
        int either = 0, both = 0;
        for (std::size_t p = 0; p < first.size(); ++p) {
          either += first[p] || second[p];
          both += first[p] && second[p];
        }
        EXPECT_LE(both * 3, either * 2) << "verdicts " << a << " and " << b << " at " << side;
      }
    }
  }
}

TEST(Marks, EachVerdictHasItsOwnWord) {
  std::set<QString> words;
  for (int v = 0; v <= static_cast<int>(Verdict::allowed); ++v) {
    words.insert(verdictWord(static_cast<Verdict>(v)));
  }
  EXPECT_EQ(words.size(), 6u);
}

}  // namespace
}  // namespace swingroom
