#include "app/command/say.h"

#include <cstdio>

namespace swingroom {

void say(const Problem& problem) {
  std::fprintf(stderr, "%s\n", toText(problem).c_str());
}

int fail(const Problems& problems) {
  for (const Problem& problem : problems) say(problem);
  return 2;
}

}  // namespace swingroom
