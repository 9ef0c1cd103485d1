#include "app/models/history/go_to_line.h"

#include <algorithm>
#include <cmath>

#include "core/report/findings.h"

namespace swingroom {

bool goToLine(Session& session, const ChangeLine& line) {
  const ScenePtr& scene = session.scene();
  if (!scene || !line.instant) return false;
  const auto a = scene->assembly().findPart(line.a), b = scene->assembly().findPart(line.b);
  const auto way = std::find_if(scene->ways.begin(), scene->ways.end(),
                                [&](const Sequence& one) { return one.name == line.way; });
  if (!a || !b || way == scene->ways.end()) return false;
  const auto place = static_cast<std::size_t>(way - scene->ways.begin());
  // Lines have 6 decimals. What is still so stands exactly where the finding does.
  const auto pair = session.board().pairIndex(*a, *b);
  const bool isSo = pair && session.board().isKnown(place, *pair) &&
                    std::abs(worstInstant(session.board().report().results[place].pairs[*pair]) -
                             *line.instant) < 1e-6;
  isSo ? session.goToWorst(*a, *b, place) : session.goTo(*a, *b, place, *line.instant);
  return true;
}

}  // namespace swingroom
