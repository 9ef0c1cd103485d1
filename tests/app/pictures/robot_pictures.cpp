#include "tests/app/pictures/robot_pictures.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

#include "app/window/robot_form.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

const fs::path kDartData = "/usr/share/doc/dart/data";

bool isRead(const RobotForm& form) {
  for (const QPushButton* button : form.findChildren<QPushButton*>()) {
    if (button->isDefault() && button->isEnabled()) return true;
  }
  return false;
}

void takeForm(Photographer& photographer, const QString& name, const fs::path& urdf) {
  RobotForm form(MeshReader::besideThisProgram(), &photographer.window());
  form.setFile(QString::fromStdString(urdf.string()));
  form.show();
  QTest::qWaitFor([&] { return isRead(form); }, 5'000);
  QTest::qWait(200);
  photographer.takeWidget(name, form);
}

/// Opens the robot as the form makes it.
Session& openRobot(Photographer& photographer, const fs::path& urdf, bool joined) {
  photographer.begin();
  RobotForm form(MeshReader::besideThisProgram(), &photographer.window());
  if (joined) form.findChild<QCheckBox*>()->setChecked(true);
  form.setFile(QString::fromStdString(urdf.string()));
  QTest::qWaitFor([&] { return isRead(form); }, 10'000);
  Session& session = photographer.window().session();
  session.start(form.made().document, form.file());
  QTest::qWaitFor(
      [&] {
        return session.scene() && session.board().pairsInAll() > 0 &&
               session.board().pairsKnown() == session.board().pairsInAll();
      },
      60'000);
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
