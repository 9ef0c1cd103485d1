#pragma once

#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

namespace swingroom {

/// One thread that does one job at a time. A newer job takes the place of one that still waits.
/// Its end waits for the job at work: ask that one to stop first.
class LatestWorker {
 public:
  LatestWorker();
  ~LatestWorker();
  LatestWorker(const LatestWorker&) = delete;
  LatestWorker& operator=(const LatestWorker&) = delete;

  /// @param job  Must not throw. Results go back to their thread by queued calls.
  void ask(std::function<void()> job);

 private:
  void work();

  std::mutex mutex_;
  std::condition_variable wake_;
  std::function<void()> waiting_;
  bool ending_ = false;
  std::thread thread_;  ///< Last: it uses all the others.
};

/// Lets the calling thread, and threads that it starts, step back behind the window's.
void stepBack();

}  // namespace swingroom
