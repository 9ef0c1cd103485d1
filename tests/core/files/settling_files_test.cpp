// When a file that another program saves is to be read. Time is the test's own; the files are real.
#include "core/files/watching/settling_files.h"

#include <gtest/gtest.h>

#include <fstream>
#include <thread>

#include "core/files/mesh_memory.h"
#include "core/files/watching/companions.h"
#include "core/files/watching/file_end.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;
using What = FileSign::What;

class Settling : public ::testing::Test {
 protected:
  Settling() { times_.young = milliseconds(3000); }

  void watch(const std::vector<FileGroup>& groups) {
    files_ = SettlingFiles(times_);
    files_.watch(groups, now_);
  }
  /// A file that was there long before.
  fs::path old(const char* name, const std::string& text) {
    const fs::path file = folder_.write(name, text);
    fs::last_write_time(file, fs::file_time_type::clock::now() - std::chrono::hours(1));
    return file;
  }
  void put(const fs::path& file, const std::string& text) { std::ofstream(file) << text; }
  void append(const fs::path& file, const std::string& text) {
    std::ofstream(file, std::ios::app) << text;
  }
  void sign(const fs::path& file, What what) { files_.note({file, what}, now_); }
  void pass(int ms) { now_ += milliseconds(ms); }
  std::vector<fs::path> take() { return files_.take(now_); }
  using Taken = std::vector<fs::path>;

  TempFolder folder_;
  SettlingTimes times_;
  SettlingFiles files_;
  SettlingFiles::Time now_{};
};

