#include <benchmark/benchmark.h>

#include <sys/resource.h>

#include <QApplication>
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>

#include "app/viewport/viewport.h"
#include "tests/benchmarks/viewport_scene.h"
#include "tests/support/shapes.h"

// The harbour tug in the 3D view at 1280 x 800: pictures a second, `items_per_second` in the table.
// And 40 parts of 50 000 triangles each.
//   xvfb-run -a -s "-screen 0 1600x1000x24" bin/viewport_benchmark
namespace swingroom {
namespace {

constexpr int kFrames = 200;

const ViewedAssembly& tug() {
  static const ViewedAssembly viewed =
      viewedAssembly(SWINGROOM_SOURCE "/sample_assemblies/harbour_tug/harbour_tug.swing.json");
  return viewed;
}

/// The widget on the display, with the tug at its first mode, drawn once.
struct ShownTug {
  ShownTug() {
    view.setReducedMotion(true);
    view.resize(1280, 800);
    view.setScene(tug().scene);
    view.setPoses(tug().posesAt(0));
    view.show();
    while (view.framesDrawn() == 0 && view.failure().isEmpty()) afterEvents();
  }
  /// What was asked for is drawn.
  void afterEvents() {
    QCoreApplication::processEvents();
    QCoreApplication::sendPostedEvents();
  }
  void choosePair() {
    const Assembly& assembly = tug().loaded.assembly;
    view.setEmphasis(
        {{assembly.findPart("torso").value(), assembly.findPart("upper_arm_starboard").value()},
         true});
    view.setDimension(
        ViewDimension{{Vector3d(0, -10, 20), Vector3d(0, -10.3, 20)}, QStringLiteral("0.30 mm")});
  }

  Viewport view;
};

/// Of all threads of the program.
double processorMs() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  const auto ms = [](const timeval& time) {
    return 1e3 * static_cast<double>(time.tv_sec) + 1e-3 * static_cast<double>(time.tv_usec);
  };
  return ms(used.ru_utime) + ms(used.ru_stime);
}

/// Times of single frames. Other programs disturb: so their least and middle beside the mean, and
/// what the processors worked on one, all threads together.
class FrameTimes {
 public:
  /// From what `step` asks for to its picture; steps that change nothing do not count.
  template <typename Step>
  void time(Viewport& view, const Step& step) {
    const int before = view.framesDrawn();
    const auto start = std::chrono::steady_clock::now();
    step();
    QCoreApplication::sendPostedEvents();
    for (int i = 0; i < 3 && view.framesDrawn() == before; ++i) QCoreApplication::processEvents();
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    if (view.framesDrawn() > before) timesMs_.push_back(took.count());
  }
  void report(benchmark::State& state, const Viewport& view) {
    if (!view.failure().isEmpty() || timesMs_.empty())
      return state.SkipWithError(qPrintable(view.failure()));
    std::sort(timesMs_.begin(), timesMs_.end());
    state.counters["least_ms"] = timesMs_.front();
    state.counters["median_ms"] = timesMs_[timesMs_.size() / 2];
    state.counters["work_ms"] = (processorMs() - startMs_) / static_cast<double>(timesMs_.size());
    state.counters["frames"] = static_cast<double>(timesMs_.size());
  }

 private:
  double startMs_ = processorMs();
  std::vector<double> timesMs_;
};

/// While a part is replugged nothing moves, and nothing is drawn: counted are the pictures.
void scrub(benchmark::State& state, ShownTug& shown) {
  FrameTimes times;
  const int first = shown.view.framesDrawn();
  for (auto _ : state) {
    for (int i = 1; i <= kFrames; ++i) {
      times.time(shown.view,
                 [&] { shown.view.setPoses(tug().posesAt(static_cast<double>(i) / kFrames)); });
    }
  }
  state.SetItemsProcessed(shown.view.framesDrawn() - first);
  times.report(state, shown.view);
}

void scrubAllParts(benchmark::State& state) {
  ShownTug shown;
  scrub(state, shown);
}

void scrubWithAPairChosen(benchmark::State& state) {
  ShownTug shown;
  shown.choosePair();
  scrub(state, shown);
}

void scrubCutOpen(benchmark::State& state) {
  ShownTug shown;
  shown.view.setSection(ViewSection{Vector3d::UnitY(), Vector3d::UnitX(), 0});
  scrub(state, shown);
}

void turnTheEye(benchmark::State& state) {
  ShownTug shown;
  FrameTimes times;
  const int first = shown.view.framesDrawn();
  for (auto _ : state) {
    for (int i = 0; i < kFrames; ++i) {
      times.time(shown.view, [&] {
        shown.view.setCamera(orbited(shown.view.camera(), Vector3d::Zero(), radFromDeg(1.8), 0));
      });
    }
  }
  state.SetItemsProcessed(shown.view.framesDrawn() - first);
  times.report(state, shown.view);
}

void finePicture(benchmark::State& state) {
  ShownTug shown;
  for (auto _ : state) benchmark::DoNotOptimize(shown.view.picture());
  state.SetItemsProcessed(state.iterations());
}

/// 40 tori of 50 000 triangles in a block of five by eight; each turns on its place.
const ViewScene& large() {
  static const ViewScene scene = [] {
    const auto mesh = [](int i) {
      return std::make_shared<const TriangleMesh>(
          shapes::torus(8, 2.5 + 0.02 * i, 250, 100));  // Each its own, as files are.
    };
    ViewScene made;
    for (int i = 0; i < 40; ++i) {
      ViewPart part;
      part.surface = std::make_shared<const Surface>(mesh(i));
      part.colour = {static_cast<std::uint8_t>(60 + 40 * (i % 4)),
                     static_cast<std::uint8_t>(90 + 30 * (i % 3)), 120};
      made.parts.push_back(part);
    }
    made.floorMm = -12;
    return made;
  }();
  return scene;
}

std::vector<Pose> largePosesAt(double instant) {
  std::vector<Pose> poses;
  for (int i = 0; i < 40; ++i) {
    const Pose turned(Eigen::AngleAxisd(instant * kPi + 0.3 * i, Vector3d::UnitX()));
    poses.push_back(translation({0, 24.0 * (i % 8) - 84, 24.0 * (i / 8) + 6}) * turned);
  }
  return poses;
}

double residentMb() {
  std::ifstream status("/proc/self/statm");
  double pages = 0;
  status >> pages >> pages;
  return pages * 4096 / 1e6;
}

struct ShownLarge {
  ShownLarge() {
    view.setReducedMotion(true);
    view.resize(1280, 800);
    view.show();
    while (view.framesDrawn() == 0 && view.failure().isEmpty()) QCoreApplication::processEvents();
  }
  void fill() {
    view.setScene(large());
    view.setPoses(largePosesAt(0));
  }
  /// The picture with all parts in it.
  void waitForAll() {
    while (view.isWaiting()) QCoreApplication::processEvents();
    drawn();
  }
  /// Until what was asked for is drawn: the picture's time, not that of asking for it.
  void drawn() {
    const int before = view.framesDrawn();
    view.setCamera(orbited(view.camera(), Vector3d::Zero(), 1e-6, 0));
    while (view.framesDrawn() == before) QCoreApplication::processEvents();
  }

