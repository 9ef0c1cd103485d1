#include "core/base/work_monitor.h"

#include <gtest/gtest.h>

#include <thread>
#include <utility>
#include <vector>

namespace swingroom {
namespace {

using Reports = std::vector<std::pair<std::size_t, std::size_t>>;

TEST(WorkMonitor, IsNotCancelledUntilAsked) {
  WorkMonitor monitor;
  EXPECT_FALSE(monitor.cancelled());
  monitor.cancel();
  EXPECT_TRUE(monitor.cancelled());
}

TEST(WorkMonitor, TellsDoneAndTotal) {
  Reports reports;
  WorkMonitor monitor(
      [&](std::size_t done, std::size_t total) { reports.emplace_back(done, total); });
  monitor.start(5);
  monitor.advance();
  monitor.advance(3);
  EXPECT_EQ(reports, (Reports{{0, 5}, {1, 5}, {4, 5}}));
}

TEST(WorkMonitor, StartingAgainCountsFromZero) {
  Reports reports;
  WorkMonitor monitor(
      [&](std::size_t done, std::size_t total) { reports.emplace_back(done, total); });
  monitor.start(2);
  monitor.advance(2);
  monitor.start(9);
  EXPECT_EQ(reports.back(), (std::pair<std::size_t, std::size_t>{0, 9}));
}

TEST(WorkMonitor, WorksWithoutAListener) {
  WorkMonitor monitor;
  monitor.start(1);
  monitor.advance();
  EXPECT_FALSE(monitor.cancelled());
}

// One call at a time: the listener below is not made for several threads.
TEST(WorkMonitor, CountsTheWorkOfSeveralThreadsWithoutLoss) {
  Reports reports;
  WorkMonitor monitor(
      [&](std::size_t done, std::size_t total) { reports.emplace_back(done, total); });
  monitor.start(4000);
  {
    std::vector<std::jthread> threads;
    for (int t = 0; t < 4; ++t) {
      threads.emplace_back([&] {
        for (int i = 0; i < 1000; ++i) monitor.advance();
      });
    }
  }
  ASSERT_EQ(reports.size(), 4001u);
  for (std::size_t i = 0; i < reports.size(); ++i) ASSERT_EQ(reports[i].first, i);
}

}  // namespace
}  // namespace swingroom
