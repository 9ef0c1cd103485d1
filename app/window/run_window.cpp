#include "app/window/run_window.h"

#include <QApplication>
#include <QLocale>
#include <QTranslator>
#include <cstdio>
#include <cstdlib>

#include "app/models/plurals.h"
#include "app/models/text.h"
#include "app/window/main_window.h"

namespace swingroom {
namespace {

/// Qt ends the program without a word that helps when there is no display.
bool hasDisplay() {
  if (std::getenv("QT_QPA_PLATFORM")) return true;
  for (const char* name : {"DISPLAY", "WAYLAND_DISPLAY"}) {
    const char* value = std::getenv(name);
    if (value && *value) return true;
  }
  return false;
}

}  // namespace

int runWindow(int argc, char** argv, const std::string& file) {
  if (!hasDisplay()) {
    std::fprintf(stderr, "window: there is no display (swingroom check FILE works without one)\n");
    return 2;
  }
  QCoreApplication::setOrganizationName(QStringLiteral("Swingroom"));
  QCoreApplication::setApplicationName(QStringLiteral("Swingroom"));
  QApplication app(argc, argv);
  installEnglishPlurals();
  // The system's language, where somebody has made its words.
  QTranslator words;
  const QString beside = QCoreApplication::applicationDirPath() + QStringLiteral("/translations");
  if (words.load(QLocale(), QStringLiteral("swingroom"), QStringLiteral("_"), beside)) {
    QCoreApplication::installTranslator(&words);
  }
  Preferences preferences;
  const bool canDraw = QGuiApplication::platformName() != QStringLiteral("offscreen");
  MainWindow window(preferences, canDraw, makeUserStore(), makeUserLog());
  window.restoreGeometry(preferences.value(QStringLiteral("window")));
  window.show();
  window.begin(qt(file));
  return QApplication::exec();
}

}  // namespace swingroom
