#include "core/measure/user_tables.h"

#include "core/base/user_folder.h"

namespace swingroom {

std::optional<std::filesystem::path> userTablesFile() {
  const auto folder = userFolder(UserFolder::config);
  return folder ? std::optional(*folder / "print.json") : std::nullopt;
}

Outcome<PrintTables> userTables() {
  const auto file = userTablesFile();
  std::error_code none;
  if (!file || !std::filesystem::exists(*file, none)) return builtInTables();
  return readPrintTables(*file);
}

}  // namespace swingroom
