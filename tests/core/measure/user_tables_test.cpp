#include "core/measure/user_tables.h"

#include <gtest/gtest.h>

#include <cstdlib>

#include "core/measure/report_folder.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

/// Names a folder of the user's for as long as it lives.
class ConfigFolder {
 public:
  explicit ConfigFolder(const std::filesystem::path& folder) {
    if (const char* before = std::getenv("XDG_CONFIG_HOME")) before_ = before;
    setenv("XDG_CONFIG_HOME", folder.c_str(), 1);
  }
  ~ConfigFolder() {
    before_.empty() ? unsetenv("XDG_CONFIG_HOME") : setenv("XDG_CONFIG_HOME", before_.c_str(), 1);
  }

 private:
  std::string before_;
};

// The file's place: XDG Base Directory Specification.
TEST(UserTables, WhatIsSavedIsWhatIsReadAndItsFolderIsMade) {
  const TempFolder folder;
  const ConfigFolder named(folder.path() / "not_there_yet");
  ASSERT_TRUE(userTables());
  EXPECT_TRUE(*userTables() == builtInTables());
  PrintTables tables = builtInTables();
  tables.processes[0].bedMm = {180, 180, 180};
  EXPECT_FALSE(saveUserTables(tables));
  EXPECT_TRUE(std::filesystem::exists(folder.path() / "not_there_yet/swingroom/print.json"));
  ASSERT_TRUE(userTables());
  EXPECT_TRUE(*userTables() == tables);
}

TEST(UserTables, AFolderThatCannotBeMadeIsTold) {
  const TempFolder folder;
  EXPECT_FALSE(writeFile(folder.path() / "file", "no folder"));
  const ConfigFolder named(folder.path() / "file");
  const auto problem = saveUserTables(builtInTables());
  ASSERT_TRUE(problem);
  EXPECT_EQ(problem->what, "cannot be written");
}

}  // namespace
}  // namespace swingroom
