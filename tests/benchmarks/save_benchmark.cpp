// How long it takes from the save of one part by another program to its verdict on the screen: the
// whole window, the file put in place by renaming. A table; never pass or fail. Run it on a
// display, or under xvfb-run for the software renderer.
#include <sys/resource.h>
#include <unistd.h>

#include <QApplication>
#include <QElapsedTimer>
#include <QTest>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "app/window/main_window.h"
#include "tests/benchmarks/sweep_figures.h"
#include "tests/benchmarks/write_mechanism.h"
#include "tests/support/mesh_writers.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

constexpr int kSaves = 7;

/// Milliseconds since the renaming, by the clock and of processors (children that ended included).
struct Mark {
  double wall = 0, cpu = 0;
};
struct Stages {
  Mark noticed, scene, proven, shown;
};

double processorMs() {
  double ms = 0;
  for (const int who : {RUSAGE_SELF, RUSAGE_CHILDREN}) {
    rusage use{};
    getrusage(who, &use);
    for (const timeval& time : {use.ru_utime, use.ru_stime}) {
      ms += 1e3 * static_cast<double>(time.tv_sec) + 1e-3 * static_cast<double>(time.tv_usec);
    }
  }
  return ms;
}

/// Tells when something of it was painted.
class PaintSpy : public QObject {
 public:
  using QObject::QObject;
  bool painted = false;

 protected:
  bool eventFilter(QObject*, QEvent* event) override {
    painted = painted || event->type() == QEvent::Paint;
    return false;
  }
};

/// The same solid a little smaller about its middle: no earlier result is of it.
TriangleMesh shaved(TriangleMesh mesh, int save) {
  Eigen::AlignedBox3d box;
  for (const Vector3d& p : mesh.vertices) box.extend(p);
  const double scale = 1 - 1e-4 * (save + 1);
  for (Vector3d& p : mesh.vertices) p = box.center() + scale * (p - box.center());
  return mesh;
}

