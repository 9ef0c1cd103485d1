#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/outcome.h"
#include "core/print/process/material.h"
#include "core/print/process/process.h"

namespace swingroom {

/// A key of a tables file that nobody here knows: it is written again where it stood.
struct KeptKey {
  std::string list;   ///< "processes", "materials", or empty: the file itself.
  std::string entry;  ///< The name of the process or material.
  std::string key;
  std::string json;  ///< The value, on one line.

  bool operator==(const KeptKey&) const = default;
};

/// What printers and materials there are: the built-in ones, with the maker's own in their place or
/// behind them.
struct PrintTables {
  std::vector<PrintProcess> processes;
  std::vector<Material> materials;
  std::vector<KeptKey> kept;
  Problems notes;  ///< Of the reading: worth knowing, not wrong.

  bool operator==(const PrintTables&) const = default;
};

PrintTables builtInTables();

/// The built-in tables with what the file says in their place or behind them
/// (resources/print.schema.json). An entry of a built-in one's name takes its place, whatever its
/// capitals; what an entry does not say is as in the one that it is `from`. A figure written as a
/// plain number is the maker's own: measured.
/// @returns Everything that is wrong, each with its JSON pointer; what is not understood is kept,
///     and told in `notes`.
Outcome<PrintTables> readPrintTables(const std::filesystem::path& file);
/// @param name  What the text is called in problems.
Outcome<PrintTables> parsePrintTables(std::string_view text, const std::string& name);

/// The file's text: only what differs from the built-in tables, in the order of the schema. Read
/// again it gives the same tables (but for `notes`).
std::string toJson(const PrintTables& tables);

}  // namespace swingroom
