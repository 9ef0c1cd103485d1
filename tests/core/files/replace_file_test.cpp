// Files are replaced whole or not at all. What a kill in the middle leaves is in
// tests/app/session/kill.
#include "core/files/replace_file.h"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>
#include <fstream>
#include <sstream>

#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

std::string textOf(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

std::size_t filesIn(const fs::path& folder) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

mode_t rightsOf(const fs::path& file) {
  struct stat facts {};
  return ::stat(file.c_str(), &facts) == 0 ? facts.st_mode & 0777 : 0;
}

/// Writing past `bytes` fails for this process, as on a full disk.
class SmallDisk {
 public:
  explicit SmallDisk(rlim_t bytes) {
    ::getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit small{bytes, before_.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &small);
    handler_ = std::signal(SIGXFSZ, SIG_IGN);
  }
  ~SmallDisk() {
    ::setrlimit(RLIMIT_FSIZE, &before_);
    std::signal(SIGXFSZ, handler_);
  }

 private:
  rlimit before_{};
  void (*handler_)(int) = nullptr;
};

class ReplaceFile : public ::testing::Test {
 protected:
  TempFolder folder_;
  fs::path file_ = folder_.path() / "a.swing.json";
};

TEST_F(ReplaceFile, MakesAndReplacesAndLeavesNothingBesides) {
  ASSERT_EQ(replaceFile(file_, "one"), std::nullopt);
  EXPECT_EQ(textOf(file_), "one");
  ASSERT_EQ(replaceFile(file_, ""), std::nullopt);
  EXPECT_EQ(textOf(file_), "");
  EXPECT_EQ(filesIn(folder_.path()), 1u);
}

TEST_F(ReplaceFile, LinkStaysALinkAndItsFileIsReplaced) {
  const fs::path real = folder_.write("real.json", "one");
  fs::create_symlink("real.json", file_);
  const fs::path second = folder_.path() / "second.json";
  fs::create_symlink(file_, second);
  ASSERT_EQ(replaceFile(second, "two"), std::nullopt);
  EXPECT_EQ(textOf(real), "two");
  EXPECT_TRUE(fs::is_symlink(file_));
  EXPECT_TRUE(fs::is_symlink(second));
}

TEST_F(ReplaceFile, LinkToNothingIsFollowedToo) {
  fs::create_symlink("new.json", file_);
  ASSERT_EQ(replaceFile(file_, "two"), std::nullopt);
  EXPECT_TRUE(fs::is_symlink(file_));
  EXPECT_EQ(textOf(folder_.path() / "new.json"), "two");
}

TEST_F(ReplaceFile, RightsAreKept) {
  folder_.write("a.swing.json", "one");
  for (const mode_t rights : {0600u, 0664u, 0755u}) {
    ASSERT_EQ(::chmod(file_.c_str(), rights), 0);
    ASSERT_EQ(replaceFile(file_, "two"), std::nullopt);
    EXPECT_EQ(rightsOf(file_), rights);
  }
}

TEST_F(ReplaceFile, WriteProtectedFileIsToldAndStays) {
  folder_.write("a.swing.json", "one");
  ASSERT_EQ(::chmod(file_.c_str(), 0444), 0);
  const auto problem = replaceFile(file_, "two");
  ASSERT_TRUE(problem);
  EXPECT_EQ(toText(*problem), file_.string() +
                                  ": cannot be saved: it is write-protected (save it under another "
                                  "name)");
  EXPECT_EQ(textOf(file_), "one");
  EXPECT_EQ(filesIn(folder_.path()), 1u);
}

TEST_F(ReplaceFile, WhatIsNoPlainFileIsNeverReplaced) {
  fs::create_directory(file_);
  EXPECT_TRUE(replaceFile(file_, "two"));
  EXPECT_TRUE(fs::is_directory(file_));
  const fs::path pipe = folder_.path() / "pipe";
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0666), 0);
  EXPECT_TRUE(replaceFile(pipe, "two"));
  EXPECT_TRUE(fs::is_fifo(pipe));
}

TEST_F(ReplaceFile, FullDiskIsToldAndTheOldContentStays) {
  folder_.write("a.swing.json", "one");
  const SmallDisk disk(100'000);
  const auto problem = replaceFile(file_, std::string(200'000, 'x'));
  ASSERT_TRUE(problem);
  EXPECT_EQ(problem->where, file_.string());
  EXPECT_EQ(problem->hint, "what was there before is untouched");
  EXPECT_EQ(textOf(file_), "one");
  EXPECT_EQ(filesIn(folder_.path()), 1u);
}

TEST_F(ReplaceFile, FolderThatIsNotThereIsTold) {
  EXPECT_TRUE(replaceFile(folder_.path() / "none" / "a.json", "two"));
}

TEST_F(ReplaceFile, WhatAKilledOneHasLeftIsUsedAgain) {
  for (int i = 0; i < 3; ++i) {
    folder_.write(".a.swing.json.saving-0", "half of a docu");
    ASSERT_EQ(replaceFile(file_, "two"), std::nullopt);
    EXPECT_EQ(textOf(file_), "two");
    EXPECT_EQ(filesIn(folder_.path()), 1u);
  }
}

TEST_F(ReplaceFile, LeftoversAreRemovedButWhatIsBeingWrittenStays) {
  const auto left = folder_.write(".a.swing.json.saving-0", "half");
  const auto alive = folder_.write(".a.swing.json.saving-1", "half");
  const auto other = folder_.write(".b.swing.json.saving-0", "half");
  const HeldFile writer = HeldFile::hold(alive, HeldFile::IfAbsent::fail);
  ASSERT_TRUE(writer.isHeld());
  removeLeftovers(file_);
  EXPECT_FALSE(fs::exists(left));
  EXPECT_TRUE(fs::exists(alive));
  EXPECT_TRUE(fs::exists(other));
  ASSERT_EQ(replaceFile(file_, "two"), std::nullopt);
  EXPECT_EQ(textOf(alive), "half");
}

TEST_F(ReplaceFile, LongNameIsSaved) {
  const fs::path longest = folder_.path() / std::string(255, 'n');
  ASSERT_EQ(replaceFile(longest, "two"), std::nullopt);
  EXPECT_EQ(textOf(longest), "two");
}

TEST_F(ReplaceFile, NewFileIsHeldUntilItIsReplaced) {
  HeldFile held;
  ASSERT_EQ(replaceFile(file_, "one", &held), std::nullopt);
  EXPECT_TRUE(HeldFile::hold(file_, HeldFile::IfAbsent::fail).isInUse());
  ASSERT_EQ(replaceFile(file_, "two", &held), std::nullopt);
  EXPECT_TRUE(HeldFile::hold(file_, HeldFile::IfAbsent::fail).isInUse());
  EXPECT_EQ(held.read(100), "two");
  held.release();
  EXPECT_TRUE(HeldFile::hold(file_, HeldFile::IfAbsent::fail).isHeld());
}

}  // namespace
}  // namespace swingroom
