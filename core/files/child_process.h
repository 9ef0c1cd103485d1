#pragma once

#include <sys/types.h>

#include <chrono>
#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include "core/base/work_monitor.h"

namespace swingroom {

/// How a child process came to its end.
struct ChildEnd {
  enum class How { exited, signalled, timedOut } how = How::exited;
  int code = 0;  ///< Exit status, or number of the signal.
};

/// A program run with a deadline, whose standard output is read here. Its standard input and error
/// are the null device. No shell, no descriptor of ours but those three; killed and reaped by the
/// destructor at the latest. May be used from several threads, one object each.
class ChildProcess {
 public:
  using Clock = std::chrono::steady_clock;

  /// @throws std::system_error if the program cannot be started.
  /// @param monitor  May be null. Once it is cancelled, the deadline has passed.
  ChildProcess(const std::filesystem::path& program, const std::vector<std::string>& arguments,
               std::chrono::milliseconds time, const WorkMonitor* monitor = nullptr);
  ~ChildProcess();
  ChildProcess(const ChildProcess&) = delete;
  ChildProcess& operator=(const ChildProcess&) = delete;

  /// The next `count` bytes of its output; fewer if it ends, or the deadline passes, before that.
  std::string read(std::size_t count);

  /// Waits for its end, kills it at the deadline.
  ChildEnd finish();

 private:
  int millisecondsLeft() const;
  void closeOutput();
  void kill();

  pid_t process_ = -1;
  int output_ = -1;
  Clock::time_point deadline_;
  const WorkMonitor* monitor_;
};

}  // namespace swingroom
