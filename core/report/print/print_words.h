#pragma once

#include "core/print/print_check.h"

/// The words of print figures in reports; of findings see core/print/finding.h.
namespace swingroom {

/// "apart", "closes", "contact", "not judged".
const char* wordFor(PrintedState state);
/// "turns", "pressed", "slides", "swivels".
const char* wordFor(FitDuty duty);
/// "not found", "pin in hole", "ball in socket", "guide".
const char* wordFor(FitShape shape);
/// "unknown", "none", "press", "clamp", "ball".
const char* wordFor(FrictionModel model);
/// "none", "wall", "neck", "edge".
const char* wordFor(WallKind kind);
/// "unknown", "solid", "skin and infill".
const char* wordFor(MassModel model);
/// "stands", "falls", "on an edge", "on a point", "unknown".
const char* wordFor(StandKind kind);
/// What keeps a joint where it stands: "level", "floor", "stop", "click", "grip", "fit",
/// "may droop", "droops", "unknown".
const char* wordFor(HoldKind kind);
/// "fits", "does not fit", "not told".
const char* wordFor(BedVerdict verdict);
/// "closed", "narrow neck".
const char* wordFor(Hollow::Kind kind);
/// "yes", "maybe", "no", "unknown".
const char* wordFor(PassAnswer answer);
/// "where they fold together", "at the hinge's line", "between".
const char* wordFor(FingerPlace place);

/// The spot whose thickness is the part's least; null: nothing as thin as was looked for.
const ThinSpot* thinnestOf(const WallMap& map);

/// What the fit holds less what it has to: N mm, of a slide N. Between the worse with the low
/// friction and the heaviest masses and the better; negative: it does not hold. Nothing: how its
/// parts fit is not known, or it needs no hold.
struct HoldMargin {
  double lower = 0, upper = 0;
};
std::optional<HoldMargin> holdMarginOf(const JointHold& hold);

}  // namespace swingroom