TEST_F(Settling, WhatIsThereAtTheBeginningIsNoChange) {
  const fs::path mesh = old("visor.stl", "a mesh");
  watch({{mesh, {}}});
  EXPECT_EQ(files_.due(now_), std::nullopt);
  pass(60'000);
  EXPECT_EQ(take(), Taken());
  EXPECT_TRUE(files_.young(now_).empty());
}

TEST_F(Settling, AFileThatWasPutInPlaceIsReadAtOnce) {
  const fs::path mesh = old("visor.stl", "a mesh");
  watch({{mesh, {}}});
  fs::rename(folder_.write("visor.tmp", "another"), mesh);
  sign(mesh, What::whole);
  EXPECT_EQ(take(), Taken()) << "others may have been saved with it";
  ASSERT_TRUE(files_.due(now_).has_value());
  EXPECT_EQ(*files_.due(now_) - now_, times_.together);
  pass(20);
  EXPECT_EQ(take(), Taken{mesh});
  EXPECT_EQ(take(), Taken()) << "once";
  EXPECT_EQ(files_.due(now_), std::nullopt);
}

TEST_F(Settling, SameSizeAndTimeButAnotherFileIsAChange) {
  const fs::path mesh = old("visor.stl", "a mesh"), other = folder_.write("tmp", "b mesh");
  const auto time = fs::last_write_time(mesh);
  watch({{mesh, {}}});
  fs::last_write_time(other, time);
  fs::rename(other, mesh);
  fs::last_write_time(mesh, time);
  pass(1000);
  take();
  pass(1000);
  EXPECT_EQ(take(), Taken{mesh});
}

TEST_F(Settling, AFileThatIsBeingWrittenIsLeftAloneUntilItsWriterCloses) {
  const fs::path mesh = old("visor.stl", "a mesh");
  watch({{mesh, {}}});
  for (int i = 0; i < 20; ++i) {
    put(mesh, std::string(static_cast<std::size_t>(10 + i), 'x'));
    sign(mesh, What::written);
    pass(1500);
    EXPECT_EQ(take(), Taken()) << "its writer pauses for " << 1500 << " ms and has it open";
  }
  sign(mesh, What::whole);
  pass(20);
  EXPECT_EQ(take(), Taken{mesh});
}

TEST_F(Settling, WithoutSignsAFileIsReadWhenItHasNotChangedForAWhile) {
  const fs::path mesh = old("visor.stl", "a mesh");
  watch({{mesh, {}}});
  put(mesh, "12");
  EXPECT_EQ(take(), Taken());
  pass(399);
  EXPECT_EQ(take(), Taken());
  append(mesh, "3");
  EXPECT_EQ(take(), Taken());
  pass(399);
  EXPECT_EQ(take(), Taken()) << "it changed again";
  pass(1);
  EXPECT_EQ(take(), Taken{mesh});
}

TEST_F(Settling, WhatCannotBeReadIsTriedAgainWhileItIsYoungAndOnceAfterwards) {
  const fs::path mesh = old("visor.stl", "a mesh");
  watch({{mesh, {}}});
  put(mesh, "half");
  sign(mesh, What::whole);
  pass(20);
  ASSERT_EQ(take(), Taken{mesh});
  int triesWhileYoung = 0, triesAfterwards = 0;
  files_.failed(mesh, now_);
  for (int ms = 20; ms < 20'000; ms += 10, pass(10)) {
    const bool young = files_.young(now_).contains(mesh);
    EXPECT_EQ(young, ms < 3000) << "3 s from the last sign";
    if (take().empty()) continue;
    ++(young ? triesWhileYoung : triesAfterwards);
    if (young) files_.failed(mesh, now_);
  }
  EXPECT_GE(triesWhileYoung, 3);
  EXPECT_EQ(triesAfterwards, 1);
  EXPECT_EQ(files_.due(now_), std::nullopt);
}

TEST_F(Settling, AChangeOfAFailedFileBeginsItsWaitAnew) {
  const fs::path mesh = old("visor.stl", "a mesh");
  watch({{mesh, {}}});
  for (int piece = 0; piece < 5; ++piece) {
    put(mesh, std::string(static_cast<std::size_t>(20 + piece), 'x'));
    sign(mesh, What::whole);
    pass(20);
    EXPECT_EQ(take(), Taken{mesh}) << piece;
    files_.failed(mesh, now_);
    pass(2900);
    EXPECT_TRUE(files_.young(now_).contains(mesh)) << piece;
  }
}

TEST_F(Settling, OneThatIsGoneForAMomentIsNoChangeOfItsOwn) {
  const fs::path mesh = old("visor.stl", "a mesh");
  watch({{mesh, {}}});
  fs::remove(mesh);
  sign(mesh, What::gone);
  pass(2000);
  EXPECT_EQ(take(), Taken());
  put(mesh, "it came again");
  sign(mesh, What::whole);
  pass(20);
  EXPECT_EQ(take(), Taken{mesh});
}

TEST_F(Settling, OneThatStaysAwayIsToldAfterTheQuietTime) {
  const fs::path mesh = old("visor.stl", "a mesh");
  watch({{mesh, {}}});
  fs::remove(mesh);
  sign(mesh, What::gone);
  take();
  pass(2999);
  EXPECT_EQ(take(), Taken());
  pass(1);
  EXPECT_EQ(take(), Taken{mesh});
  EXPECT_FALSE(files_.young(now_).contains(mesh));
}

TEST_F(Settling, FilesThatAreSavedTogetherAreReadTogether) {
  std::vector<FileGroup> groups;
  for (int i = 0; i < 5; ++i) groups.push_back({old(std::to_string(i).c_str(), "a mesh"), {}});
  watch(groups);
  for (int i = 0; i < 5; ++i) {
    put(groups[static_cast<std::size_t>(i)].file, "another mesh");
    sign(groups[static_cast<std::size_t>(i)].file, What::whole);
    pass(15);
    EXPECT_EQ(take(), Taken()) << i;
  }
  pass(5);
  EXPECT_EQ(take().size(), 5u);
}

TEST_F(Settling, ASlowFileDoesNotHoldTheOthersUpForLong) {
  const fs::path quick = old("quick.stl", "a mesh"), slow = old("slow.stl", "a mesh");
  watch({{quick, {}}, {slow, {}}});
  put(quick, "whole");
  sign(quick, What::whole);
  put(slow, "h");
  sign(slow, What::written);
  int waited = 0;
  Taken taken;
  for (; taken.empty() && waited < 5000; waited += 10) {
    pass(10);
    append(slow, "a");
    sign(slow, What::written);
    taken = take();
  }
  EXPECT_EQ(taken, Taken{quick});
  EXPECT_LE(waited, times_.mostTogether.count() + 50);
}

TEST_F(Settling, AFileIsReadWhenAnyOfItsCompanionsHasChangedAndAllAreWhole) {
  const fs::path gltf = old("a.gltf", "{}"), bin = old("a.bin", "numbers");
  watch({{gltf, {bin}}});
  put(bin, "other numbers");
  sign(bin, What::written);
  pass(500);
  EXPECT_EQ(take(), Taken());
  put(gltf, "{ }");
  sign(gltf, What::whole);
  pass(20);
  EXPECT_EQ(take(), Taken()) << "the numbers are still being written";
  sign(bin, What::whole);
  pass(20);
  EXPECT_EQ(take(), Taken{gltf});
}

TEST_F(Settling, AFileThatWasSavedJustBeforeItWasOpenedCountsAsYoungForTwoSeconds) {
  const fs::path mesh = folder_.write("visor.stl", "half");
  watch({{mesh, {}}});
  EXPECT_TRUE(files_.young(now_).contains(mesh));
  files_.failed(mesh, now_);
  pass(100);
  EXPECT_EQ(take(), Taken{mesh});
  pass(2000);
  EXPECT_FALSE(files_.young(now_).contains(mesh));
}

TEST_F(Settling, ATextThatStopsWithinALineIsWaitedForLonger) {
  const fs::path mesh = old("visor.obj", "v 0 0 0\n");
  watch({{mesh, {}}});
  put(mesh, "v 0 0 0\nv 1 0");
  sign(mesh, What::whole);
  pass(1499);
  EXPECT_EQ(take(), Taken());
  append(mesh, " 0\n");
  sign(mesh, What::whole);
  pass(20);
  EXPECT_EQ(take(), Taken{mesh});
}

TEST(FileEnd, OnlyTextsWithoutALengthOfTheirOwnAreJudged) {
  const TempFolder folder;
  EXPECT_FALSE(endsAbruptly(folder.write("a.obj", "v 0 0 0\n")));
  EXPECT_TRUE(endsAbruptly(folder.write("b.obj", "v 0 0")));
  EXPECT_TRUE(endsAbruptly(folder.write("c.stl", "solid x\nfacet normal 0 0 1\nouter loop\n")));
  EXPECT_FALSE(endsAbruptly(folder.write("d.stl", "solid x\nfacet normal 0 0 1\nendsolid x\n")));
  EXPECT_FALSE(endsAbruptly(folder.write("e.stl", std::string("solid\0binary facet", 18))));
  EXPECT_FALSE(endsAbruptly(folder.write("f.ply", "ply\nfor")));
  EXPECT_FALSE(endsAbruptly(folder.path() / "gone.obj"));
}

// The examples of glTF 2.0, sections 3.6.1 and 2.8 (URIs).
TEST(CompanionsTest, AreTheBuffersOfAGltfThatAreFiles) {
  const TempFolder folder;
  const fs::path gltf = folder.write("duck.gltf", R"({"asset": {"version": "2.0"}, "buffers": [
      {"byteLength": 102040, "uri": "duck%20one.bin"},
      {"byteLength": 4, "uri": "data:application/octet-stream;base64,AAAA"},
      {"byteLength": 4, "uri": "sub/b.bin"}, {"byteLength": 4}]})");
  EXPECT_EQ(companionsOf(gltf),
            (std::vector{folder.path() / "duck one.bin", folder.path() / "sub" / "b.bin"}));
  EXPECT_TRUE(companionsOf(folder.write("half.gltf", R"({"buffers": [{"uri": "a.b)")).empty());
  EXPECT_TRUE(companionsOf(folder.write("a.stl", R"({"buffers": [{"uri": "a.bin"}]})")).empty());
  EXPECT_TRUE(companionsOf(folder.path() / "gone.gltf").empty());
}

TEST(CompanionsTest, StampChangesWithACompanionAndOutlivesAHalfWrittenFile) {
  const TempFolder folder;
  const std::string text = R"({"buffers": [{"uri": "a.bin"}]})";
  const fs::path gltf = folder.write("a.gltf", text);
  folder.write("a.bin", "1");
  Companions companions;
  const std::string before = companions.stampOf(gltf);
  folder.write("a.bin", "12");
  const std::string after = companions.stampOf(gltf);
  EXPECT_NE(before, after);
  folder.write("a.gltf", text.substr(0, 10));
  EXPECT_EQ(companions.of(gltf), std::vector{folder.path() / "a.bin"});
}

/// What the system says of real saves.
class Signs : public ::testing::Test {
 protected:
  Signs() { signs_.watch({folder_.path()}); }
  std::vector<What> of(const fs::path& file) {
    std::vector<What> said;
    for (const FileSign& sign : signs_.take()) {
      if (sign.file == file && (said.empty() || said.back() != sign.what))
        said.push_back(sign.what);
    }
    return said;
  }
  TempFolder folder_;
  FolderSigns signs_;
};

TEST_F(Signs, ASaveInPlaceIsWrittenThenWhole) {
  const fs::path file = folder_.path() / "a.stl";
  {
    std::ofstream out(file);
    out << "half" << std::flush;
    EXPECT_EQ(of(file), std::vector{What::written});
    out << "other half";
  }
  EXPECT_EQ(of(file), (std::vector{What::written, What::whole}));
}

TEST_F(Signs, ASaveByRenamingIsWholeAndADeletionIsGone) {
  const fs::path file = folder_.path() / "a.stl";
  fs::rename(folder_.write("a.tmp", "all"), file);
  EXPECT_EQ(of(file), std::vector{What::whole});
  fs::remove(file);
  EXPECT_EQ(of(file), std::vector{What::gone});
}

TEST_F(Signs, OnlyWatchedFoldersAreHeardAndAFolderThatComesAgainToo) {
  const fs::path sub = folder_.path() / "sub", file = sub / "a.stl";
  fs::create_directory(sub);
  of(file);
  std::ofstream(file) << "not heard";
  EXPECT_TRUE(of(file).empty());
  signs_.watch({sub});
  std::ofstream(file) << "heard";
  EXPECT_EQ(of(file).back(), What::whole);
  EXPECT_TRUE(of(folder_.write("b.stl", "not heard any more")).empty());
  fs::remove_all(sub);
  of(file);
  fs::create_directory(sub);
  signs_.watch({sub});
  std::ofstream(file) << "again";
  EXPECT_EQ(of(file).back(), What::whole);
}

}  // namespace
}  // namespace swingroom
