#include "app/session/latest_worker.h"

#include <sched.h>
#include <sys/resource.h>

#include <exception>
#include <utility>

namespace swingroom {

LatestWorker::LatestWorker() : thread_([this] { work(); }) {}

LatestWorker::~LatestWorker() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
    waiting_ = nullptr;
  }
  wake_.notify_one();
  thread_.join();
}

void LatestWorker::ask(std::function<void()> job, Failed failed) {
  {
    const std::lock_guard lock(mutex_);
    waiting_ = std::move(job);
    waitingFailed_ = std::move(failed);
  }
  wake_.notify_one();
}

void LatestWorker::work() {
  while (true) {
    std::function<void()> job;
    Failed failed;
    {
      std::unique_lock lock(mutex_);
      wake_.wait(lock, [this] { return ending_ || waiting_; });
      if (ending_) return;
      std::swap(job, waiting_);
      std::swap(failed, waitingFailed_);
    }
    try {
      job();
    } catch (const std::exception& error) {
      if (failed) failed(error.what());
    }
  }
}

void stepBack(StepBack how) {
  // On Linux a thread has a niceness of its own, and its new threads inherit it.
  setpriority(PRIO_PROCESS, 0, how == StepBack::little ? 10 : 19);
  const sched_param none{};
  if (how == StepBack::last) sched_setscheduler(0, SCHED_IDLE, &none);
}

}  // namespace swingroom
