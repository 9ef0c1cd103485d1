// How long it takes from the save of one part by another program to its verdict on the screen: the
// whole window, the file put in place by renaming. A table; never pass or fail. Run it on a
// display, or under xvfb-run for the software renderer.
#include <unistd.h>
#include <QApplication>
#include <QElapsedTimer>
#include <QTest>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
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

/// Milliseconds after the renaming.
struct Stages {
  double noticed = 0, scene = 0, proven = 0, shown = 0;
};

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

/// Splits each triangle in four until there are `least`: the same surface, as finely as a sculpted
/// one. What is sculpted moves along the surface's own direction by less than a hundredth.
TriangleMesh finer(TriangleMesh mesh, std::size_t least) {
  while (mesh.triangles.size() < least) {
    TriangleMesh fine;
    fine.vertices = mesh.vertices;
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> middles;
    const auto middle = [&](std::uint32_t a, std::uint32_t b) {
      const auto [at, isNew] =
          middles.try_emplace(std::minmax(a, b), static_cast<std::uint32_t>(fine.vertices.size()));
      if (isNew) fine.vertices.push_back((mesh.vertices[a] + mesh.vertices[b]) / 2);
      return at->second;
    };
    for (const Triangle& t : mesh.triangles) {
      const std::uint32_t ab = middle(t[0], t[1]), bc = middle(t[1], t[2]), ca = middle(t[2], t[0]);
      for (const Triangle& small : {Triangle{t[0], ab, ca}, Triangle{ab, t[1], bc},
                                    Triangle{ca, bc, t[2]}, Triangle{ab, bc, ca}}) {
        fine.triangles.push_back(small);
      }
    }
    mesh = std::move(fine);
  }
  return mesh;
}

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
    const auto ms = [&] { return static_cast<double>(clock.nsecsElapsed()) * 1e-6; };
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
    QCoreApplication::processEvents();
    stages.shown = done ? ms() : 1e9;
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
  std::vector<double> noticed, scene, pairs, shown, all;
  for (const Stages& one : saves) {
    noticed.push_back(one.noticed);
    scene.push_back(one.scene - one.noticed);
    pairs.push_back(one.proven - one.scene);
    shown.push_back(one.shown - one.proven);
    all.push_back(one.shown);
  }
  std::printf("%-8s %-16s %7zu  %7.0f  %12.0f  %7.0f  %6.0f  %7.0f  %7.0f\n", set, part.c_str(),
              triangles, median(noticed), median(scene), median(pairs), median(shown), median(all),
              *std::max_element(all.begin(), all.end()));
  std::fflush(stdout);
}

int measure(const char* set, const fs::path& file, const std::vector<std::string>& parts,
            std::size_t least) {
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
    const TriangleMesh mesh = finer(*scene.geometry[id->index]->surface->mesh, least);
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

int run(const fs::path& folder) {
  std::printf(
      "From the renaming of a part's file to its verdict painted, window 1440 x 900, median of %d "
      "saves, ms.\nset      part           triangles  noticed  read and tree    pairs   shown  "
      "   all  slowest\n",
      kSaves);
  fs::copy(SWINGROOM_SOURCE "/sample_assemblies/harbour_tug", folder / "tug",
           fs::copy_options::recursive);
  int failed = measure("tug", folder / "tug" / "harbour_tug.swing.json",
                       {"head", "torso", "forearm_port"}, 40'000);
  fs::create_directory(folder / "figure");
  const Mechanism figure = bench::figureOf40(50'000);
  const fs::path file = bench::writeMechanism(figure, folder / "figure");
  const std::string part = figure.assembly().parts().at(1).name;
  failed += measure("40x50k", file, {figure.assembly().parts().at(0).name, part}, 40'000);
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
  const int failed = swingroom::run(folder);
  std::error_code ignored;
  fs::remove_all(folder, ignored);
  return failed;
}
