#pragma once

#include <atomic>
#include <cstddef>

#include "core/base/work_monitor.h"

namespace swingroom {

/// Tells a monitor how far work of several stages is, in hundredths of the whole.
class StageProgress {
 public:
  explicit StageProgress(WorkMonitor& monitor) : monitor_(monitor) { monitor_.start(100); }

  const WorkMonitor& monitor() const { return monitor_; }
  bool cancelled() const { return monitor_.cancelled(); }

  /// The next stage has `count` tasks and takes so many hundredths.
  void stage(std::size_t count, std::size_t hundredths) {
    finish();
    count_ = count;
    share_ = hundredths;
    done_ = 0;
    told_ = 0;
  }
  /// One task is done. From any thread.
  void advance() {
    const std::size_t done = ++done_;
    if (count_ == 0) return;
    const std::size_t before = (done - 1) * share_ / count_, now = done * share_ / count_;
    if (now == before) return;
    told_ += now - before;
    monitor_.advance(now - before);
  }
  /// What is left of the stage counts as done.
  void finish() {
    if (told_ < share_) monitor_.advance(share_ - told_);
    told_ = share_ = 0;
  }

 private:
  WorkMonitor& monitor_;
  std::size_t count_ = 0, share_ = 0;
  std::atomic<std::size_t> done_{0}, told_{0};
};

}  // namespace swingroom
