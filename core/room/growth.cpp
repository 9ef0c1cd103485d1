#include "core/room/growth.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/room/growth_probe.h"

namespace swingroom {
namespace {

constexpr int kMostLooks = 80;
constexpr double kMeets = kSlackMm;  ///< A gap this little under the required one meets it, as for the check.
constexpr double kToleranceShare = 0.02;  ///< Of the resolution.

void requireGrowth(const RoomSubject& subject, const GrowthSettings& settings) {
  if (!subject.geometry.at(subject.part.index)) throw std::invalid_argument("growth: the part has no mesh");
  if (!(settings.resolutionMm > 0) || !(settings.mostScale > 1) || !(settings.mostOffsetMm > 0)) {
    throw std::invalid_argument("growth: a setting is out of its domain");
  }
}

using Shortage = GrowthProbe::Shortage;

/// Marches a scale up, or an offset; what is proven only grows.
class ScaleMarch {
 public:
  ScaleMarch(const GrowthProbe& probe, const GrowthSettings& settings, WorkMonitor& monitor)
      : probe_(probe), settings_(settings), monitor_(monitor), leastStep_(settings.resolutionMm / probe.farthestMm()) {}

  GrowthLimit run() {
    limit_.proven = 1;
    if (breaksAtOnce()) return limit_;
    double step = std::min(kFirstWayMm / probe_.farthestMm(), settings_.mostScale - 1);
    double lookedWithStep = 0;  // How long a step the look at `proven` allows.
    for (int looks = 0; looks < kMostLooks && !isDone() && !monitor_.cancelled(); ++looks) {
      if (step < kLeastShare * leastStep_) break;  // Too close to tell.
      monitor_.advance();
      const double end = limit_.broken ? *limit_.broken : settings_.mostScale;
      step = std::min(step, limit_.broken ? 0.5 * (end - limit_.proven) : end - limit_.proven);
      if (step > lookedWithStep && shortage(limit_.proven, step)) {
        step *= 0.5;
      } else if (const auto short_ = shortage(limit_.proven + step, step)) {
        lookedWithStep = std::max(lookedWithStep, step);
        const auto broken = short_->roomMm < -kMeets ? short_ : breakOf(limit_.proven + step);
        if (broken) {
          breakAt(limit_.proven + step, *broken);
        } else {
          step *= 0.5;
        }
      } else {
        if (monitor_.cancelled()) break;
        limit_.proven += step;
        lookedWithStep = step;
        step *= 2;
      }
    }
    limit_.done = isDone() && !monitor_.cancelled();
    return limit_;
  }

 private:
  static constexpr double kFirstWayMm = 0.5;
  static constexpr double kLeastShare = 1e-3;

  bool breaksAtOnce() {
    std::optional<Shortage> now = probe_.swallowed();
    if (!now) now = breakOf(1);
    if (!now || monitor_.cancelled()) return false;
    limit_.none = limit_.done = true;
    breakAt(1, *now);
    return true;
  }

  std::optional<Shortage> breakOf(double scale) const {
    return probe_.ask(scale, [](double, double) { return -2 * kMeets; }, kMeets);
  }

  /// What keeps everything clear for one step up or down from `scale`.
  std::optional<Shortage> shortage(double scale, double step) const {
    const auto needed = [step](double fromCentreMm, double requiredMm) {
      return std::hypot(requiredMm, 0.5 * step * fromCentreMm) - requiredMm;
    };
    return probe_.ask(scale, needed, kToleranceShare * settings_.resolutionMm);
  }

  void breakAt(double scale, const Shortage& shortage) {
    limit_.broken = scale;
    limit_.stop = shortage.stop;
  }

  bool isDone() const {
    return limit_.broken ? *limit_.broken - limit_.proven <= leastStep_ : limit_.proven >= settings_.mostScale;
  }

  const GrowthProbe& probe_;
  const GrowthSettings& settings_;
  WorkMonitor& monitor_;
  double leastStep_;
  GrowthLimit limit_;
};

}  // namespace

GrowthLimit scaleLimit(const RoomSubject& subject, const Vector3d& centre_P, const GrowthSettings& settings,
                       WorkMonitor& monitor) {
  requireGrowth(subject, settings);
  double farthestMm = 0;
  for (const Vector3d& p : subject.geometry[subject.part.index]->surface->mesh->vertices) {
    farthestMm = std::max(farthestMm, (p - centre_P).norm());
  }
  monitor.start(kMostLooks);
  const double wayMm = (settings.mostScale - 1) * farthestMm;
  const GrowthProbe probe(subject, centre_P, 2 * wayMm, settings, monitor);
  if (probe.empty() || probe.farthestMm() == 0) return {false, settings.mostScale, {}, {}, !monitor.cancelled()};
  return ScaleMarch(probe, settings, monitor).run();
}

GrowthLimit offsetLimit(const RoomSubject& subject, const GrowthSettings& settings, WorkMonitor& monitor) {
  requireGrowth(subject, settings);
  monitor.start(kMostLooks);
  const GrowthProbe probe(subject, Vector3d::Zero(), settings.mostOffsetMm, settings, monitor);
  GrowthLimit limit;
  std::optional<Shortage> now = probe.swallowed();
  const double toleranceMm = kToleranceShare * settings.resolutionMm;
  double goal = settings.mostOffsetMm;
  for (int looks = 0; looks < kMostLooks && !limit.done && !monitor.cancelled(); ++looks) {
    monitor.advance();
    if (!now) now = probe.ask(1, [goal](double, double) { return goal; }, toleranceMm);
    if (monitor.cancelled()) break;
    if (now) {
      limit.broken = std::min(limit.broken.value_or(settings.mostOffsetMm), std::max(0.0, now->roomMm));
      limit.stop = now->stop;
      limit.none = now->roomMm < -kMeets;
    } else {
      limit.proven = goal;
    }
    now.reset();
    const double end = limit.broken.value_or(settings.mostOffsetMm);
    limit.done = limit.none || end - limit.proven <= settings.resolutionMm;
    // What was found is mostly about the least: a proof just below it is tried first.
    goal = limit.broken && looks == 0 ? std::max(0.0, end - settings.resolutionMm) : 0.5 * (limit.proven + end);
  }
  return limit;
}

}  // namespace swingroom
