#include "app/models/variants_model.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>

namespace swingroom {
namespace {

TEST(VariantsModel, SaysOfEachWhatIsKnown) {
  VariantsModel model;
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  VariantRow clear, clash;
  clear.whole = Verdict::clear;
  clear.counts = {0, 0, 0, 0, 780, 0};
  clear.place = "arm and hand, 0.34 mm, in mode tug";
  clash.name = "wide hat";
  clash.whole = Verdict::clash;
  clash.counts = {2, 1, 0, 0, 777, 0};
  clash.place = "head and funnel, 0.50 mm deep, in mode tug";
  model.show({{"", clear, {}}, {"wide hat", clash, {}}, {"lost", std::nullopt, {{"tug", "is gone", ""}}},
              {"waits", std::nullopt, {}}},
             true, "wide hat");
  const auto text = [&](int row, int column) {
    return model.index(row, column).data().toString().toStdString();
  };
  EXPECT_EQ(text(0, VariantsModel::Name), "plain");
  EXPECT_EQ(text(0, VariantsModel::Pairs), "780 clear");
  EXPECT_EQ(text(0, VariantsModel::Place), "tightest: arm and hand, 0.34 mm, in mode tug");
  EXPECT_EQ(text(1, VariantsModel::Whole), "clash");
  EXPECT_EQ(text(1, VariantsModel::Pairs), "2 clash, 1 tight, 777 clear");
  EXPECT_EQ(text(1, VariantsModel::Place), "head and funnel, 0.50 mm deep, in mode tug");
  EXPECT_TRUE(model.index(1, 0).data(VariantsModel::ShownRole).toBool());
  EXPECT_FALSE(model.index(0, 0).data(VariantsModel::ShownRole).toBool());
  EXPECT_EQ(text(2, VariantsModel::Whole), "not checked");
  EXPECT_EQ(text(2, VariantsModel::Place), "tug: is gone");
  EXPECT_EQ(text(3, VariantsModel::Whole), "being checked");
  EXPECT_FALSE(model.index(3, 1).data(VariantsModel::VerdictRole).isValid());
}

}  // namespace
}  // namespace swingroom
