#pragma once

#include <QString>

#include "app/session/print/print_board.h"

namespace swingroom {

/// What can be said of the print as a whole.
enum class PrintState { notChecked, looking, failed, known };

struct PrintStanding {
  PrintState state = PrintState::notChecked;
  std::size_t findings = 0, hints = 0;  ///< Of the assembly as it is; else 0.

  bool passes() const { return state == PrintState::known && findings == 0; }
  bool operator==(const PrintStanding&) const = default;
};
PrintStanding printStanding(const PrintBoard& board);

/// "nothing found, 83 hints", "2 findings", "looking…": the words of core's `printOutcome`.
/// @param withHints  Else the hints are left out: where room is short.
QString printOutcomeWords(const PrintStanding& standing, bool withHints = true);

/// The headline's second half: "as printed: nothing found, 83 hints".
QString asPrintedWords(const PrintStanding& standing);

/// Under the page's headline: of what the result is, what ended the check, what was not looked at;
/// one a line.
QString printStateWords(const PrintBoard& board);

/// Said wherever safety is spoken of.
QString printCaution();

/// "filament, 0.4 mm nozzle", or "filament, 0.4 mm nozzle and 1 more"; empty: no part is printed.
QString processName(const PrintKnown& known);

}  // namespace swingroom
