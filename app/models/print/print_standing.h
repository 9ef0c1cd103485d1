#pragma once

#include <QString>

#include "app/session/print/print_board.h"

namespace swingroom {

/// What can be said of the print as a whole.
enum class PrintState { notChecked, beingChecked, failed, passes, found };

struct PrintStanding {
  PrintState state = PrintState::notChecked;
  std::size_t findings = 0, hints = 0;  ///< Of the assembly as it is; else 0.

  bool operator==(const PrintStanding&) const = default;
};
PrintStanding printStanding(const PrintBoard& board);

/// "as printed: passes", "as printed: 3 findings", "as printed: being checked".
QString asPrintedWords(const PrintStanding& standing);

/// Over the page's list: "Passes as printed", "3 findings and 5 hints".
QString printHeadline(const PrintStanding& standing);

/// Under it: of what the result is, what ended the check, what was not looked at; one a line.
QString printState(const PrintBoard& board);

/// Product.md, 6: said wherever safety is spoken of.
QString printCaution();

/// "filament, 0.4 mm nozzle", or "filament, 0.4 mm nozzle and 1 more"; empty: no part is printed.
QString processName(const PrintKnown& known);

}  // namespace swingroom
