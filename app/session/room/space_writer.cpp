#include "app/session/room/space_writer.h"

#include <atomic>

namespace swingroom {
namespace {

constexpr int kProgressMs = 150;

}  // namespace

/// What the worker's thread and the window's share.
struct SpaceWriter::Run {
  std::atomic<double> share = 0;
  WorkMonitor monitor{[this](std::size_t done, std::size_t total) {
    share = total > 0 ? static_cast<double>(done) / static_cast<double>(total) : 0;
  }};
};

SpaceWriter::SpaceWriter(Write write, QObject* parent) : QObject(parent), write_(std::move(write)) {
  pulse_.setInterval(kProgressMs);
  connect(&pulse_, &QTimer::timeout, this, &SpaceWriter::progressed);
}

SpaceWriter::~SpaceWriter() {
  if (run_) run_->monitor.cancel();
}

double SpaceWriter::share() const {
  return run_ ? run_->share.load() : 0;
}

void SpaceWriter::cancel() {
  if (run_) run_->monitor.cancel();
  run_.reset();
  pulse_.stop();
}

void SpaceWriter::stop() {
  cancel();
}

void SpaceWriter::start(const ScenePtr& scene, const SpaceWish& wish) {
  cancel();
  run_ = std::make_shared<Run>();
  pulse_.start();
  const auto give = [this, run = run_](std::function<void()> tell) {
    QMetaObject::invokeMethod(
        this, [this, run, tell = std::move(tell)] { end(run, tell); }, Qt::QueuedConnection);
  };
  const auto fail = [this, give](Problems problems) {
    give([this, problems = std::move(problems)] { Q_EMIT failed(problems); });
  };
  worker_.ask(
      [this, give, fail, run = run_, scene, wish] {
        stepBack();  // Someone waits for it.
        const SpaceSubject subject{scene->assembly(), scene->loaded.modes, scene->ways,
                                   scene->geometry, wish.part};
        auto space = wish.sweeps ? sweptSpace(subject, wish.in, wish.settings, run->monitor)
                                 : roomSpace(subject, wish.settings, run->monitor);
        if (run->monitor.cancelled()) return;
        if (!space) return fail(space.problems());
        if (const auto problem = write_(space->mesh, wish.file)) return fail({*problem});
        SpaceMesh told = std::move(*space);
        told.mesh = TriangleMesh();
        give([this, wish, told = std::move(told)] { Q_EMIT written(wish, told); });
      },
      [fail, wish](const std::string& why) {
        fail({{wish.file.string(), "was not made: " + why, ""}});
      });
}

void SpaceWriter::end(const std::shared_ptr<Run>& run, const std::function<void()>& tell) {
  if (run != run_) return;  // Stopped meanwhile.
  cancel();
  tell();
}

}  // namespace swingroom
