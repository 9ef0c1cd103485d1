#pragma once

#include <condition_variable>
#include <functional>
#include <mutex>
#include <string>
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

  using Failed = std::function<void(const std::string& why)>;

  /// @param job  Results go back to their thread by queued calls.
  /// @param failed  Called on the worker's thread if the job throws (no memory, no threads).
  void ask(std::function<void()> job, Failed failed = {});

 private:
  void work();

  std::mutex mutex_;
  std::condition_variable wake_;
  std::function<void()> waiting_;
  Failed waitingFailed_;
  bool ending_ = false;
  std::thread thread_;  ///< Last: it uses all the others.
};

/// Behind the window's own thread: what is asked for at once and waited for, or what takes long.
/// `last`: only while the others leave time.
enum class StepBack { little, far, last };

/// Lets the calling thread, and threads that it starts, step back. It cannot step forward again.
void stepBack(StepBack how = StepBack::little);

}  // namespace swingroom
