// Block and detail in the session: what is told on load, and the comparison.
#include <gtest/gtest.h>

#include <QAbstractItemModelTester>

#include "app/models/stages/stage_gaps_model.h"
#include "app/models/stages/stage_story.h"
#include "core/files/document/write_document.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

/// The press: a rail 0.2 above the sled. The sled gets a detail: the same box, 0.1 higher, so that
/// the rail's gap is 0.1 (tests/app/support/assemblies.h).
class StageCompareTest : public ::testing::Test {
 protected:
  StageCompareTest() {
    const ScenePtr scene = bench_.scene();
    sled_ = part(*scene, "sled").index;
    const Eigen::AlignedBox3d box = boundsOf(*scene->assembly().parts()[sled_].mesh);
    writeDetail(shapes::box(box.min(), box.max() + Vector3d(0, 0, 0.1)));
    AssemblyDocument document = bench_.document();
    document.parts[sled_].stages["detail"] = "sled_detail.stl";
    bench_.write(document);
    box_ = box;
  }
  void writeDetail(const TriangleMesh& mesh) {
    writeBytes(bench_.folder() / "sled_detail.stl", writers::binaryStl(mesh));
  }
  void open() {
    ASSERT_TRUE(session_.open(bench_.file()).empty());
    ASSERT_TRUE(waitUntilQuiet(session_));
    ASSERT_TRUE(session_.scene());
  }
  void useDetail() {
    AssemblyDocument document = session_.document().document();
    document.parts[sled_].use = "detail";
    session_.document().edit(QStringLiteral("detail"), document);
    ASSERT_TRUE(waitUntilQuiet(session_));
    ASSERT_TRUE(waitUntil([&] { return !session_.stageFits().isLooking(); }));
  }
  bool done(const StageCompare& compare) {
    return waitUntil([&] {
      return compare.state() == StageCompare::State::done || compare.state() == StageCompare::State::failed;
    });
  }

  Bench bench_ = Bench::press();
  std::size_t sled_ = 0;
  Eigen::AlignedBox3d box_;
  std::shared_ptr<ResultStore> results_ = std::make_shared<ResultStore>();
  Session session_{testReader(), results_};
};

TEST_F(StageCompareTest, TheSurfaceAndTheGapsWithBothAreTold) {
  open();
  StageCompare compare(session_, testReader(), results_);
  compare.compare("sled");
  ASSERT_TRUE(done(compare));
  ASSERT_EQ(compare.state(), StageCompare::State::done) << compare.problems().size();
  const ComparedStages& compared = *compare.compared();
  ASSERT_TRUE(compared.ofDetail.outward);
  EXPECT_NEAR(compared.ofDetail.outward->place.mm, 0.1, 1e-5);  // STL is float32.
  EXPECT_FALSE(compared.ofDetail.inward && compared.ofDetail.inward->place.mm < -1e-5);
  const Vector3d sizes = box_.sizes();
  EXPECT_NEAR(*compared.detailMm3 - *compared.blockMm3, 0.1 * sizes.x() * sizes.y(), 1e-3 * sizes.x() * sizes.y());
  const PartId rail = part(*session_.scene(), "rail");
  bool found = false;
  for (const GapChange& gap : compare.gaps()) {
    if (gap.a != rail && gap.b != rail) continue;
    found = true;
    EXPECT_LE(gap.gapBefore.lowerMm, 0.2 + 1e-5);
    EXPECT_GE(*gap.gapBefore.upperMm, 0.2 - 1e-5);
    EXPECT_LE(gap.gapAfter.lowerMm, 0.1 + 1e-5);
    EXPECT_GE(*gap.gapAfter.upperMm, 0.1 - 1e-5);
    EXPECT_TRUE(gap.isChanged());
  }
  EXPECT_TRUE(found);
  const StageStory story = stageStoryOf(compare);
  EXPECT_EQ(story.title, QStringLiteral("sled: block and detail"));
  ASSERT_FALSE(story.surface.empty());
  EXPECT_EQ(story.surface[0].words, QStringLiteral("Outward: 0.10\u00A0mm at most"));
  EXPECT_TRUE(story.surface[0].place_P);
  EXPECT_TRUE(story.notes.empty());
  StageGapsModel model;
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  model.show(compare.gaps(), session_.scene(), "sled");
  EXPECT_EQ(model.rowCount(), static_cast<int>(compare.gaps().size()));
  model.show({}, nullptr, "");
}

TEST_F(StageCompareTest, SwitchingItsStageDoesNotCompareAnew) {
  open();
  StageCompare compare(session_, testReader(), results_);
  compare.compare("sled");
  ASSERT_TRUE(done(compare));
  const auto before = compare.compared();
  EXPECT_FALSE(compare.showsDetail());
  useDetail();
  EXPECT_TRUE(compare.showsDetail());
  EXPECT_EQ(compare.compared(), before);
  compare.close();
  EXPECT_EQ(compare.state(), StageCompare::State::none);
  EXPECT_EQ(compare.compared(), nullptr);
}

TEST_F(StageCompareTest, APartWithoutDetailIsRefusedInWords) {
  open();
  StageCompare compare(session_, testReader(), results_);
  compare.compare("rail");
  EXPECT_EQ(compare.state(), StageCompare::State::failed);
  EXPECT_FALSE(compare.problems().empty());
}

TEST_F(StageCompareTest, ADetailThatStandsElsewhereIsAmongTheNotes) {
  writeDetail(shapes::box(box_.min() + Vector3d(0, 0, -3), box_.max() + Vector3d(0, 0, -3)));
  open();
  EXPECT_TRUE(session_.stageFits().notes().empty()) << "the block is in use";
  useDetail();
  const Problems notes = session_.stageFits().notesOf("sled");
  ASSERT_EQ(notes.size(), 1u);
  EXPECT_EQ(notes[0].where, "sled_detail.stl");
  EXPECT_NE(notes[0].what.find("stands 3.00 mm off its block, towards -z"), std::string::npos) << notes[0].what;
  const Problems all = session_.notes();
  EXPECT_NE(std::find(all.begin(), all.end(), notes[0]), all.end());
  // Saved again as it should be.
  writeDetail(shapes::box(box_.min(), box_.max()));
  session_.readMeshesAgain();
  ASSERT_TRUE(waitUntilQuiet(session_));
  ASSERT_TRUE(waitUntil([&] { return session_.stageFits().notes().empty() && !session_.stageFits().isLooking(); }));
}

}  // namespace
}  // namespace swingroom
