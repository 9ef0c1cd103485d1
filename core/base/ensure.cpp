#include "core/base/ensure.h"

#include <cstdio>
#include <cstdlib>

namespace swingroom {

void failEnsure(const char* condition, const char* file, int line) {
  std::fprintf(stderr, "swingroom: internal error: %s is false at %s:%d\n", condition, file, line);
  std::abort();
}

}  // namespace swingroom
