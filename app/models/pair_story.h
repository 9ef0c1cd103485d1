#pragma once

#include <QString>
#include <optional>
#include <vector>

#include "app/session/check/check_board.h"
#include "app/session/check/live_gaps.h"

namespace swingroom {

/// What the card says of the chosen pair in one way.
struct PairStory {
  struct Fact {
    QString name, value;
    bool operator==(const Fact&) const = default;
  };

  QString names;                   ///< "arm_left and funnel"
  std::optional<Verdict> verdict;  ///< None: not yet checked.
  QString figure;                  ///< "1.24 mm deep"
  QString where;                   ///< "step 3 arms in, instant 0.4300"
  std::vector<Fact> printed;  ///< As printed; empty: not checked. See `printedFacts`.
  std::vector<Fact> facts;
  std::vector<Fact> atWorst;      ///< At the worst place: points, and joints between the two parts.
  std::vector<QString> contacts;  ///< Where the two may touch, in the document's order.
  QString advice;                 ///< How much to shave; empty: nothing, or not known.
  QString adviceMore;             ///< Where, and what that is worth.
  double requiredMm = 0;
  bool hasOwnRequired = false;  ///< The pair has a required gap of its own.
  QString allowedBecause;       ///< Empty: not allowed.

  bool operator==(const PairStory&) const = default;
};

/// @param pair  Index into the way's pairs.
PairStory storyOf(const CheckBoard& board, std::size_t way, std::size_t pair);

/// "now 0.34 mm", "now 1.20 mm deep", "now in overlap".
QString nowText(const PairNow& now);
/// The same for the dimension line's label: "0.34 mm", "1.20 mm deep", "overlap".
QString labelText(const PairNow& now);

}  // namespace swingroom
