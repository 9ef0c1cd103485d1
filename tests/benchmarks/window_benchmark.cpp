// How many frames a second the whole window shows while the tug is scrubbed, at 1280 x 800. A
// table; never pass or fail. Run it on a display, or under xvfb-run for the software renderer.
#include <QApplication>
#include <QElapsedTimer>
#include <QTest>
#include <algorithm>
#include <cstdio>
#include <numeric>
#include <vector>

#include "app/session/rig/joint_ranges.h"
#include "app/window/main_window.h"
#include "core/sweep/free_travel.h"
#include "tests/benchmarks/ribbon_pace.h"

namespace swingroom {
namespace {

constexpr int kFrames = 200;

struct Pace {
  double framesPerSecond = 0;
  double medianMs = 0, most95Ms = 0;
};

/// Moves the needle along the way by even steps; each frame is drawn before the next is asked for.
/// Instants at which nothing moves (a part is taken from one mount to another by hand) draw nothing
/// and do not count.
Pace scrub(MainWindow& window) {
  std::vector<double> framesMs;
  for (int i = 0; i < kFrames; ++i) {
    const Configuration standing = window.session().stand().standing();
    const int before = window.view()->framesDrawn();
    QElapsedTimer timer;
    timer.start();
    window.session().stand().moveTo((i + 0.5) / kFrames);
    if (window.session().stand().standing() == standing) continue;
    while (window.view()->framesDrawn() == before) QCoreApplication::processEvents();
    framesMs.push_back(static_cast<double>(timer.nsecsElapsed()) * 1e-6);
  }
  std::sort(framesMs.begin(), framesMs.end());
  const double all = std::accumulate(framesMs.begin(), framesMs.end(), 0.0);
  const auto count = static_cast<double>(framesMs.size());
  return {1e3 * count / all, framesMs[framesMs.size() / 2], framesMs[framesMs.size() * 95 / 100]};
}

void print(const char* what, const Pace& pace) {
  std::printf("%-36s %6.1f frames/s, median %5.1f ms, 95 %% under %5.1f ms\n", what,
              pace.framesPerSecond, pace.medianMs, pace.most95Ms);
  std::fflush(stdout);
}

/// How soon a part that is chosen shows how far its joints go: every part of the scene, in every
/// mode.
void printFreeTravel(const Scene& scene) {
  const WorkMonitor monitor;
  std::vector<double> jointsMs;
  for (const Mode& mode : scene.loaded.modes) {
    for (std::size_t p = 0; p < scene.assembly().parts().size(); ++p) {
      for (const auto& [drive, least, greatest] : drivesOf(scene, mode.configuration, PartId{p})) {
        QElapsedTimer timer;
        timer.start();
        freeTravel(scene.assembly(), scene.gaps, mode.configuration, {drive, least, greatest},
                   monitor);
        jointsMs.push_back(static_cast<double>(timer.nsecsElapsed()) * 1e-6);
      }
    }
  }
  std::sort(jointsMs.begin(), jointsMs.end());
  std::printf("how far a joint goes, %zu of them   median %5.1f ms, most %5.1f ms\n",
              jointsMs.size(), jointsMs[jointsMs.size() / 2], jointsMs.back());
}

int run() {
  Preferences preferences;
  MainWindow window(preferences);
  window.resize(1280, 800);
  window.show();
  window.open(QStringLiteral(SWINGROOM_SOURCE
                             "/sample_assemblies/harbour_tug/harbour_tug.swing.json"));
  Session& session = window.session();
  if (!QTest::qWaitFor([&] { return session.scene() != nullptr; }, 60'000)) return 1;
  std::printf("window 1280 x 800, view %d x %d, 40 parts, %d frames over the way\n",
              window.view()->width(), window.view()->height(), kFrames);
  print("scrubbing while the check runs", scrub(window));
  if (!QTest::qWaitFor([&] { return session.board().isComplete(); }, 300'000)) return 1;
  print("scrubbing, checked", scrub(window));
  const auto& pairs = session.board().report().results[0].pairs;
  session.goToWorst(pairs.front().a, pairs.front().b);
  window.view()->fit();
  QTest::qWait(500);
  print("scrubbing with a pair chosen", scrub(window));
  printRibbonPace();
  printFreeTravel(*session.scene());
  return 0;
}

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) {
  QCoreApplication::setOrganizationName(QStringLiteral("Swingroom"));
  QCoreApplication::setApplicationName(QStringLiteral("Swingroom benchmark"));
  QApplication app(argc, argv);
  return swingroom::run();
}
