// One file with many parts is dropped, its keyed moments ticked and named by mouse and keys.
#include <QApplication>
#include <QDragEnterEvent>
#include <QMimeData>
#include <QPushButton>
#include <QTimer>
#include <QUrl>

#include "app/window/forms/folder_form.h"
#include "app/window/forms/scene_form.h"
#include "tests/app/window/open_window.h"
#include "tests/scenes/writers/gltf_writer.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr double kMm = 0.001;

Eigen::Vector4d aboutUpright(double deg) {
  return Eigen::Quaterniond(Eigen::AngleAxisd(radFromDeg(deg), Vector3d::UnitY())).coeffs();
}

class SceneFiles : public OpenWindow {
 protected:
  /// A post and a door that swings by 70 degrees in 2 s, by way of 40 at 1 s.
  QString door() const {
    writers::GltfWriter writer;
    writer.addNode(
        {"post", writer.addMesh("", shapes::box({0, 0, 0}, kMm * Vector3d(29, 50, 20)))});
    const int door = writer.addNode(
        {"door",
         writer.addMesh("", shapes::box(kMm * Vector3d(0.2, 1, 1), kMm * Vector3d(40, 49, 9))), -1,
         Vector3d(0.03, 0, 0)});
    const int swing = writer.addAnimation("swing");
    writer.addTrack(swing, door, "rotation", {0, 1, 2},
                    {aboutUpright(0), aboutUpright(40), aboutUpright(70)});
    const auto file = folder_.path() / "door.glb";
    writer.write(file);
    return QString::fromStdString(file.string());
  }

  /// Runs `use` once on the form that opens.
  template <typename Form, typename Use>
  void withForm(const QString& file, Use use) {
    bool seen = false;
    QTimer watch;
    QObject::connect(&watch, &QTimer::timeout, [&] {
      auto* form = qobject_cast<Form*>(QApplication::activeModalWidget());
      if (!form || seen) return;
      seen = true;
      use(*form);
      if (form->isVisible()) form->reject();
    });
    watch.start(20);
    drop({file});
    EXPECT_TRUE(soon([&] { return seen; }));
  }
};

TEST_F(SceneFiles, KeyedMomentsAreTickedAndNamedAndBecomeModes) {
  withForm<SceneForm>(door(), [&](SceneForm& form) {
    ASSERT_TRUE(soon([&] { return form.beginButton().isEnabled(); })) << form.said().toStdString();
    QTreeWidget& moments = form.moments();
    ASSERT_EQ(moments.topLevelItemCount(), 3);
    EXPECT_EQ(moments.topLevelItem(0)->checkState(0), Qt::Checked);
    EXPECT_EQ(moments.topLevelItem(1)->checkState(0), Qt::Unchecked);
    const auto rename = [&](int row, const QString& name) {
      // The form grows with what it says: it must have said it.
      ASSERT_TRUE(soon([&] { return form.beginButton().isEnabled(); }));
      QTest::qWait(50);
      const QRect cell = moments.visualItemRect(moments.topLevelItem(row));
      hand_.click(*moments.viewport(),
                  QPointF(cell.left() + 8 + moments.columnWidth(0), cell.center().y()));
      ASSERT_TRUE(soon([&] { return moments.currentItem() == moments.topLevelItem(row); }));
      hand_.key(QStringLiteral("F2"));
      hand_.type(name);
      hand_.key(QStringLiteral("Return"));
      EXPECT_TRUE(soon([&] { return moments.topLevelItem(row)->text(1) == name; })) << row;
    };
    rename(0, QStringLiteral("shut"));
    rename(2, QStringLiteral("open"));
    // What was typed is read again a moment later, and the button waits for that: as a person does, it is pressed
    // once more if it did not take.
    EXPECT_TRUE(soon([&] {
      if (form.isVisible() && form.beginButton().isEnabled()) {
        hand_.click(form.beginButton(), QRectF(form.beginButton().rect()).center());
        QTest::qWait(200);
      }
      return !form.isVisible();
    })) << form.said().toStdString();
  });
  ASSERT_TRUE(soon([&] { return session().scene() != nullptr; }));
  const AssemblyDocument& document = session().document().document();
  ASSERT_EQ(document.modes.size(), 2u);
  EXPECT_EQ(document.modes[0].name, "shut");
  EXPECT_EQ(document.modes[1].name, "open");
  ASSERT_EQ(document.joints.size(), 1u);
  EXPECT_EQ(document.joints[0].type, JointType::hinge);
  EXPECT_NEAR(std::abs(std::get<double>(document.modes[1].values->begin()->second)), 70, 1e-3);
  EXPECT_FALSE(std::filesystem::exists(session().document().file())) << "not saved by itself";
}

TEST_F(SceneFiles, AFileWithOnePartOffersItsFolder) {
  folder_.write("one.obj",
                "v 0 0 0\nv 10 0 0\nv 0 10 0\nv 0 0 10\nf 1 3 2\nf 1 2 4\nf 2 3 4\nf 1 4 3\n");
  withForm<SceneForm>(QString::fromStdString((folder_.path() / "one.obj").string()),
                      [&](SceneForm& form) {
                        QPushButton* folder = nullptr;
                        for (QPushButton* button : form.findChildren<QPushButton*>()) {
                          if (button->text() == QStringLiteral("Take its folder")) folder = button;
                        }
                        ASSERT_TRUE(folder);
                        EXPECT_TRUE(soon([&] { return folder->isVisible(); }));
                      });
}

TEST_F(SceneFiles, WhatCannotBeReadIsToldInTheForm) {
  const auto file = folder_.write("broken.glb", "glTF");
  withForm<SceneForm>(QString::fromStdString(file.string()), [&](SceneForm& form) {
    EXPECT_TRUE(soon([&] { return form.said().contains(QStringLiteral("cut off")); }))
        << form.said().toStdString();
    EXPECT_FALSE(form.beginButton().isEnabled());
  });
}

}  // namespace
}  // namespace swingroom
