#pragma once

#include <optional>
#include <string>

#include "app/command/check_subjects.h"

namespace swingroom {

/// The tables of printers and materials: those of the file that is named, else the user's own.
Outcome<PrintTables> tablesFor(const std::string& file);

/// What the print checks of a subject are asked; without results of the gap check if there are none.
void askPrint(const CheckSubject& subject, const PrintTables& tables, const std::string& file,
              unsigned threads, CheckedPrint& print);

/// Runs the print checks of a subject whose gaps have been checked. Its report points to them.
/// @param file  How notes name the assembly file.
void checkPrintOf(CheckSubject& subject, const PrintTables& tables, const std::string& file,
                  unsigned threads);

}  // namespace swingroom
