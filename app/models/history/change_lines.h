#pragma once

#include <QString>
#include <optional>
#include <string>
#include <vector>

#include "app/session/check/check_news.h"
#include "core/history/comparison.h"

namespace swingroom {

/// What became of one pair, as a person reads it.
struct ChangeLine {
  QString text;                      ///< "visor 0.21 mm from collar at step 4 head up, was 0.46 mm"
  QString word;                      ///< "new finding", "shrank"
  Verdict verdict = Verdict::clear;  ///< Now; of a pair that is gone, before.
  bool worse = false, better = false;
  std::string a, b, way;
  std::optional<double> instant;  ///< Of its worst; none: there is no place to go to.

  bool operator==(const ChangeLine&) const = default;
};

/// @param first  Parts that the sentence is about rather than others: those that were saved.
ChangeLine lineOf(const PairChange& change, const std::vector<std::string>& first = {});

/// "2 new findings, 1 solved"; "every gap as before".
QString summaryOf(const Comparison& comparison);

/// What a save or an edit has brought about.
struct ChangeStory {
  QString heading;                ///< "visor saved", "3 parts saved"
  QString summary;                ///< As `summaryOf`.
  std::vector<ChangeLine> lines;  ///< Worst first, one of each pair.
  bool anyWorse = false;

  /// Heading and the most important line, or what there is to say without one.
  QString oneLine() const;
};
ChangeStory storyOf(const CheckedChange& change);

}  // namespace swingroom
