#include "core/base/parallel.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace swingroom {

namespace {

std::atomic<unsigned> threadsSet{0};

}  // namespace

unsigned defaultThreads() {
  const unsigned set = threadsSet.load();
  return set > 0 ? set : std::max(1u, std::thread::hardware_concurrency());
}

void setDefaultThreads(unsigned threads) {
  threadsSet.store(threads);
}

void parallelFor(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  std::exception_ptr failure;
  std::mutex failureMutex;
  const auto run = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      try {
        work(i);
      } catch (...) {
        const std::lock_guard lock(failureMutex);
        if (!failure) failure = std::current_exception();
        next = count;
      }
    }
  };
  const std::size_t helpers = std::min<std::size_t>(std::max(1u, threads), std::max<std::size_t>(1, count)) - 1;
  {
    std::vector<std::jthread> pool;
    for (std::size_t i = 0; i < helpers; ++i) pool.emplace_back(run);
    run();
  }
  if (failure) std::rethrow_exception(failure);
}

}  // namespace swingroom
