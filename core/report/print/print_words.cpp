#include "core/report/print/print_words.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

/// @param words  By the enumerator's number.
template <typename Enum, std::size_t N>
const char* wordAt(Enum value, const char* const (&words)[N]) {
  const auto at = static_cast<std::size_t>(value);
  return at < N ? words[at] : "";
}

}  // namespace

const char* wordFor(PrintedState state) {
  return wordAt(state, {"apart", "closes", "contact", "not judged"});
}
const char* wordFor(FitDuty duty) {
  return wordAt(duty, {"turns", "pressed", "slides", "swivels"});
}
const char* wordFor(FitShape shape) {
  return wordAt(shape, {"not found", "pin in hole", "ball in socket", "guide"});
}
const char* wordFor(FrictionModel model) {
  return wordAt(model, {"unknown", "none", "press", "clamp", "ball"});
}
const char* wordFor(WallKind kind) {
  return wordAt(kind, {"none", "wall", "neck", "edge"});
}
const char* wordFor(MassModel model) {
  return wordAt(model, {"unknown", "solid", "skin and infill"});
}
const char* wordFor(StandKind kind) {
  return wordAt(kind, {"stands", "falls", "on an edge", "on a point", "unknown"});
}
const char* wordFor(HoldKind kind) {
  return wordAt(kind, {"level", "floor", "stop", "click", "grip", "fit", "may droop", "droops",
                       "unknown"});
}
const char* wordFor(BedVerdict verdict) {
  return wordAt(verdict, {"fits", "does not fit", "not told"});
}
const char* wordFor(Hollow::Kind kind) {
  return wordAt(kind, {"closed", "narrow neck"});
}
const char* wordFor(PassAnswer answer) {
  return wordAt(answer, {"yes", "maybe", "no", "unknown"});
}
const char* wordFor(FingerPlace place) {
  return wordAt(place, {"where they fold together", "at the hinge's line", "between"});
}

const ThinSpot* thinnestOf(const WallMap& map) {
  if (map.spots.empty() || !map.leastUpperMm) return nullptr;
  return &*std::min_element(
      map.spots.begin(), map.spots.end(),
      [](const ThinSpot& a, const ThinSpot& b) { return a.upperMm < b.upperMm; });
}

std::optional<HoldMargin> holdMarginOf(const JointHold& hold) {
  const bool byFit = hold.kind == HoldKind::friction || hold.kind == HoldKind::mayDroop ||
                     hold.kind == HoldKind::droops;
  if (!byFit || !std::isfinite(hold.holdsHigh)) return std::nullopt;
  const double neededLower = std::max(0.0, 2 * hold.needed - hold.neededUpper);
  return HoldMargin{hold.holdsLow - hold.neededUpper, hold.holdsHigh - neededLower};
}

}  // namespace swingroom
