#include "core/measure/user_tables.h"

#include "core/base/user_folder.h"
#include "core/measure/report_folder.h"

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

std::optional<Problem> saveUserTables(const PrintTables& tables) {
  const auto file = userTablesFile();
  if (!file) {
    return Problem{"HOME", "is not set, so that there is nowhere to keep figures",
                   "set it, or name a file of your own"};
  }
  std::error_code failure;  // Told by the writing.
  std::filesystem::create_directories(file->parent_path(), failure);
  return writeFile(*file, toJson(tables));
}

}  // namespace swingroom
