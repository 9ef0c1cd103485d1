#include "core/measure/user_tables.h"

#include <cstdlib>

namespace swingroom {
namespace {

std::optional<std::filesystem::path> absoluteFrom(const char* variable) {
  const char* value = std::getenv(variable);
  const std::filesystem::path path = value ? value : "";
  return path.is_absolute() ? std::optional(path) : std::nullopt;
}

}  // namespace

std::optional<std::filesystem::path> userTablesFile() {
  if (const auto config = absoluteFrom("XDG_CONFIG_HOME"))
    return *config / "swingroom" / "print.json";
  if (const auto home = absoluteFrom("HOME")) return *home / ".config" / "swingroom" / "print.json";
  return std::nullopt;
}

Outcome<PrintTables> userTables() {
  const auto file = userTablesFile();
  std::error_code none;
  if (!file || !std::filesystem::exists(*file, none)) return builtInTables();
  return readPrintTables(*file);
}

}  // namespace swingroom
