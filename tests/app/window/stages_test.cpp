// Block and detail in the window, by real mouse and keys.
#include <QAction>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QMimeData>
#include <QPushButton>
#include <QTableView>
#include <QUrl>
#include <fstream>

#include "app/window/stages/stage_actions.h"
#include "core/files/mesh_file.h"
#include "tests/app/window/open_window.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

/// The hatch box's lid with a stud of 6 x 6 on top, 1.5 mm high: a shell of its own that reaches
/// into the lid.
class StagesInTheWindow : public OpenWindow {
 protected:
  void makeDetail() {
    const auto lid = MeshReader::besideThisProgram().read(folder_.path() / "lid.stl");
    ASSERT_TRUE(lid);
    // The plate's top is 3.6 above the hinge, which is at z = 24 (README of the sample).
    const Vector3d top(0, -2, 27.6);
    const TriangleMesh stud =
        shapes::box(top - Vector3d(3, 3, 0.5), top + Vector3d(3, 3, 1.5));
    std::ofstream out(detail_ = folder_.path() / "lid_detail.stl", std::ios::binary);
    out << writers::binaryStl(shapes::joined({lid->mesh, stud}));
  }
  const DocumentPart& lid() { return session().document().document().parts[1]; }
  /// A file that is let go over the lid's row.
  void dropOnLid() {
    QTreeView& tree = window_->parts().tree();
    const QRect row = tree.visualRect(window_->parts().model().indexOf(part("lid")));
    const QPoint place = tree.viewport()->mapTo(window_.get(), row.center());
    QMimeData dropped;
    dropped.setUrls({QUrl::fromLocalFile(QString::fromStdString(detail_.string()))});
    QDragEnterEvent enter(place, Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(window_.get(), &enter);
    ASSERT_TRUE(enter.isAccepted());
    QDropEvent event(QPointF(place), Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(window_.get(), &event);
    ASSERT_TRUE(soon([&] { return lid().stages.contains("detail"); }));
    waitForCheck();
  }
  bool compared() {
    return soon([&] { return window_->stageCompare().state() == StageCompare::State::done; });
  }
  std::filesystem::path detail_;
};

TEST_F(StagesInTheWindow, AFileThatIsDroppedOnAPartIsItsDetailAndUndoTakesItBack) {
  makeDetail();
  open();
  dropOnLid();
  EXPECT_EQ(lid().stages.at("detail"), "lid_detail.stl");
  EXPECT_EQ(lid().use, "detail");
  EXPECT_EQ(session().choice().part(), part("lid"));
  hand_.key(QStringLiteral("ctrl+z"));
  ASSERT_TRUE(soon([&] { return !lid().stages.contains("detail"); }));
  waitForCheck();
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_EQ(bytes(), original_);
}

TEST_F(StagesInTheWindow, OneKeySwitchesTheChosenPartAndTheMenuAll) {
  makeDetail();
  open();
  dropOnLid();
  window_->ribbon().setFocus();
  hand_.key(QStringLiteral("b"));
  ASSERT_TRUE(soon([&] { return lid().use == "block"; }));
  waitForCheck();
  EXPECT_TRUE(window_->stages().allDetail().isEnabled());
  EXPECT_FALSE(window_->stages().allBlock().isEnabled());
  window_->stages().allDetail().trigger();
  EXPECT_EQ(lid().use, "detail");
  waitForCheck();
  hand_.key(QStringLiteral("ctrl+z"));
  ASSERT_TRUE(soon([&] { return lid().use == "block"; }));
}

TEST_F(StagesInTheWindow, TheComparisonSaysWhatMovedShowsWhereAndGoesAway) {
  makeDetail();
  open();
  dropOnLid();
  window_->ribbon().setFocus();
  hand_.key(QStringLiteral("ctrl+b"));
  ASSERT_TRUE(compared());
  StagePanel& panel = window_->stagePanel();
  ASSERT_TRUE(panel.isVisible());
  EXPECT_FALSE(window_->findings().isVisible());
  ASSERT_FALSE(panel.story().surface.empty());
  EXPECT_EQ(panel.story().surface[0].words, QStringLiteral("Outward: 1.50\u00A0mm at most"));
  EXPECT_TRUE(panel.story().notes.empty());
  EXPECT_EQ(panel.gapsModel().rowCount(), 2);
  ASSERT_EQ(window_->view()->paint().parts.size(), 1u);
  EXPECT_EQ(window_->view()->paint().parts[0].part, part("lid"));
  // To the stud's top, by the mouse.
  ASSERT_FALSE(panel.placeButtons().empty());
  QPushButton& show = *panel.placeButtons().front();
  const Vector3d target = window_->view()->camera().p_WTarget;
  hand_.click(show, show.rect().center());
  ASSERT_TRUE(soon([&] { return (window_->view()->camera().p_WTarget - target).norm() > 1e-6; }));
  // A pair by its row.
  const QRect row = panel.gaps().visualRect(panel.gapsModel().index(0, 0));
  hand_.click(*panel.gaps().viewport(), row.center());
  ASSERT_TRUE(soon([&] { return session().choice().pair().has_value(); }));
  // Its other stage, and the comparison stays.
  hand_.click(panel.switchButton(), panel.switchButton().rect().center());
  ASSERT_TRUE(soon([&] { return lid().use == "block"; }));
  waitForCheck();
  EXPECT_EQ(window_->stageCompare().state(), StageCompare::State::done);
  hand_.key(QStringLiteral("Escape"));
  ASSERT_TRUE(soon([&] { return window_->findings().isVisible(); }));
  EXPECT_EQ(window_->stageCompare().state(), StageCompare::State::none);
  EXPECT_TRUE(window_->view()->paint().parts.empty());
}

TEST_F(StagesInTheWindow, ADetailThatStandsElsewhereIsToldAtOnce) {
  makeDetail();
  const auto mesh = MeshReader::besideThisProgram().read(detail_);
  ASSERT_TRUE(mesh);
  std::ofstream(detail_, std::ios::binary)
      << writers::binaryStl(shapes::moved(mesh->mesh, translation({0, 4, 0})));
  open();
  dropOnLid();
  ASSERT_TRUE(soon([&] { return window_->problems().isVisible(); }));
  EXPECT_TRUE(window_->problems().text().contains(QStringLiteral("stands 4.00 mm off its block, towards +y")))
      << window_->problems().text().toStdString();
}

}  // namespace
}  // namespace swingroom
