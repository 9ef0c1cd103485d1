#include "app/session/check/check_run.h"

#include <QTimer>
#include <algorithm>
#include <map>

#include "core/base/parallel.h"
#include "core/store/kept_check.h"

namespace swingroom {
namespace {

constexpr int kDeliverMs = 60;  ///< As often as a person sees things change.
/// After a change of one part: what is drawn anew in between only keeps the check from its end.
constexpr int kDeliverFewMs = 400;
constexpr std::size_t kCurveSamples = 64;
/// After a change of one part: done before anybody could tell which came first.
constexpr std::size_t kFew = 100;

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

/// The curves that are lacking once `jobs` are done.
std::vector<Occurrence> curvesFor(const CheckBoard& board, const std::vector<Occurrence>& jobs,
                                  bool withJobs) {
  std::vector<Occurrence> curves = withJobs ? jobs : std::vector<Occurrence>{};
  for (std::size_t w = 0; w < board.report().results.size(); ++w) {
    for (std::size_t p = 0; p < board.report().results[w].pairs.size(); ++p) {
      if (board.isKnown(w, p) && !board.hasCurve(w, p)) curves.push_back({w, p});
    }
  }
  return curves;
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
  std::vector<CheckedResult> ready;  ///< Under `mutex`, as the next four.
  std::vector<CheckedCurve> readyCurves;
  bool deliveryAsked = false;
  bool proven = false;
  bool done = false;
  CheckBoard known;  ///< The working thread's own: with what this run has found.

  SweepSettings settings() const {
    SweepSettings settings;
    settings.resolutionMm = board.scene()->assembly().resolutionMm();
    return settings;
  }

  void makeReady() {
    kept.emplace(board.scene()->assembly(), board.scene()->loaded.modes, settings(), results.get());
  }

  CheckedPair measured(const Occurrence& job, const PairResult& result) const {
    const Scene& scene = *board.scene();
    return {&scene.assembly(), &scene.ways[job.way], &scene.geometry, &result,
            settings().resolutionMm};
  }

  CheckedResult check(const Occurrence& job, bool withCurve) {
    const Scene& scene = *board.scene();
    const PairResult& pair = resultOf(board.report(), job);
    const Sequence& way = scene.ways[job.way];
    CheckedResult checked{job.way, job.pair, {}, {}, withCurve};
    auto known = kept->find(way, pair.a, pair.b);
    checked.result =
        known ? std::move(*known) : kept->check(way, pair.a, pair.b, scene.geometry, monitor);
    if (monitor.cancelled()) return checked;
    checked.figures.deepPointOn = deepPointOf(measured(job, checked.result));
    if (withCurve) checked.figures.curve = curveOf(job, checked.result);
    return checked;
  }

  std::vector<GapSample> curveOf(const Occurrence& job, const PairResult& result) const {
    return measureCurve(measured(job, result), {kCurveSamples, 0}, &monitor);
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
  isFinished_ = true;
}

void CheckRun::start(const CheckBoard& board, std::size_t firstWay) {
  cancel();
  run_ = std::make_shared<Run>();
  run_->board = board;
  run_->known = board;
  isFinished_ = board.isComplete();  // Then only curves are lacking.
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
  const auto deliver = [self, run] { self->deliver(run); };
  // The last one is waited for.
  const auto deliverNow = [&](bool Run::*reached) {
    const std::lock_guard lock(run->mutex);
    run.get()->*reached = true;
    QMetaObject::invokeMethod(self, deliver, Qt::QueuedConnection);
  };
  run->makeReady();
  const auto jobs = jobsFor(run->board, run->firstWay);
  const bool curvesAfter = jobs.size() <= kFew;
  const int deliverMs = curvesAfter ? kDeliverFewMs : kDeliverMs;
  const auto askForDelivery = [&] {  // Under the run's mutex.
    if (run->deliveryAsked) return;
    run->deliveryAsked = true;
    QMetaObject::invokeMethod(
        self, [self, deliver, deliverMs] { QTimer::singleShot(deliverMs, self, deliver); },
        Qt::QueuedConnection);
  };
  parallelFor(jobs.size(), defaultThreads(), [&](std::size_t i) {
    if (run->monitor.cancelled()) return;
    CheckedResult checked = run->check(jobs[i], !curvesAfter);
    if (run->monitor.cancelled()) return;
    const std::lock_guard lock(run->mutex);
    if (curvesAfter) run->known.put(checked);
    run->ready.push_back(std::move(checked));
    askForDelivery();
  });
  deliverNow(&Run::proven);
  const auto curves = curvesFor(run->board, jobs, curvesAfter);
  parallelFor(curves.size(), defaultThreads(), [&](std::size_t i) {
    if (run->monitor.cancelled()) return;
    const PairResult& result = resultOf(run->known.report(), curves[i]);
    CheckedCurve curve{curves[i].way, curves[i].pair, run->curveOf(curves[i], result)};
    if (run->monitor.cancelled()) return;
    const std::lock_guard lock(run->mutex);
    run->readyCurves.push_back(std::move(curve));
    askForDelivery();
  });
  deliverNow(&Run::done);
  run->results->save();  // What is new is written to the disk when everything has been told.
}

void CheckRun::fail(const std::shared_ptr<Run>& run, const std::string& why) {
  if (run != run_) return;
  cancel();
  Q_EMIT failed({"check", "stopped: " + why, "what has been proven so far stays"});
}

void CheckRun::deliver(const std::shared_ptr<Run>& run) {
  if (run != run_) return;  // Cancelled meanwhile.
  std::vector<CheckedResult> results;
  std::vector<CheckedCurve> curves;
  bool proven = false, done = false;
  {
    const std::lock_guard lock(run->mutex);
    results.swap(run->ready);
    curves.swap(run->readyCurves);
    run->deliveryAsked = false;
    proven = run->proven;
    done = run->done;
  }
  const bool endsNow = proven && !isFinished_;
  isFinished_ = proven;
  if (done) run_.reset();
  if (!results.empty()) Q_EMIT arrived(results);
  if (!curves.empty()) Q_EMIT curvesArrived(curves);
  if (endsNow) Q_EMIT finished();
}

}  // namespace swingroom
