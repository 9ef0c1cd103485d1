#include <benchmark/benchmark.h>

#include <QApplication>
#include <cstdio>

#include "app/viewport/viewport.h"
#include "tests/benchmarks/viewport_scene.h"

// The harbour tug in the 3D view at 1280 x 800: pictures a second, `items_per_second` in the table.
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

/// While a part is replugged nothing moves, and nothing is drawn: counted are the pictures.
void scrub(benchmark::State& state, ShownTug& shown) {
  const int first = shown.view.framesDrawn();
  for (auto _ : state) {
    for (int i = 1; i <= kFrames; ++i) {
      shown.view.setPoses(tug().posesAt(static_cast<double>(i) / kFrames));
      shown.afterEvents();
    }
  }
  state.SetItemsProcessed(shown.view.framesDrawn() - first);
  if (!shown.view.failure().isEmpty()) state.SkipWithError(qPrintable(shown.view.failure()));
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

void turnTheEye(benchmark::State& state) {
  ShownTug shown;
  const int first = shown.view.framesDrawn();
  for (auto _ : state) {
    for (int i = 0; i < kFrames; ++i) {
      shown.view.setCamera(orbited(shown.view.camera(), Vector3d::Zero(), radFromDeg(1.8), 0));
      shown.afterEvents();
    }
  }
  state.SetItemsProcessed(shown.view.framesDrawn() - first);
}

void finePicture(benchmark::State& state) {
  ShownTug shown;
  for (auto _ : state) benchmark::DoNotOptimize(shown.view.picture());
  state.SetItemsProcessed(state.iterations());
}

BENCHMARK(scrubAllParts)->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();
BENCHMARK(scrubWithAPairChosen)->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();
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
