#include "app/models/near_rows.h"

#include <gtest/gtest.h>

#include "app/edits/pair_edits.h"
#include "tests/app/support/assemblies.h"

namespace swingroom {
namespace {

class NearRowsTest : public ::testing::Test {
 protected:
  /// With the sled pushed in so far: 4 - `at` from the block; the rail is 0.2 from it.
  std::vector<NearRow> rows(const AssemblyDocument& document, double at, std::size_t most = 9) {
    const ScenePtr scene = bench_.scene(document);
    Configuration standing = scene->assembly().home();
    standing.values[joint(*scene, "sled way").index].x() = at;
    return nearRows(*scene, scene->gaps.nearPairs(standing), most);
  }
  static std::vector<std::string> rowNames(const std::vector<NearRow>& rows) {
    std::vector<std::string> names;
    for (const NearRow& row : rows) names.push_back(row.names.toStdString());
    return names;
  }

  Bench bench_ = Bench::press();
  AssemblyDocument document_ = bench_.document();
};

TEST_F(NearRowsTest, BelowTheRequiredGapIsTightAndOverlapAClash) {
  const auto apart = rows(document_, 3);
  ASSERT_EQ(rowNames(apart), (std::vector<std::string>{"sled, rail", "block, sled"}));
  EXPECT_EQ(apart[0].verdict, Verdict::tight);
  EXPECT_EQ(apart[0].figure, QStringLiteral("0.20\u00a0mm"));
  EXPECT_EQ(apart[1].verdict, std::nullopt) << "1.0 is enough now, which proves nothing";
  EXPECT_EQ(apart[1].figure, QStringLiteral("1.00\u00a0mm"));
  const auto meeting = rows(document_, 4.5);
  ASSERT_EQ(rowNames(meeting), (std::vector<std::string>{"block, sled", "sled, rail"}));
  EXPECT_EQ(meeting[0].verdict, Verdict::clash);
  EXPECT_EQ(meeting[0].figure, QStringLiteral("in overlap"));
}

TEST_F(NearRowsTest, AGapThatIsTheRequiredOneIsNotTight) {
  EXPECT_EQ(rows(edits::requiredGap(document_, "sled", "rail", 0.2), 3).at(0).verdict,
            std::nullopt);
}

TEST_F(NearRowsTest, PartsFixedToEachOtherAreLeftOut) {
  for (const NearRow& row : rows(document_, 3)) EXPECT_NE(row.names, QStringLiteral("block, cap"));
  document_.joints[1].type = JointType::slide;  // The same seat, but it can slide.
  document_.joints[1].along = ThreeNumbers{1, 0, 0};
  EXPECT_EQ(rowNames(rows(document_, 3)).at(0), "block, cap");
}

TEST_F(NearRowsTest, AllowedPairsAreLeftOut) {
  EXPECT_EQ(rowNames(rows(edits::allowance(document_, "rail", "sled", "it runs on it"), 3)),
            std::vector<std::string>{"block, sled"});
}

TEST_F(NearRowsTest, PairsWithAContactAreLeftOut) {
  DocumentPair rule;
  rule.parts = {"sled", "block"};
  DocumentContact contact;
  contact.modes = {"in"};
  rule.contacts = {contact};
  document_.pairs = {rule};
  EXPECT_EQ(rowNames(rows(document_, 4.5)), std::vector<std::string>{"sled, rail"});
}

TEST_F(NearRowsTest, NoMoreThanAskedAndTheNearestOfThem) {
  EXPECT_EQ(rowNames(rows(document_, 3, 1)), std::vector<std::string>{"sled, rail"});
  EXPECT_TRUE(rows(document_, 3, 0).empty());
}

}  // namespace
}  // namespace swingroom
