#pragma once

#include <string>

#include "core/stages/round_change.h"
#include "core/stages/stage_fit.h"
#include "core/stages/wall_change.h"

/// Figures and places of stages as words. English by design, as all words that command line and
/// window share. No hint is in them.
namespace swingroom::words {

/// "towards +z", "by (1.00, 0.00, -2.50) mm": along an axis if it is one to 2 degrees.
std::string towards(const Eigen::Vector3d& by);
/// "(1.00, -2.50, 3.00)".
std::string place(const Eigen::Vector3d& p);
/// "0.18 mm", two places; never "0.00" of what is not 0.
std::string change(double mm);

/// "3.00 mm hole"; with its joint: "neck's 3.00 mm hole".
std::string roundName(const RoundChange& change);
/// "neck's 3.00 mm hole moved 0.18 mm towards +z, is 0.10 mm wider", in the part's own words;
/// "is gone", "was filled", "is new". Empty: it is as it was.
std::string roundSentence(const RoundChange& change);

/// "stands 3.20 mm off its block, towards -z", ...; empty: it fits.
std::string fitSentence(const StageFit& fit);
std::string fitHint(const StageFit& fit);
std::string factorSentence(double factor);
std::string wallSentence(const WallChange& wall);

}  // namespace swingroom::words
