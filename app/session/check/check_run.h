#pragma once

#include <QObject>
#include <atomic>
#include <memory>
#include <mutex>
#include <vector>

#include "app/session/check/check_board.h"
#include "app/session/latest_worker.h"
#include "core/base/work_monitor.h"
#include "core/store/result_store.h"

namespace swingroom {

/// The check in the background: results come as signals on this object's thread, a few times a
/// second. After a save only a few pairs are asked: their verdicts come first, their curves after.
class CheckRun : public QObject {
  Q_OBJECT

 public:
  /// @param results  Where results are looked up and kept. Not null.
  explicit CheckRun(std::shared_ptr<ResultStore> results = std::make_shared<ResultStore>(),
                    QObject* parent = nullptr);
  ~CheckRun() override;

  /// Checks what the board does not know yet, the pairs of `firstWay` first, those that come near
  /// each other before the others, and measures the curves that it lacks. What ran before is
  /// cancelled.
  void start(const CheckBoard& board, std::size_t firstWay);
  void cancel();
  /// Verdicts are still to come; curves may be after it.
  bool isRunning() const { return run_ != nullptr && !isFinished_; }

 Q_SIGNALS:
  /// Each pair once, in no stated order.
  void arrived(const std::vector<CheckedResult>& results);
  /// All pairs have arrived; not after a cancel.
  void finished();
  /// Of pairs that arrived without.
  void curvesArrived(const std::vector<CheckedCurve>& curves);
  /// The run ended before its end, by no wish of anybody's.
  void failed(const Problem& problem);

 private:
  struct Run;

  void deliver(const std::shared_ptr<Run>& run);
  void fail(const std::shared_ptr<Run>& run, const std::string& why);
  static void work(CheckRun* self, const std::shared_ptr<Run>& run);

  std::shared_ptr<ResultStore> results_;
  std::shared_ptr<Run> run_;
  bool isFinished_ = true;
  LatestWorker worker_;
};

}  // namespace swingroom
