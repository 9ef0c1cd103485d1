#pragma once

#include <string>

namespace swingroom {

struct WatchWords {
  std::string file;
  unsigned threads = 0;
  bool noCache = false;
  bool noHistory = false;
};

/// Watches until it is interrupted. @returns The exit code.
int runWatch(const WatchWords& words);

}  // namespace swingroom
