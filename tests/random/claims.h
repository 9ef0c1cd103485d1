#pragma once

#include <string>
#include <vector>

#include "core/sweep/result.h"
#include "tests/random/dense_reference.h"
#include "tests/random/random_motion.h"

/// What the check says of one pair, held against dense samples.
namespace swingroom::random_suite {

/// What was seen of one pair.
struct PairReport {
  bool referenceContact = false;
  bool toldContact = false;
  bool unproven = false;     ///< In some stretch.
  bool gapCompared = false;  ///< Not a clash, and the bracket has an upper end.
  double widthMm = 0;        ///< Of that bracket.
  double aboveLowerMm = 0;   ///< Least gap of the reference above the bracket's lower end.
  int samples = 0;
  int enginesDisagree = 0;
  std::vector<std::string> failures;
};

PairReport examine(const RandomCase& c, const Assembly& assembly, const PairResult& told);

}  // namespace swingroom::random_suite
