#pragma once

#include <array>
#include <string>
#include <vector>

#include "core/files/loading/load_assembly.h"
#include "core/sweep/result.h"

namespace swingroom {

struct PrintReport;

/// Everything that a report is made from. Measures nothing itself.
struct CheckReport {
  const LoadedAssembly* loaded = nullptr;  ///< Not null.
  double resolutionMm = 0.01;
  std::vector<Sequence> ways;              ///< What was checked: `results` in the same order.
  std::vector<SequenceResult> results;
  std::string variant = {};  ///< That stands in it; empty: the plain file.
  /// Of the plain file: what was checked with it, in file order. Not null; they outlive it.
  std::vector<const CheckReport*> variants = {};
  /// The print checks beside it; null: not asked for.
  const PrintReport* print = nullptr;
};

/// The word for a verdict, as in the interface and in files.
const char* wordFor(Verdict verdict);

/// All verdicts, worst first; an index into counts.
constexpr std::array<Verdict, 6> kVerdicts = {Verdict::clash,    Verdict::tight, Verdict::loose,
                                              Verdict::unproven, Verdict::clear, Verdict::allowed};

/// How many pairs of each verdict, by `kVerdicts`.
std::array<std::size_t, 6> countVerdicts(const SequenceResult& result);

/// Every pair of every sequence is clear or allowed.
bool passes(const CheckReport& report);

/// Rounded to 6 decimals so that a bound stays a bound.
double roundedDown(double value);
double roundedUp(double value);
double rounded(double value);

}  // namespace swingroom