  Viewport view;
};

/// From the scene to the picture with all parts; and how long the window waits meanwhile, at most.
void largeFirstPicture(benchmark::State& state) {
  large();
  ShownLarge shown;
  const double before = residentMb();
  double longestMs = 0;
  const double workMs = processorMs();
  const auto timed = [&](const auto& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    longestMs = std::max(longestMs, took.count());
  };
  for (auto _ : state) {
    timed([&] { shown.fill(); });
    while (shown.view.isWaiting()) timed([] { QCoreApplication::processEvents(); });
    timed([&] { shown.drawn(); });
  }
  state.counters["longest_wait_ms"] = longestMs;
  state.counters["work_ms"] = processorMs() - workMs;
  state.counters["MB"] = residentMb() - before;
}

template <typename Step>
void frames(benchmark::State& state, ShownLarge& shown, const Step& step) {
  FrameTimes times;
  int i = 0;
  for (auto _ : state) {
    times.time(shown.view, [&] { step(i); });
    ++i;
  }
  times.report(state, shown.view);
}

void largeScrub(benchmark::State& state) {
  ShownLarge shown;
  shown.fill();
  shown.waitForAll();
  frames(state, shown, [&](int i) { shown.view.setPoses(largePosesAt(0.01 * (i + 1))); });
}

void largeTurn(benchmark::State& state) {
  ShownLarge shown;
  shown.fill();
  shown.waitForAll();
  frames(state, shown, [&](int) {
    shown.view.setCamera(orbited(shown.view.camera(), Vector3d::Zero(), radFromDeg(1.8), 0));
  });
}

void largeSection(benchmark::State& state) {
  ShownLarge shown;
  shown.fill();
  shown.waitForAll();
  frames(state, shown, [&](int i) {
    shown.view.setSection(ViewSection{Vector3d::UnitX(), Vector3d::UnitY(), 0.02 * i});
  });
}

void largeFine(benchmark::State& state) {
  ShownLarge shown;
  shown.fill();
  shown.waitForAll();
  const double workMs = processorMs();
  for (auto _ : state) benchmark::DoNotOptimize(shown.view.picture());
  state.counters["work_ms"] = (processorMs() - workMs) / static_cast<double>(state.iterations());
}

void largePick(benchmark::State& state) {
  ShownLarge shown;
  shown.fill();
  shown.waitForAll();
  int x = 0;
  for (auto _ : state) benchmark::DoNotOptimize(shown.view.pick(QPointF(x++ % 1280, 400)));
}

BENCHMARK(largeFirstPicture)->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();
BENCHMARK(largeScrub)->Unit(benchmark::kMillisecond)->Iterations(40)->UseRealTime();
BENCHMARK(largeTurn)->Unit(benchmark::kMillisecond)->Iterations(40)->UseRealTime();
BENCHMARK(largeSection)->Unit(benchmark::kMillisecond)->Iterations(40)->UseRealTime();
BENCHMARK(largeFine)->Unit(benchmark::kMillisecond)->Iterations(3)->UseRealTime();
BENCHMARK(largePick)->Unit(benchmark::kMillisecond)->Iterations(200)->UseRealTime();
BENCHMARK(scrubAllParts)->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();
BENCHMARK(scrubWithAPairChosen)->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();
BENCHMARK(scrubCutOpen)->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();
BENCHMARK(turnTheEye)->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();
BENCHMARK(finePicture)->Unit(benchmark::kMillisecond)->Iterations(20)->UseRealTime();

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) {
  QApplication app(argc, argv);
  benchmark::Initialize(&argc, argv);
  try {
    benchmark::RunSpecifiedBenchmarks();
  } catch (const std::exception& problem) {
    std::fprintf(stderr, "%s\n", problem.what());
    return 1;
  }
  return 0;
}
