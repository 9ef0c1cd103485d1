#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/history/check_figures.h"

namespace swingroom {

/// What became of a pair between two checks. By gap and depth only what is proven counts: brackets
/// that overlap are `notToldApart`.
enum class Change {
  newFinding,       ///< Passed before, or was not there.
  worse,            ///< Another verdict, a worse one; a finding before already.
  deeper,           ///< A clash before and now, proven deeper.
  tighter,          ///< A finding before and now, its gap proven smaller.
  shrank,           ///< Passes before and now, its gap proven smaller.
  solved,           ///< A finding before, passes now, or is not there any more.
  better,           ///< Another verdict, a better one; a finding still.
  shallower,        ///< A clash before and now, proven less deep.
  wider,            ///< A finding before and now, its gap proven larger.
  grew,             ///< Passes before and now, its gap proven larger.
  passesOtherwise,  ///< Clear before and allowed now, or the other way round.
  notToldApart,     ///< The same verdict; the brackets differ and overlap.
  same,             ///< The same figures.
};

/// New findings, worse verdicts, and findings that are proven deeper or tighter.
bool isWorse(Change change);
/// The opposite of those.
bool isBetter(Change change);

/// One pair of one way in two checks; a side is empty where the pair is not in that check.
struct PairChange {
  Change change = Change::same;
  std::string way;
  std::string a, b;  ///< As the newer check calls them.
  std::optional<PairFigure> before, now;

  bool operator==(const PairChange&) const = default;
};

/// A part that has another name in the newer check: of the same figures with all other parts.
struct RenamedPart {
  std::string before, now;

  bool operator==(const RenamedPart&) const = default;
};

/// A newer check held against an older one.
struct Comparison {
  /// Worst first: by kind, then by how much is lacking. `same` and `notToldApart` are counted only.
  std::vector<PairChange> changes;
  std::size_t same = 0, notToldApart = 0;  ///< Pairs of ways that both have.
  /// Pairs of ways that both have, in one check only and passing there.
  std::size_t pairsOnlyBefore = 0, pairsOnlyNow = 0;
  std::vector<RenamedPart> renamed;
  std::vector<std::string> partsOnlyBefore, partsOnlyNow;
  std::vector<std::string> waysOnlyBefore, waysOnlyNow;  ///< Their pairs are not compared.
  double resolutionBeforeMm = 0, resolutionNowMm = 0;
  std::string assemblyBefore, assemblyNow;

  bool anyWorse() const;
  std::size_t count(bool (*which)(Change)) const;
};

/// Pairs are matched by their parts' names, ways by theirs.
Comparison compare(const CheckFigures& before, const CheckFigures& now);

/// The one that matters most of each pair over all ways, in the order of `changes`.
std::vector<PairChange> worstOfEachPair(const std::vector<PairChange>& changes);

}  // namespace swingroom
