#include "app/models/history/go_to_line.h"

#include <algorithm>

namespace swingroom {

bool goToLine(Session& session, const ChangeLine& line) {
  const ScenePtr& scene = session.scene();
  if (!scene || !line.instant) return false;
  const auto a = scene->assembly().findPart(line.a), b = scene->assembly().findPart(line.b);
  const auto way = std::find_if(scene->ways.begin(), scene->ways.end(),
                                [&](const Sequence& one) { return one.name == line.way; });
  if (!a || !b || way == scene->ways.end()) return false;
  session.goTo(*a, *b, static_cast<std::size_t>(way - scene->ways.begin()), *line.instant);
  return true;
}

}  // namespace swingroom
