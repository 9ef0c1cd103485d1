// A part's spaces saved from the window, and how far it may grow, by real mouse and keys, on boxes
// with a closed form (tests/app/support/rooms.h).
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>

#include "app/panels/room/growth_section.h"
#include "app/panels/room/space_section.h"
#include "app/window/room/space_form.h"
#include "tests/app/support/rooms.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class SpaceWindow : public OpenWindow {
 protected:
  /// For what is worked out behind all else.
  template <typename Condition>
  static bool inTime(Condition condition) {
    return QTest::qWaitFor(condition, 120'000);
  }
  void openSled() {
    window_->open(QString::fromStdString(writeRoomPress(press_).string()));
    waitForCheck();
    ASSERT_TRUE(session().scene());
    session().choice().choosePart(part("sled"));
    window_->activateWindow();
    hand_.key(QStringLiteral("r"));
    ASSERT_TRUE(inTime([&] { return window_->room().state() == RoomBoard::State::done; }));
  }
  void clickOn(QWidget& widget) { hand_.click(widget, QRectF(widget.rect()).center()); }
  SpaceForm* openForm(QPushButton& button) {
    SpaceForm* form = nullptr;
    const auto isOpen = [&] {
      form = window_->findChild<SpaceForm*>();
      return form && form->isVisible();
    };
    // Once more if the page grew under the pointer: figures arrive on it meanwhile.
    for (int tries = 0; tries < 5 && !isOpen(); ++tries) {
      window_->roomPanel().ensureSeen(button);
      QTest::qWait(200);
      clickOn(button);
      QTest::qWaitFor(isOpen, 4000);
    }
    if (form) form->activateWindow();
    return form;
  }

  Bench press_ = Bench::press();
};

double volumeMm3(const TriangleMesh& mesh) {
  double six = 0;
  for (const Triangle& t : mesh.triangles)
    six += mesh.vertices[t[0]].dot(mesh.vertices[t[1]].cross(mesh.vertices[t[2]]));
  return six / 6;
}

// Of a box over the sled, 4 x 6 and from z of 2 to 9, the rail's underside at 8.2 leaves what is
// below 8.1: 4 x 6 x 6.1 = 146.4 mm3, with a surface of 170 mm2.
TEST_F(SpaceWindow, TheSpaceThatItMayFillIsSavedAndReadBack) {
  openSled();
  SpaceForm* form = openForm(window_->spaceSection().fills());
  ASSERT_NE(form, nullptr);
  form->cutFrom().setCurrentIndex(1);
  const double box[2][3] = {{14, 2, 2}, {18, 8, 9}};
  for (std::size_t end = 0; end < 2; ++end) {
    for (std::size_t axis = 0; axis < 3; ++axis) form->corner(end, axis).setValue(box[end][axis]);
  }
  const auto file = folder_.path() / "sled_room.stl";
  clickOn(form->file());
  hand_.key(QStringLiteral("ctrl+a"));
  hand_.type(QString::fromStdString(file.string()));
  clickOn(form->save());
  ASSERT_TRUE(
      inTime([&] { return !form->writer().isWorking() && !form->told().text().isEmpty(); }));
  ASSERT_TRUE(std::filesystem::exists(file)) << form->told().text().toStdString();
  EXPECT_TRUE(form->told().text().contains(QStringLiteral("sled_room.stl is saved")));
  const auto read = testReader().read(file);
  ASSERT_TRUE(read) << toText(read.problems().front());
  const double volume = volumeMm3(read->mesh);
  EXPECT_LE(volume, 146.4 + 0.01);
  EXPECT_GT(volume, 146.4 - 170 * 0.3);
  for (const Vector3d& p : read->mesh.vertices) EXPECT_LE(p.z(), 8.1 + 1e-4);
  clickOn(form->leave());
  EXPECT_TRUE(soon([&] { return window_->findChild<SpaceForm*>() == nullptr; }));
}

// From (14, 2, 2) to (18, 8, 8), drawn 2 mm along -x: 6 x 6 x 6 = 216 mm3 and no less.
TEST_F(SpaceWindow, TheSpaceThatItSweepsIsSavedAndReadBack) {
  openSled();
  SpaceForm* form = openForm(window_->spaceSection().sweeps());
  ASSERT_NE(form, nullptr);
  const auto file = folder_.path() / "sled.3mf";
  form->file().setText(QString::fromStdString(file.string()));
  clickOn(form->save());
  ASSERT_TRUE(
      inTime([&] { return !form->writer().isWorking() && !form->told().text().isEmpty(); }));
  ASSERT_TRUE(std::filesystem::exists(file)) << form->told().text().toStdString();
  const auto read = testReader().read(file);
  ASSERT_TRUE(read) << toText(read.problems().front());
  EXPECT_GE(volumeMm3(read->mesh), 216 - 0.01);
  EXPECT_LT(volumeMm3(read->mesh), 216 + 216 * 0.4);
}

TEST_F(SpaceWindow, AFileThatCannotBeIsSaidInWordsAndTheFormStays) {
  openSled();
  SpaceForm* form = openForm(window_->spaceSection().fills());
  ASSERT_NE(form, nullptr);
  form->file().setText(QString::fromStdString((folder_.path() / "none" / "sled.stl").string()));
  clickOn(form->save());
  ASSERT_TRUE(
      inTime([&] { return !form->writer().isWorking() && !form->told().text().isEmpty(); }));
  EXPECT_TRUE(form->told().text().contains(QStringLiteral("sled.stl")))
      << form->told().text().toStdString();
  EXPECT_TRUE(form->isVisible());
  EXPECT_TRUE(form->save().isEnabled());
}

// 3 mm from its middle to the top, which may come 0.1 nearer to the rail: 1.0333.
TEST_F(SpaceWindow, GrowthIsSaidByItselfAndItsStopShown) {
  openSled();
  GrowthSection& growth = window_->growth();
  ASSERT_TRUE(inTime([&] { return growth.scale().text().startsWith(QChar(0x00D7)); }))
      << growth.scale().text().toStdString();
  const auto figures = numbersIn(growth.scale().text().toStdString());
  ASSERT_FALSE(figures.empty());
  EXPECT_LE(figures.front(), 1.0333);
  EXPECT_GT(figures.front(), 1.02);
  window_->roomPanel().ensureSeen(growth.showScale());
  QTest::qWait(200);
  clickOn(growth.showScale());
  ASSERT_TRUE(soon([&] { return session().choice().pair().has_value(); }));
  EXPECT_TRUE(session().choice().isChosen(part("rail")));
  EXPECT_TRUE(session().choice().isChosen(part("sled")));
}

}  // namespace
}  // namespace swingroom
