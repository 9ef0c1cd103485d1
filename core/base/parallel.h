#pragma once

#include <cstddef>
#include <functional>

namespace swingroom {

/// Number of threads to use when the user names none: the machine's, or what was set.
unsigned defaultThreads();
/// For all that begins from now on, in the whole program. @param threads  0: the machine's.
void setDefaultThreads(unsigned threads);

/// Calls `work(i)` once for each i in [0, count), on up to `threads` threads, in no stated order.
/// Each call must write to its own place only; then results do not depend on `threads`.
/// An exception of `work` is thrown on after all threads have stopped.
void parallelFor(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work);

}  // namespace swingroom
