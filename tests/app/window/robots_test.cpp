// A robot description dropped on the window becomes an assembly: real files, mouse and keys.
#include <QApplication>
#include <QCheckBox>
#include <QDragEnterEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QTimer>
#include <QUrl>

#include "app/window/forms/robot_form.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

const fs::path kArmFolder = "/usr/share/doc/dart/data/urdf/KR5";

class Robots : public OpenWindow {
 protected:
  void SetUp() override {
    window_->resize(1440, 900);
    window_->show();
  }
  fs::path arm() {
    fs::copy(kArmFolder, folder_.path() / "arm", fs::copy_options::recursive);
    return folder_.path() / "arm" / "KR5 sixx R650.urdf";
  }
  /// Does `act` once on the form that opens, and waits until it is closed.
  template <typename Act>
  void inForm(Act act) {
    bool begun = false, closed = false;
    QTimer watch;
    QObject::connect(&watch, &QTimer::timeout, [&] {
      auto* form = qobject_cast<RobotForm*>(QApplication::activeModalWidget());
      if (!form || begun) return;
      begun = true;
      QObject::connect(form, &QDialog::finished, [&] { closed = true; });
      act(*form);
      // What failed half way must not leave the form waiting for ever.
      if (!closed && !soon([&] { return closed; })) form->reject();
    });
    watch.start(20);
    EXPECT_TRUE(soon([&] { return closed; }));
  }
  static QPushButton* beginOf(const RobotForm& form) {
    for (QPushButton* button : form.findChildren<QPushButton*>()) {
      if (button->isDefault()) return button;
    }
    return nullptr;
  }
  static QString saidIn(const RobotForm& form) {
    QString all;
    for (const QLabel* label : form.findChildren<QLabel*>()) all += label->text() + u'\n';
    return all;
  }
  void click(const QWidget& widget) { hand_.click(widget, QRectF(widget.rect()).center()); }
};

TEST_F(Robots, DroppedArmIsShownInWordsAndBecomesAnUnsavedAssemblyThatIsChecked) {
  const fs::path file = arm();
  drop({QString::fromStdString(file.string())});
  inForm([&](RobotForm& form) {
    ASSERT_TRUE(soon([&] { return beginOf(form)->isEnabled(); }));
    EXPECT_TRUE(saidIn(form).contains(QStringLiteral("8 links as 8 parts; 6 hinges")));
    auto* box = form.findChild<QCheckBox*>();
    hand_.click(*box, QPointF(8, box->height() / 2.0));
    EXPECT_TRUE(box->isChecked());
    ASSERT_TRUE(soon([&] { return beginOf(form)->isEnabled(); }));
    click(*beginOf(form));
  });
  EXPECT_EQ(session().document().document().parts.size(), 8u);
  EXPECT_TRUE(session().document().isModified());
  EXPECT_EQ(session().document().file(), folder_.path() / "arm" / "KR5 sixx R650.swing.json");
  EXPECT_FALSE(fs::exists(session().document().file())) << "it is saved when that is asked for";
  waitForCheck();
  // 7 parts with meshes; the 6 pairs that joints join are allowed.
  EXPECT_EQ(session().board().pairsInAll(), 21u);
  EXPECT_TRUE(session().board().findings().empty());
}

TEST_F(Robots, MissingPackageHasARowOfItsOwnAndIsTakenWhenItIsTyped) {
  fs::create_directories(folder_.path() / "elsewhere");
  fs::copy(kArmFolder / "meshes/wrist.STL", folder_.path() / "elsewhere/wrist.stl");
  const fs::path file = folder_.write("r.urdf", R"(<robot name="r">
<link name="a"><visual><geometry><mesh filename="package://arm_parts/wrist.stl"/></geometry></visual></link>
<link name="b"><visual><geometry><box size="0.1 0.1 0.1"/></geometry></visual></link>
<joint name="j" type="continuous"><parent link="a"/><child link="b"/><origin xyz="0.5 0 0"/></joint>
</robot>)");
  drop({QString::fromStdString(file.string())});
  inForm([&](RobotForm& form) {
    ASSERT_TRUE(soon([&] { return saidIn(form).contains(QStringLiteral("is not found")); }));
    EXPECT_TRUE(saidIn(form).contains(QStringLiteral("Line 2: package")));
    EXPECT_FALSE(beginOf(form)->isEnabled());
    QLineEdit* row = nullptr;
    for (QLineEdit* line : form.findChildren<QLineEdit*>()) {
      if (line->accessibleName().contains(QStringLiteral("arm_parts"))) row = line;
    }
    ASSERT_NE(row, nullptr);
    // Once more if the form grew under the pointer: it makes room for what it says.
    ASSERT_TRUE(soon([&] {
      click(*row);
      return row->hasFocus();
    }));
    hand_.type(QString::fromStdString((folder_.path() / "elsewhere").string()));
    ASSERT_TRUE(soon([&] { return beginOf(form)->isEnabled(); })) << saidIn(form).toStdString();
    hand_.key(QStringLiteral("Return"));
  });
  ASSERT_EQ(session().document().document().parts.size(), 2u);
  EXPECT_TRUE(fs::exists(folder_.path() / "r_shapes" / "box_100x100x100.stl"));
  waitForCheck();
  EXPECT_EQ(session().board().pairsInAll(), 1u);
}

TEST_F(Robots, WhatIsWrongStandsInTheFormAndEscapeLeavesAllAsItWas) {
  open();
  const fs::path file = folder_.write("r.urdf",
                                      "<robot name=\"r\">\n<link name=\"a\"/>\n"
                                      "<link name=\"b\"/>\n</robot>");
  drop({QString::fromStdString(file.string())});
  inForm([&](RobotForm& form) {
    ASSERT_TRUE(soon(
        [&] { return saidIn(form).contains(QStringLiteral("2 links that hang on no other")); }));
    EXPECT_FALSE(beginOf(form)->isEnabled());
    click(*form.findChild<QLineEdit*>());  // Without a window manager only a click gives the keys.
    hand_.key(QStringLiteral("Escape"));
  });
  EXPECT_EQ(session().document().file(), file_);
}

}  // namespace
}  // namespace swingroom
