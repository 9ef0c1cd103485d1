#include "app/models/parts_model.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QSignalSpy>

#include "tests/app/support/assemblies.h"

namespace swingroom {
namespace {

using Tester = QAbstractItemModelTester;

/// "hull(arm(hand) axe head wheel)": the tree below an index, names in order.
std::string treeOf(const QAbstractItemModel& model, const QModelIndex& parent = {}) {
  std::string text;
  for (int row = 0; row < model.rowCount(parent); ++row) {
    const QModelIndex at = model.index(row, 0, parent);
    text += (row ? " " : "") + at.data().toString().toStdString();
    if (model.rowCount(at) > 0) text += "(" + treeOf(model, at) + ")";
  }
  return text;
}

class PartsModelTest : public ::testing::Test {
 protected:
  QString jointTextOf(const char* name) {
    return model_.indexOf(part(*scene_, name)).siblingAtColumn(1).data().toString();
  }

  Bench bench_ = Bench::boat();
  ScenePtr scene_ = bench_.scene();
  Visibility visibility_;
  PartsModel model_{visibility_};
  Tester tester_{&model_, Tester::FailureReportingMode::Fatal};
};

TEST_F(PartsModelTest, TheTreeIsThatOfTheJointsInTheFile) {
  model_.show(scene_);
  EXPECT_EQ(treeOf(model_), "hull(arm(hand) axe head wheel)");
  model_.show(Bench::hatchBox().scene());
  EXPECT_EQ(treeOf(model_), "box(lid(bolt))");
  model_.show(Bench::press().scene());
  EXPECT_EQ(treeOf(model_), "block(sled cap) rail post");
}

TEST_F(PartsModelTest, ScenesComeAndGo) {
  for (const ScenePtr& scene :
       {scene_, ScenePtr(), Bench::hatchBox().scene(), scene_, ScenePtr()}) {
    model_.show(scene);
    visibility_.setHidden(PartId{1}, true);
    visibility_.showAll();
    if (scene) model_.setStanding(scene->loaded.modes.back().configuration);
    EXPECT_EQ(model_.rowCount() > 0, scene != nullptr);
  }
}

TEST_F(PartsModelTest, EveryPartIsFoundByItsIdAndTellsIt) {
  model_.show(scene_);
  for (std::size_t p = 0; p < 6; ++p) {
    const QModelIndex at = model_.indexOf(PartId{p});
    EXPECT_EQ(model_.partAt(at), PartId{p});
    EXPECT_EQ(model_.partAt(at.siblingAtColumn(1)), PartId{p});
    EXPECT_EQ(at.data().toString().toStdString(), scene_->assembly().parts()[p].name);
    EXPECT_EQ(at.data(PartsModel::PartRole).toULongLong(), p);
  }
  EXPECT_FALSE(model_.indexOf(PartId{6}).isValid());
  EXPECT_EQ(model_.partAt({}), std::nullopt);
}

TEST_F(PartsModelTest, ATickHidesAndShows) {
  model_.show(scene_);
  const PartId arm = part(*scene_, "arm");
  const QModelIndex at = model_.indexOf(arm);
  const QSignalSpy told(&model_, &PartsModel::dataChanged);
  EXPECT_TRUE(model_.setData(at, Qt::Unchecked, Qt::CheckStateRole));
  EXPECT_TRUE(visibility_.isHidden(arm));
  EXPECT_GT(told.count(), 0);
  EXPECT_EQ(at.data(Qt::CheckStateRole).toInt(), Qt::Unchecked);
  visibility_.showAll();
  EXPECT_EQ(at.data(Qt::CheckStateRole).toInt(), Qt::Checked);
  EXPECT_TRUE(at.flags() & Qt::ItemIsUserCheckable);
  EXPECT_FALSE(at.siblingAtColumn(1).flags() & Qt::ItemIsUserCheckable);
  EXPECT_FALSE(model_.setData(at.siblingAtColumn(1), Qt::Unchecked, Qt::CheckStateRole));
  EXPECT_FALSE(model_.setData(at, 1, Qt::DisplayRole));
  EXPECT_FALSE(visibility_.anyHidden());
}

TEST_F(PartsModelTest, ANewNameIsAskedForAndNotTakenByItself) {
  model_.show(scene_);
  const QModelIndex at = model_.indexOf(part(*scene_, "arm"));
  QString asked;
  QObject::connect(&model_, &PartsModel::renameWanted,
                   [&](PartId, const QString& name) { asked = name; });
  EXPECT_TRUE(at.flags() & Qt::ItemIsEditable);
  EXPECT_FALSE(model_.setData(at, QStringLiteral("arm"), Qt::EditRole)) << "the same";
  EXPECT_TRUE(asked.isEmpty());
  EXPECT_TRUE(model_.setData(at, QStringLiteral("leg"), Qt::EditRole));
  EXPECT_EQ(asked, QStringLiteral("leg"));
  EXPECT_EQ(at.data().toString(), QStringLiteral("arm"));
  EXPECT_FALSE(model_.setData(at.siblingAtColumn(1), QStringLiteral("x"), Qt::EditRole));
}

TEST_F(PartsModelTest, JointTextsFollowTheStand) {
  model_.show(scene_);
  EXPECT_EQ(jointTextOf("hull"), QString()) << "it stands still";
  EXPECT_EQ(jointTextOf("arm"), QStringLiteral("hinge 0.0°"));
  Configuration standing = scene_->assembly().home();
  standing.values[joint(*scene_, "shoulder").index].x() = radFromDeg(45.04);
  standing.values[joint(*scene_, "wrist").index].x() = 12.345;
  standing.values[joint(*scene_, "neck").index] = {0, radFromDeg(-10), 0};
  const QSignalSpy told(&model_, &PartsModel::dataChanged);
  model_.setStanding(standing);
  EXPECT_GT(told.count(), 0);
  EXPECT_EQ(jointTextOf("arm"), QStringLiteral("hinge 45.0°"));
  EXPECT_EQ(jointTextOf("hand"), QStringLiteral("slide 12.35\u00a0mm"));
  EXPECT_EQ(jointTextOf("head"), QStringLiteral("ball (0.0, -10.0, 0.0)°"));
}

TEST_F(PartsModelTest, TheJointOfTheMountThatHoldsNowIsTold) {
  model_.show(scene_);
  Configuration standing = scene_->loaded.modes[1].configuration;  // The axe in the hand, at 3 mm.
  model_.setStanding(standing);
  EXPECT_EQ(jointTextOf("axe"), QStringLiteral("slide 3.00\u00a0mm"));
}

TEST_F(PartsModelTest, AFixedPartSaysSo) {
  model_.show(scene_ = Bench::press().scene());
  EXPECT_EQ(jointTextOf("cap"), QStringLiteral("fixed"));
}

TEST_F(PartsModelTest, AnOpenOrMissingMeshIsNoted) {
  const Bench press = Bench::press();
  AssemblyDocument document = press.document();
  document.parts[4].stages.clear();
  openStl(press.folder() / "rail.stl");
  scene_ = press.scene(document);
  model_.show(scene_);
  const auto noteOf = [&](const char* name) {
    return model_.indexOf(part(*scene_, name)).data(PartsModel::NoteRole).toString();
  };
  EXPECT_TRUE(noteOf("block").isEmpty());
  EXPECT_TRUE(noteOf("rail").contains(QStringLiteral("not a closed solid")));
  // One triangle was taken out: its three edges have one neighbour left.
  EXPECT_TRUE(noteOf("rail").contains(QStringLiteral("3 open edges")));
  EXPECT_TRUE(noteOf("post").contains(QStringLiteral("not checked")));
}

TEST_F(PartsModelTest, PartsWhoseFirstMountsFormARingAreAllShown) {
  // The modes hang the axe on the hull, and on it the hand; the first mounts alone form a ring.
  AssemblyDocument document = bench_.document();
  document.sequences.clear();
  document.pairs.clear();
  document.joints[2].parent = "hand";
  document.joints[3].parent = "hull";
  document.joints[1].parent = "axe";
  for (DocumentMode& mode : document.modes) {
    mode.values = DocumentValues{{"shoulder", 0.0}};
    mode.mounts = {{"axe", "hand clip"}};
  }
  model_.show(bench_.scene(document));
  std::size_t shown = 0;
  const std::function<void(const QModelIndex&)> count = [&](const QModelIndex& parent) {
    for (int row = 0; row < model_.rowCount(parent); ++row) {
      ++shown;
      count(model_.index(row, 0, parent));
    }
  };
  count({});
  EXPECT_EQ(shown, 6u) << treeOf(model_);
}

}  // namespace
}  // namespace swingroom
