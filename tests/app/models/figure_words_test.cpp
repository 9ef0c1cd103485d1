// Names and senses as core/print/process/process.h and material.h state them of each figure.
#include "app/models/print/figure_words.h"

#include <gtest/gtest.h>

#include <set>

namespace swingroom {
namespace {

template <typename Keys>
void expectNamed(const Keys& keys) {
  std::set<QString> names;
  for (const auto& key : keys) {
    const QString name = figureWords(key.key).name;
    EXPECT_FALSE(name.isEmpty()) << key.key << " has no name in figure_words.cpp";
    EXPECT_TRUE(names.insert(name).second) << key.key << " is called as another one";
  }
}

TEST(FigureWords, EveryFigureOfTheTablesHasANameOfItsOwn) {
  expectNamed(processKeys());
  expectNamed(materialKeys());
}

TEST(FigureWords, UnitsAreThoseOfTheFilesKeys) {
  EXPECT_EQ(figureWords("leastWallMm").unit, QStringLiteral("mm"));
  EXPECT_EQ(figureWords("overhangDeg").unit, QStringLiteral("°"));
  EXPECT_EQ(figureWords("overhangDeg").decimals, 1);
  EXPECT_EQ(figureWords("densityGPerCm3").unit, QStringLiteral("g/cm³"));
  EXPECT_EQ(figureWords("strainOnce").shown, 100);
  EXPECT_EQ(figureWords("poisson").unit, QString());
}

TEST(FigureWords, DiametersAndSidesAreToldApart) {
  const std::set<std::string> sides{"leastGapMm", "growthOutsideMm", "growthInsideMm"};
  const std::set<std::string> diameters{"leastPinMm",          "leastJointPinMm",    "leastHoleMm",
                                        "leastPinClearanceMm", "mostPinClearanceMm", "holeShrinkMm",
                                        "escapeHoleMm"};
  for (const auto& key : processKeys()) {
    const FigureOf wanted = sides.contains(key.key)       ? FigureOf::side
                            : diameters.contains(key.key) ? FigureOf::diameter
                                                          : FigureOf::plain;
    EXPECT_EQ(key.of, wanted) << key.key;
  }
}

TEST(FigureWords, ASourceSaysItsKindFirst) {
  EXPECT_EQ(sourceText({1, FigureSource::measured, ""}), QStringLiteral("measured by you"));
  EXPECT_EQ(sourceText({1, FigureSource::published, "a sheet"}),
            QStringLiteral("published: a sheet"));
}

}  // namespace
}  // namespace swingroom
