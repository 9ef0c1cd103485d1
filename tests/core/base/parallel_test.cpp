#include "core/base/parallel.h"

#include <gtest/gtest.h>

#include <atomic>
#include <set>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

namespace swingroom {
namespace {

TEST(ParallelFor, EveryIndexIsDoneExactlyOnce) {
  for (const unsigned threads : {0u, 1u, 2u, 7u}) {
    std::vector<std::atomic<int>> calls(10'000);
    parallelFor(calls.size(), threads, [&](std::size_t i) { ++calls[i]; });
    for (std::size_t i = 0; i < calls.size(); ++i) {
      ASSERT_EQ(calls[i], 1) << "index " << i << " on " << threads << " threads";
    }
  }
}

TEST(ParallelFor, NothingToDoCallsNothing) {
  int calls = 0;
  parallelFor(0, 4, [&](std::size_t) { ++calls; });
  EXPECT_EQ(calls, 0);
}

TEST(ParallelFor, MoreThreadsThanWorkIsFine) {
  std::atomic<int> calls{0};
  parallelFor(2, 64, [&](std::size_t) { ++calls; });
  EXPECT_EQ(calls, 2);
}

TEST(ParallelFor, OneThreadIsTheCallersOwnAndGoesInOrder) {
  std::vector<std::size_t> order;
  std::set<std::thread::id> threads;
  parallelFor(5, 1, [&](std::size_t i) {
    order.push_back(i);
    threads.insert(std::this_thread::get_id());
  });
  EXPECT_EQ(order, (std::vector<std::size_t>{0, 1, 2, 3, 4}));
  EXPECT_EQ(threads, std::set{std::this_thread::get_id()});
}

TEST(ParallelFor, AnExceptionOfTheWorkReachesTheCaller) {
  for (const unsigned threads : {1u, 4u}) {
    try {
      parallelFor(1000, threads, [](std::size_t i) {
        if (i == 417) throw std::runtime_error("bolt 417");
      });
      FAIL() << "nothing thrown on " << threads << " threads";
    } catch (const std::runtime_error& error) {
      EXPECT_EQ(std::string(error.what()), "bolt 417");
    }
  }
}

TEST(ParallelFor, NoWorkRunsAnyMoreWhenTheExceptionArrives) {
  std::atomic<int> running{0};
  try {
    parallelFor(64, 4, [&](std::size_t i) {
      ++running;
      if (i == 3) {
        --running;
        throw std::runtime_error("stop");
      }
      std::this_thread::sleep_for(std::chrono::milliseconds(1));
      --running;
    });
    FAIL() << "nothing thrown";
  } catch (const std::runtime_error&) {
    EXPECT_EQ(running, 0);
  }
}

TEST(ParallelFor, DefaultIsAtLeastOneThread) {
  EXPECT_GE(defaultThreads(), 1u);
}

}  // namespace
}  // namespace swingroom