class Bench {
 public:
  explicit Bench(const fs::path& file) : window_(preferences_) {
    window_.resize(1440, 900);
    window_.show();
    window_.open(QString::fromStdString(file.string()));
    isReady_ = QTest::qWaitFor([&] { return window_.session().isProven(); }, 900'000);
    QTest::qWait(1500);
  }

  Stages save(const fs::path& part, const std::string& bytes) {
    const fs::path beside = part.parent_path() / "being saved.tmp";
    std::ofstream(beside, std::ios::binary) << bytes;
    QTest::qWait(700);  // Its own writing is over, and the window is calm.
    Stages stages;
    QElapsedTimer clock;
    const double cpuBefore = processorMs();
    const auto ms = [&] {
      return Mark{static_cast<double>(clock.nsecsElapsed()) * 1e-6, processorMs() - cpuBefore};
    };
    Session& session = window_.session();
    QObject context;
    QObject::connect(&window_.keeper().outsideChanges(), &OutsideChanges::meshesReadAgain, &context,
                     [&] { stages.noticed = ms(); });
    QObject::connect(&session, &Session::sceneChanged, &context, [&] { stages.scene = ms(); });
    PaintSpy card, tally;
    bool told = false;
    window_.saveNews().card().installEventFilter(&card);
    window_.header().tally().installEventFilter(&tally);
    QObject::connect(&window_.saveNews(), &SaveNews::told, &context, [&] {
      stages.proven = ms();
      told = true;
      card.painted = false;
    });
    clock.start();
    fs::rename(beside, part);
    const int before = window_.view()->framesDrawn();
    const bool done = QTest::qWaitFor(
        [&] {
          return told && card.painted && !window_.view()->isWaiting() &&
                 window_.view()->framesDrawn() > before;
        },
        60'000);
    if (!done) {
      std::fprintf(stderr, "%s, not seen: told %d, card painted %d, view waits %d, frames %d\n",
                   part.filename().c_str(), told, card.painted, window_.view()->isWaiting(),
                   static_cast<int>(window_.view()->framesDrawn() - before));
    }
    QCoreApplication::processEvents();
    stages.shown = done ? ms() : Mark{1e9, 1e9};
    return stages;
  }

  bool isReady() const { return isReady_; }
  MainWindow& window() { return window_; }

 private:
  Preferences preferences_;
  MainWindow window_;
  bool isReady_ = false;
};

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

void print(const char* set, const std::string& part, std::size_t triangles,
           const std::vector<Stages>& saves) {
  for (const bool wall : {true, false}) {
    const auto of = [wall](const Mark& mark) { return wall ? mark.wall : mark.cpu; };
    std::vector<double> noticed, scene, pairs, shown, all;
    for (const Stages& one : saves) {
      noticed.push_back(of(one.noticed));
      scene.push_back(of(one.scene) - of(one.noticed));
      pairs.push_back(of(one.proven) - of(one.scene));
      shown.push_back(of(one.shown) - of(one.proven));
      all.push_back(of(one.shown));
    }
    std::printf("%-8s %-14s %9zu  %-5s %7.0f  %13.0f  %7.0f  %6.0f  %6.0f  %7.0f\n", set,
                part.c_str(), triangles, wall ? "clock" : "cpu", median(noticed), median(scene),
                median(pairs), median(shown), median(all),
                *std::max_element(all.begin(), all.end()));
  }
  std::fflush(stdout);
}

int measure(const char* set, const fs::path& file, const std::vector<std::string>& parts) {
  Bench bench(file);
  if (!bench.isReady()) {
    std::printf("%s: was not checked in time\n", set);
    return 1;
  }
  for (const std::string& name : parts) {
    const auto id = bench.window().session().scene()->assembly().findPart(name);
    const auto& scene = *bench.window().session().scene();
    if (!id || !scene.geometry[id->index]) {
      std::printf("%s has no part %s\n", set, name.c_str());
      return 1;
    }
    const TriangleMesh mesh = *scene.geometry[id->index]->surface->mesh;
    const DocumentPart& written = scene.document.parts[id->index];
    const fs::path place = file.parent_path() / written.stages.at(written.use);
    std::vector<Stages> saves;
    for (int i = 0; i < kSaves; ++i) {
      saves.push_back(bench.save(place, writers::binaryStl(shaved(mesh, i))));
    }
    print(set, name, mesh.triangles.size(), saves);
  }
  return 0;
}

/// @param only  Of the tug's parts; empty: some of the tug's and of the 40.
int run(const fs::path& folder, const std::vector<std::string>& only) {
  std::printf(
      "From the renaming of a part's file to its verdict painted, window 1440 x 900, median of %d "
      "saves, ms.\nset      part           triangles        noticed  read and tree    pairs   "
      "shown "
      "    all  slowest\n",
      kSaves);
  for (const char* sample : {"harbour_tug", "harbour_tug_detailed"}) {
    fs::copy(fs::path(SWINGROOM_SOURCE "/sample_assemblies") / sample, folder / sample,
             fs::copy_options::recursive);
  }
  int failed = measure("tug", folder / "harbour_tug_detailed" / "harbour_tug_detailed.swing.json",
                       only.empty() ? std::vector<std::string>{"head", "torso", "boathook"} : only);
  if (!only.empty()) return failed;
  fs::create_directory(folder / "figure");
  const Mechanism figure = bench::figureOf40(50'000);
  const fs::path file = bench::writeMechanism(figure, folder / "figure");
  const std::string part = figure.assembly().parts().at(1).name;
  failed += measure("40x50k", file, {figure.assembly().parts().at(0).name, part});
  return failed;
}

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) {
  QCoreApplication::setOrganizationName(QStringLiteral("Swingroom"));
  QCoreApplication::setApplicationName(QStringLiteral("Swingroom benchmark"));
  QApplication app(argc, argv);
  namespace fs = std::filesystem;
  const fs::path folder =
      fs::temp_directory_path() / ("swingroom-saves-" + std::to_string(getpid()));
  fs::create_directories(folder);
  const int failed = swingroom::run(folder, {argv + 1, argv + argc});
  std::error_code ignored;
  fs::remove_all(folder, ignored);
  return failed;
}
