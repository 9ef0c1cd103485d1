#pragma once

#include <atomic>
#include <cstddef>
#include <functional>
#include <mutex>

namespace swingroom {

/// Carries "please stop" into long work and "so much is done" out of it. No user interface in it.
/// All functions may be called from several threads.
class WorkMonitor {
 public:
  /// @param onProgress Called with (done, total) one call at a time, from any working thread.
  explicit WorkMonitor(std::function<void(std::size_t, std::size_t)> onProgress = {})
      : onProgress_(std::move(onProgress)) {}

  void cancel() { cancelled_.store(true, std::memory_order_relaxed); }
  bool cancelled() const { return cancelled_.load(std::memory_order_relaxed); }

  void start(std::size_t total);
  void advance(std::size_t by = 1);

 private:
  std::function<void(std::size_t, std::size_t)> onProgress_;
  std::atomic<bool> cancelled_{false};
  std::mutex mutex_;
  std::size_t done_ = 0;
  std::size_t total_ = 0;
};

/// Whether there is a monitor and it says stop.
inline bool isCancelled(const WorkMonitor* monitor) {
  return monitor && monitor->cancelled();
}

}  // namespace swingroom
