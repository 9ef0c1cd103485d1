#include "core/base/outcome.h"

namespace swingroom {

std::string toText(const Problem& problem) {
  std::string text = problem.where + ": " + problem.what;
  if (!problem.hint.empty()) text += " (" + problem.hint + ")";
  return text;
}

}  // namespace swingroom
