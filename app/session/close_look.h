#pragma once

#include <QObject>
#include <atomic>

#include "app/session/check_board.h"
#include "app/session/latest_worker.h"

namespace swingroom {

/// Measures the chosen pair's gap curve closely, with the depths of its overlaps, in the
/// background. The newest question counts.
class CloseLook : public QObject {
  Q_OBJECT

 public:
  explicit CloseLook(QObject* parent = nullptr) : QObject(parent) {}

  /// @param result  Of the pair in that way of the scene.
  void ask(const ScenePtr& scene, std::size_t way, std::size_t pair, const PairResult& result);

 Q_SIGNALS:
  void measured(const ScenePtr& scene, std::size_t way, std::size_t pair,
                const std::vector<GapSample>& curve);

 private:
  std::atomic<std::size_t> asked_ = 0;
  LatestWorker worker_;
};

}  // namespace swingroom
