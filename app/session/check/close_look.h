#pragma once

#include <QObject>
#include <atomic>

#include "app/session/check/check_board.h"
#include "app/session/latest_worker.h"
#include "core/base/work_monitor.h"

namespace swingroom {

/// Measures the chosen pair's gap curve closely, with the depths of its overlaps, in the
/// background. The newest question counts.
class CloseLook : public QObject {
  Q_OBJECT

 public:
  explicit CloseLook(QObject* parent = nullptr) : QObject(parent) {}
  ~CloseLook() override { cancel(); }

  /// @param result  Of the pair in that way of the scene.
  void ask(const ScenePtr& scene, std::size_t way, std::size_t pair, const PairResult& result);

 Q_SIGNALS:
  void measured(const ScenePtr& scene, std::size_t way, std::size_t pair,
                const std::vector<GapSample>& curve);

 private:
  void cancel() {
    if (monitor_) monitor_->cancel();
  }

  std::atomic<std::size_t> asked_ = 0;
  std::shared_ptr<WorkMonitor> monitor_;  ///< Of what was asked last.
  LatestWorker worker_;
};

}  // namespace swingroom
