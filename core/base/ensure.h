#pragma once

namespace swingroom {

/// Ends the program with a message: we are wrong, going on would give wrong answers.
[[noreturn]] void failEnsure(const char* condition, const char* file, int line);

}  // namespace swingroom

/// A check of our own reasoning that stays on in release builds.
#define SWINGROOM_ENSURE(condition)                                        \
  do {                                                                     \
    if (!(condition)) ::swingroom::failEnsure(#condition, __FILE__, __LINE__); \
  } while (false)
