#include "app/command/say.h"

#include <cstdio>

namespace swingroom {

void say(const Problem& problem) {
  std::fprintf(stderr, "%s\n", toText(problem).c_str());
}

}  // namespace swingroom
