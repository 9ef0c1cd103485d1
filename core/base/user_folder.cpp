#include "core/base/user_folder.h"

#include <cstdlib>

namespace swingroom {
namespace {

struct FolderWords {
  const char* variable;
  const char* belowHome;
};

FolderWords wordsOf(UserFolder kind) {
  switch (kind) {
    case UserFolder::cache:
      return {"XDG_CACHE_HOME", ".cache"};
    case UserFolder::config:
      return {"XDG_CONFIG_HOME", ".config"};
    case UserFolder::data:
      return {"XDG_DATA_HOME", ".local/share"};
  }
  return {"", ""};
}

std::optional<std::filesystem::path> absoluteIn(const char* variable) {
  const char* value = std::getenv(variable);
  const std::filesystem::path path = value ? value : "";
  return path.is_absolute() ? std::optional(path) : std::nullopt;
}

}  // namespace

std::optional<std::filesystem::path> userFolder(UserFolder kind) {
  const FolderWords words = wordsOf(kind);
  if (const auto named = absoluteIn(words.variable)) return *named / "swingroom";
  if (const auto home = absoluteIn("HOME")) return *home / words.belowHome / "swingroom";
  return std::nullopt;
}

}  // namespace swingroom
