// The program itself, as it is started from a shell.
#include <gtest/gtest.h>

#include <QCoreApplication>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include "tests/app/window/hand.h"

namespace swingroom {
namespace {

QString program() { return QCoreApplication::applicationDirPath() + QStringLiteral("/swingroom"); }

QString firstLineOf(const QStringList& words) {
  QProcess process;
  process.start(QStringLiteral("xdotool"), words);
  process.waitForFinished();
  return QString::fromUtf8(process.readAllStandardOutput()).section(QLatin1Char('\n'), 0, 0);
}

TEST(Program, WithAFileOpensTheWindowOnItAndQuitsByItsKey) {
  const QTemporaryDir cache;  // Nothing is known from other runs, nor kept for them.
  QProcess swingroom;
  QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
  environment.insert(QStringLiteral("XDG_CACHE_HOME"), cache.path());
  swingroom.setProcessEnvironment(environment);
  swingroom.start(program(), {QStringLiteral(SWINGROOM_SOURCE
                                             "/sample_assemblies/harbour_tug/harbour_tug.swing.json")});
  ASSERT_TRUE(swingroom.waitForStarted());
  QString window;
  EXPECT_TRUE(QTest::qWaitFor(
      [&] {
        window = firstLineOf({QStringLiteral("search"), QStringLiteral("--onlyvisible"),
                              QStringLiteral("--name"), QStringLiteral("harbour_tug.swing.json")});
        return !window.isEmpty();
      },
      20'000));
  // Quits in the middle of the check.
  Hand hand;
  QProcess::execute(QStringLiteral("xdotool"), {QStringLiteral("windowfocus"), window});
  hand.key(QStringLiteral("ctrl+q"));
  EXPECT_TRUE(swingroom.waitForFinished(20'000));
  EXPECT_EQ(swingroom.exitStatus(), QProcess::NormalExit);
  EXPECT_EQ(swingroom.exitCode(), 0);
}

TEST(Program, WithoutADisplaySaysSoInOneLine) {
  QProcess swingroom;
  QProcessEnvironment none = QProcessEnvironment::systemEnvironment();
  for (const char* name : {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}) {
    none.remove(QString::fromLatin1(name));
  }
  swingroom.setProcessEnvironment(none);
  swingroom.start(program(), {});
  ASSERT_TRUE(swingroom.waitForFinished(20'000));
  EXPECT_EQ(swingroom.exitCode(), 2);
  const QString said = QString::fromUtf8(swingroom.readAllStandardError());
  EXPECT_TRUE(said.contains(QStringLiteral("no display"))) << said.toStdString();
  EXPECT_EQ(said.count(QLatin1Char('\n')), 1);
}

TEST(Program, WordThatIsNoCommandAndNoFileIsToldInOneLine) {
  QProcess swingroom;
  swingroom.start(program(), {QStringLiteral("chekc")});
  ASSERT_TRUE(swingroom.waitForFinished(20'000));
  EXPECT_EQ(swingroom.exitCode(), 2);
  EXPECT_TRUE(QString::fromUtf8(swingroom.readAllStandardError())
                  .startsWith(QStringLiteral("chekc: ")));
}

}  // namespace
}  // namespace swingroom
