#include "app/session/check/check_run.h"

#include <QTimer>
#include <algorithm>
#include <map>

#include "core/base/parallel.h"
#include "core/store/kept_check.h"

namespace swingroom {
namespace {

constexpr int kDeliverMs = 60;  ///< As often as a person sees things change.
constexpr std::size_t kCurveSamples = 64;

/// How near pairs come at the ends of the steps: those that probably have findings are checked
/// first.
std::map<std::pair<PartId, PartId>, double> nearnessIn(const Scene& scene) {
  std::map<std::pair<PartId, PartId>, double> nearness;
  const auto look = [&](const Configuration& standing) {
    for (const StandingGap& gap : scene.gaps.nearPairs(standing)) {
      const double margin = gap.gapMm - scene.assembly().requiredGapMm(gap.a, gap.b);
      const auto [known, isNew] = nearness.try_emplace({gap.a, gap.b}, margin);
      if (!isNew) known->second = std::min(known->second, margin);
    }
  };
  for (const Sequence& way : scene.ways) {
    look(way.steps.front().start);
    for (const Step& step : way.steps) look(step.end);
  }
  return nearness;
}

std::vector<Occurrence> jobsFor(const CheckBoard& board, std::size_t firstWay) {
  std::vector<Occurrence> jobs;
  for (std::size_t w = 0; w < board.report().results.size(); ++w) {
    for (std::size_t p = 0; p < board.report().results[w].pairs.size(); ++p) {
      if (!board.isKnown(w, p)) jobs.push_back({w, p});
    }
  }
  // After a change of one part: done before anybody could tell which came first.
  constexpr std::size_t kFew = 100;
  if (jobs.size() <= kFew) {
    std::stable_partition(jobs.begin(), jobs.end(),
                          [&](const Occurrence& job) { return job.way == firstWay; });
    return jobs;
  }
  const auto nearness = nearnessIn(*board.scene());
  const auto rank = [&](const Occurrence& job) {
    const PairResult& pair = resultOf(board.report(), job);
    const auto found = nearness.find({pair.a, pair.b});
    const double margin = found == nearness.end() ? 1e9 : found->second;
    return std::tuple(job.way != firstWay, margin, job.way, job.pair);
  };
  std::vector<std::pair<decltype(rank({})), Occurrence>> ranked;
  for (const Occurrence& job : jobs) ranked.emplace_back(rank(job), job);
  std::sort(ranked.begin(), ranked.end(),
            [](const auto& a, const auto& b) { return a.first < b.first; });
  std::transform(ranked.begin(), ranked.end(), jobs.begin(),
                 [](const auto& r) { return r.second; });
  return jobs;
}

}  // namespace

/// One run's part that both threads see.
struct CheckRun::Run {
  CheckBoard board;  ///< As it was at the start.
  std::size_t firstWay = 0;
  std::shared_ptr<ResultStore> results;
  std::optional<KeptCheck> kept;  ///< Made by the working thread.
  WorkMonitor monitor;
  std::mutex mutex;
  std::vector<CheckedResult> ready;  ///< Under `mutex`, as the next two.
  bool deliveryAsked = false;
  bool done = false;

  SweepSettings settings() const {
    SweepSettings settings;
    settings.resolutionMm = board.scene()->assembly().resolutionMm();
    return settings;
  }

  void makeReady() {
    kept.emplace(board.scene()->assembly(), board.scene()->loaded.modes, settings(), results.get());
  }

  CheckedResult check(const Occurrence& job) {
    const Scene& scene = *board.scene();
    const PairResult& pair = resultOf(board.report(), job);
    const Sequence& way = scene.ways[job.way];
    CheckedResult checked{job.way, job.pair, {}, {}};
    auto known = kept->find(way, pair.a, pair.b);
    checked.result =
        known ? std::move(*known) : kept->check(way, pair.a, pair.b, scene.geometry, monitor);
    if (monitor.cancelled()) return checked;
    const CheckedPair measured{&scene.assembly(), &way, &scene.geometry, &checked.result,
                               settings().resolutionMm};
    checked.figures.curve = measureCurve(measured, {kCurveSamples, 0});
    checked.figures.deepPointOn = deepPointOf(measured);
    return checked;
  }
};

CheckRun::CheckRun(std::shared_ptr<ResultStore> results, QObject* parent)
    : QObject(parent), results_(std::move(results)) {}

CheckRun::~CheckRun() {
  cancel();
}

void CheckRun::cancel() {
  if (run_) run_->monitor.cancel();
  run_.reset();
}

void CheckRun::start(const CheckBoard& board, std::size_t firstWay) {
  cancel();
  run_ = std::make_shared<Run>();
  run_->board = board;
  run_->firstWay = firstWay;
  run_->results = results_;
  worker_.ask([this, run = run_] { work(this, run); },
              [this, run = run_](const std::string& why) {
                QMetaObject::invokeMethod(
                    this, [this, run, why] { fail(run, why); }, Qt::QueuedConnection);
              });
}

void CheckRun::work(CheckRun* self, const std::shared_ptr<Run>& run) {
  stepBack(StepBack::far);
  const auto askForDelivery = [&] {  // Under the run's mutex.
    if (run->deliveryAsked) return;
    run->deliveryAsked = true;
    QMetaObject::invokeMethod(
        self,
        [self, run] { QTimer::singleShot(kDeliverMs, self, [self, run] { self->deliver(run); }); },
        Qt::QueuedConnection);
  };
  run->makeReady();
  const auto jobs = jobsFor(run->board, run->firstWay);
  parallelFor(jobs.size(), defaultThreads(), [&](std::size_t i) {
    if (run->monitor.cancelled()) return;
    CheckedResult checked = run->check(jobs[i]);
    if (run->monitor.cancelled()) return;
    const std::lock_guard lock(run->mutex);
    run->ready.push_back(std::move(checked));
    askForDelivery();
  });
  {
    const std::lock_guard lock(run->mutex);
    run->done = true;
  }
  // The last of them is waited for: told at once, before what is new is written to the disk.
  QMetaObject::invokeMethod(
      self, [self, run] { self->deliver(run); }, Qt::QueuedConnection);
  run->results->save();
}

void CheckRun::fail(const std::shared_ptr<Run>& run, const std::string& why) {
  if (run != run_) return;
  run_.reset();
  Q_EMIT failed({"check", "stopped: " + why, "what has been proven so far stays"});
}

void CheckRun::deliver(const std::shared_ptr<Run>& run) {
  if (run != run_) return;  // Cancelled meanwhile.
  std::vector<CheckedResult> results;
  bool done = false;
  {
    const std::lock_guard lock(run->mutex);
    results.swap(run->ready);
    run->deliveryAsked = false;
    done = run->done;
  }
  if (done) run_.reset();
  if (!results.empty()) Q_EMIT arrived(results);
  if (done) Q_EMIT finished();
}

}  // namespace swingroom
