#include "app/models/joints_model.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QSignalSpy>

#include "tests/app/support/assemblies.h"

namespace swingroom {
namespace {

constexpr double kRoundTrip = 1e-9;  ///< Degrees to radians and back.

class JointsModelTest : public ::testing::Test {
 protected:
  void SetUp() override { stand_.setScene(scene_); }
  void show(const char* name) { model_.show(part(*scene_, name)); }
  QModelIndex value(int row = 0) const { return model_.index(row, 1); }
  double shown(int row = 0) const { return value(row).data(Qt::EditRole).toDouble(); }
  double standsAt(const char* name, int component = 0) const {
    return stand_.standing().values[joint(*stand_.scene(), name).index][component];
  }
  bool set(double to, int row = 0) { return model_.setData(value(row), to, Qt::EditRole); }

  Bench bench_ = Bench::boat();
  ScenePtr scene_ = bench_.scene();
  Stand stand_;
  JointsModel model_{stand_};
  QAbstractItemModelTester tester_{&model_, QAbstractItemModelTester::FailureReportingMode::Fatal};
};

TEST_F(JointsModelTest, AHingeIsSetInDegrees) {
  show("arm");
  ASSERT_EQ(model_.rowCount(), 1);
  EXPECT_EQ(model_.index(0, 0).data().toString(), QStringLiteral("shoulder"));
  EXPECT_TRUE(set(30));
  EXPECT_NEAR(standsAt("shoulder"), radFromDeg(30), kRoundTrip);
  EXPECT_NEAR(shown(), 30, kRoundTrip);
  EXPECT_EQ(value().data().toString(), QStringLiteral("30.0°"));
  EXPECT_TRUE(stand_.isByHand());
}

TEST_F(JointsModelTest, ASlideIsSetInMm) {
  show("hand");
  ASSERT_EQ(model_.rowCount(), 1);
  EXPECT_FALSE(value().data(JointsModel::IsAngleRole).toBool());
  EXPECT_TRUE(set(12.5));
  EXPECT_EQ(standsAt("wrist"), 12.5);
  EXPECT_EQ(shown(), 12.5);
  EXPECT_EQ(value().data().toString(), QStringLiteral("12.50\u00a0mm"));
}

TEST_F(JointsModelTest, ValuesAreClampedToTheRange) {
  show("arm");  // -90 to 90.
  EXPECT_EQ(value().data(JointsModel::LeastRole).toDouble(), -90);
  EXPECT_EQ(value().data(JointsModel::GreatestRole).toDouble(), 90);
  EXPECT_TRUE(set(200));
  EXPECT_NEAR(shown(), 90, kRoundTrip);
  EXPECT_TRUE(set(-1e9));
  EXPECT_NEAR(shown(), -90, kRoundTrip);
  show("hand");  // 0 to 20.
  EXPECT_TRUE(set(-1));
  EXPECT_EQ(shown(), 0);
  EXPECT_TRUE(set(21));
  EXPECT_EQ(shown(), 20);
}

TEST_F(JointsModelTest, ABallHasThreeNumbers) {
  show("head");
  ASSERT_EQ(model_.rowCount(), 3);
  EXPECT_EQ(model_.index(0, 0).data().toString(), QStringLiteral("neck x"));
  EXPECT_EQ(model_.index(2, 0).data().toString(), QStringLiteral("neck z"));
  EXPECT_TRUE(set(10, 0));
  EXPECT_TRUE(set(-5, 2));
  EXPECT_NEAR(standsAt("neck", 0), radFromDeg(10), kRoundTrip);
  EXPECT_NEAR(standsAt("neck", 1), 0, kRoundTrip);
  EXPECT_NEAR(standsAt("neck", 2), radFromDeg(-5), kRoundTrip);
  EXPECT_NEAR(shown(2), -5, kRoundTrip);
}

TEST_F(JointsModelTest, AFollowerIsShownAndNotEdited) {
  show("wheel");
  ASSERT_EQ(model_.rowCount(), 1);
  EXPECT_TRUE(model_.row(0).follows);
  EXPECT_FALSE(value().flags() & Qt::ItemIsEditable);
  EXPECT_FALSE(set(20));
  EXPECT_FALSE(stand_.isByHand());
  stand_.moveJoint(joint(*scene_, "shoulder"), {radFromDeg(25), 0, 0});
  EXPECT_NEAR(shown(), -50, kRoundTrip) << "ratio -2";
  show("arm");
  EXPECT_TRUE(value().flags() & Qt::ItemIsEditable);
  EXPECT_FALSE(model_.index(0, 0).flags() & Qt::ItemIsEditable) << "a name";
}

TEST_F(JointsModelTest, WhatIsNoNumberIsRefused) {
  show("arm");
  EXPECT_FALSE(model_.setData(value(), QStringLiteral("far"), Qt::EditRole));
  EXPECT_FALSE(set(std::numeric_limits<double>::quiet_NaN()));
  EXPECT_FALSE(model_.setData(model_.index(0, 0), 5.0, Qt::EditRole));
  EXPECT_FALSE(model_.setData({}, 5.0, Qt::EditRole));
  EXPECT_FALSE(model_.setData(value(), 5.0, Qt::DisplayRole));
  EXPECT_FALSE(stand_.isByHand());
}

TEST_F(JointsModelTest, PartsThatNothingMovesHaveNoRows) {
  show("hull");
  EXPECT_EQ(model_.rowCount(), 0);
  model_.show(std::nullopt);
  EXPECT_EQ(model_.rowCount(), 0);
  model_.show(PartId{99});
  EXPECT_EQ(model_.rowCount(), 0);
  scene_ = Bench::press().scene();
  stand_.setScene(scene_);
  show("cap");
  EXPECT_EQ(model_.rowCount(), 0) << "a fixed joint does not move";
}

TEST_F(JointsModelTest, ASlideWithoutARangeGoesTenPastWhatItsModesUse) {
  scene_ = Bench::press().scene();  // Modes at 0, 5 and 1.
  stand_.setScene(scene_);
  show("sled");
  EXPECT_EQ(value().data(JointsModel::LeastRole).toDouble(), -10);
  EXPECT_EQ(value().data(JointsModel::GreatestRole).toDouble(), 15);
}

TEST_F(JointsModelTest, AHingeWithoutARangeReachesWhatItsModesUse) {
  AssemblyDocument document = bench_.document();
  document.joints[0].range.reset();
  document.joints[5].range.reset();
  document.modes[1].values->at("shoulder") = 270.0;
  document.sequences[0].steps[0].moves.at("shoulder") = 270.0;
  scene_ = bench_.scene(document);
  stand_.setScene(scene_);
  stand_.moveTo(1);
  show("arm");
  ASSERT_NEAR(shown(), 270, kRoundTrip);
  EXPECT_LE(value().data(JointsModel::LeastRole).toDouble(), -180);
  EXPECT_GE(value().data(JointsModel::GreatestRole).toDouble(), 270 - kRoundTrip);
  EXPECT_TRUE(set(260));
  EXPECT_NEAR(shown(), 260, kRoundTrip);
}

TEST_F(JointsModelTest, ValuesFollowTheStand) {
  show("arm");
  const QSignalSpy told(&model_, &JointsModel::dataChanged);
  stand_.moveTo(1.0 / 6);  // Half of "lift", the first of three steps: 45 of 90 degrees.
  EXPECT_EQ(told.count(), 1);
  EXPECT_NEAR(shown(), 45, 1e-6);
}

TEST_F(JointsModelTest, ScenesComeAndGoWhileRowsAreReadAtOnce) {
  // A view may read on every signal, before anyone has said which part the new scene shows.
  const auto readAll = [&] {
    for (int row = 0; row < model_.rowCount(); ++row) {
      for (int column = 0; column < 2; ++column) {
        for (const int role :
             {int(Qt::DisplayRole), int(Qt::EditRole), int(JointsModel::LeastRole)}) {
          model_.index(row, column).data(role);
        }
      }
    }
  };
  QObject::connect(&model_, &JointsModel::dataChanged, readAll);
  show("wheel");  // The last of six joints; the hatch box has two.
  const ScenePtr other = Bench::hatchBox().scene();
  EXPECT_NO_THROW(stand_.setScene(other));
  EXPECT_NO_THROW(set(1));
  EXPECT_NO_THROW(stand_.setScene(nullptr));
  EXPECT_NO_THROW(set(1));
  model_.show(PartId{1});
  EXPECT_EQ(model_.rowCount(), 0);
  stand_.setScene(other);
  model_.show(part(*other, "bolt"));
  EXPECT_EQ(model_.rowCount(), 1);
}

}  // namespace
}  // namespace swingroom
