#include "tests/app/pictures/robot_pictures.h"

#include <QApplication>
#include <QCheckBox>
#include <QTemporaryDir>
#include <QTest>
#include <QTimer>
#include <functional>

#include "app/window/forms/robot_form.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

const fs::path kDartData = "/usr/share/doc/dart/data";

/// At most a minute; a picture shows what is not so by then.
void waitUntil(const std::function<bool()>& isSo) {
  (void)QTest::qWaitFor(isSo, 60'000);
}

void takeForm(Photographer& photographer, const QString& name, const fs::path& urdf) {
  RobotForm form(MeshReader::besideThisProgram(), &photographer.window());
  form.setFile(QString::fromStdString(urdf.string()));
  form.show();
  QTest::qWait(1500);
  photographer.takeWidget(name, form);
}

/// Opens the robot as a drop does, and begins as soon as it is read.
Session& openRobot(Photographer& photographer, const fs::path& urdf, bool joined) {
  photographer.begin();
  QTimer begin;
  QObject::connect(&begin, &QTimer::timeout, [&] {
    auto* form = qobject_cast<RobotForm*>(QApplication::activeModalWidget());
    if (!form) return;
    auto* box = form->findChild<QCheckBox*>();
    if (box->isChecked() != joined) return box->setChecked(joined);
    for (QPushButton* button : form->findChildren<QPushButton*>()) {
      if (button->isDefault() && button->isEnabled()) return button->click();
    }
  });
  begin.start(100);
  photographer.window().open(QString::fromStdString(urdf.string()));
  begin.stop();
  Session& session = photographer.window().session();
  waitUntil([&] {
    return session.scene() && session.board().pairsInAll() > 0 &&
           session.board().pairsKnown() == session.board().pairsInAll();
  });
  QTest::qWait(1500);
  return session;
}

}  // namespace

void takeRobots(Photographer& photographer) {
  const QTemporaryDir folder;
  const fs::path to = folder.path().toStdString();
  fs::copy(kDartData / "urdf", to / "urdf", fs::copy_options::recursive);
  fs::copy(kDartData / "sdf/atlas", to / "atlas", fs::copy_options::recursive);
  photographer.begin();
  takeForm(photographer, QStringLiteral("robot_form"), to / "urdf/wam/wam.urdf");
  takeForm(photographer, QStringLiteral("robot_form_missing"), to / "atlas/atlas_v3.urdf");
  openRobot(photographer, to / "urdf/wam/wam.urdf", false).stand().moveTo(0.5);
  photographer.take(QStringLiteral("robot_arm"));
  openRobot(photographer, to / "urdf/KR5/KR5 sixx R650.urdf", true).stand().moveTo(0.3);
  photographer.take(QStringLiteral("robot_arm_joined"));
  openRobot(photographer, to / "urdf/drchubo/drchubo.urdf", false).stand().moveTo(0);
  photographer.take(QStringLiteral("robot_figure"));
}

}  // namespace swingroom
