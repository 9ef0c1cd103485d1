// `swingroom watch` as a process, and real saves. The hatch box: three parts of which every gap is
// known in closed form (sample_assemblies/hatch_box/README.md).
#include <gtest/gtest.h>
#include <signal.h>

#include <cstring>
#include <regex>

#include "tests/command/program.h"
#include "tests/command/running_program.h"

namespace swingroom::command {
namespace {

namespace fs = std::filesystem;

class Watch : public ::testing::Test {
 protected:
  Watch() {
    fs::create_directory(folder_ / "box");
    for (const char* name : {"hatch_box.swing.json", "box.stl", "lid.stl", "bolt.stl"}) {
      fs::copy(sample("hatch_box") / name, folder_ / "box" / name);
      fs::last_write_time(folder_ / "box" / name,
                          fs::file_time_type::clock::now() - std::chrono::hours(1));
    }
    file_ = (folder_ / "box" / "hatch_box.swing.json").string();
    lid_ = folder_ / "box" / "lid.stl";
  }
  /// A binary STL with its vertices moved.
  static std::string movedStl(std::string bytes, float x, float y, float z) {
    const float by[3] = {x, y, z};
    for (std::size_t at = 84; at + 50 <= bytes.size(); at += 50) {
      for (std::size_t i = 0; i < 9; ++i) {
        float number = 0;
        std::memcpy(&number, bytes.data() + at + 12 + 4 * i, 4);
        number += by[i % 3];
        std::memcpy(bytes.data() + at + 12 + 4 * i, &number, 4);
      }
    }
    return bytes;
  }
  void saveByRenaming(const fs::path& place, const std::string& bytes) {
    writeText(place.string() + ".tmp", bytes);
    fs::rename(place.string() + ".tmp", place);
  }

  TemporaryFolder folder_;
  std::string file_;
  fs::path lid_;
};

TEST_F(Watch, TellsTheSummaryThenALineForEachSaveUntilItIsInterrupted) {
  RunningProgram watch({"watch", file_}, folder_ / "user");
  ASSERT_TRUE(watch.says("3 clear")) << watch.out() << watch.err();
  const std::string good = readText(lid_);
  const std::size_t summary = watch.out().size();
  // 7 mm into the box: whatever the lid does on its way, it starts in overlap.
  saveByRenaming(lid_, movedStl(good, 0, 0, -7));
  ASSERT_TRUE(watch.says("\n", summary)) << watch.out() << watch.err();
  const std::string line = watch.out().substr(summary);
  EXPECT_TRUE(
      std::regex_search(line, std::regex(R"(^\d\d:\d\d:\d\d lid saved: lid [\d.]+ mm into )")))
      << line;
  EXPECT_NE(line.find(", was "), std::string::npos) << line;
  EXPECT_EQ(std::count(line.begin(), line.end(), '\n'), 1) << line;
  EXPECT_EQ(line.find("\u00a0"), std::string::npos) << "a blank of another kind in a terminal";
  const std::size_t first = watch.out().size();
  writeText(lid_, good);  // In place.
  ASSERT_TRUE(watch.says("\n", first)) << watch.err();
  EXPECT_NE(watch.out().find("solved", first), std::string::npos) << watch.out();
  watch.send(SIGINT);
  EXPECT_EQ(watch.exitCode(), 0);
  EXPECT_EQ(watch.err(), "");
}

TEST_F(Watch, ExitCodeIsThatOfTheLastState) {
  RunningProgram watch({"watch", file_}, folder_ / "user");
  ASSERT_TRUE(watch.says("3 clear"));
  const std::size_t summary = watch.out().size();
  saveByRenaming(lid_, movedStl(readText(lid_), 0, 0, -7));
  ASSERT_TRUE(watch.says("lid saved", summary));
  watch.send(SIGTERM);
  EXPECT_EQ(watch.exitCode(), 1);
}

TEST_F(Watch, AnErrorInTheAssemblyFileIsToldAndTheWatchGoesOn) {
  RunningProgram watch({"watch", file_}, folder_ / "user");
  ASSERT_TRUE(watch.says("3 clear"));
  const std::string good = readText(file_);
  std::string bad = good;
  bad.replace(bad.find("\"type\": \"hinge\""), 15, "\"type\": \"hinje\"");
  saveByRenaming(file_, bad);
  ASSERT_TRUE(watch.saysOnError("hinje")) << watch.err();
  const std::size_t before = watch.out().size();
  std::string stricter = good;
  const std::size_t gap = stricter.find("\"requiredGap\": ");
  ASSERT_NE(gap, std::string::npos);
  stricter.replace(gap, 15, "\"requiredGap\": 9");
  saveByRenaming(file_, stricter);
  ASSERT_TRUE(watch.says("hatch_box.swing.json saved", before)) << watch.out() << watch.err();
  watch.send(SIGINT);
  EXPECT_EQ(watch.exitCode(), 1);
}

TEST_F(Watch, AMeshThatIsCutOffIsToldAfterTheQuietTimeAndTheExitCodeSaysSo) {
  RunningProgram watch({"watch", file_}, folder_ / "user");
  ASSERT_TRUE(watch.says("3 clear"));
  const std::string good = readText(lid_);
  writeText(lid_, good.substr(0, good.size() / 2));
  watch.listen(3000);
  EXPECT_EQ(watch.err(), "") << "it may still be written";
  ASSERT_TRUE(watch.saysOnError("lid.stl")) << watch.err();
  watch.send(SIGINT);
  EXPECT_EQ(watch.exitCode(), 2);
}

TEST_F(Watch, WaitsWithoutWork) {
  RunningProgram watch({"watch", file_}, folder_ / "user");
  ASSERT_TRUE(watch.says("3 clear"));
  watch.listen(500);
  const double before = watch.processorSeconds();
  watch.listen(3000);
  EXPECT_LT(watch.processorSeconds() - before, 0.3) << "of 3 s";
}

TEST_F(Watch, WhatIsNoAssemblyFileEndsItAtOnce) {
  EXPECT_EQ(run({"watch", (folder_ / "gone.swing.json").string()}).exitCode, 2);
  writeText(folder_ / "bad.swing.json", "{");
  const Ran ran = run({"watch", (folder_ / "bad.swing.json").string()});
  EXPECT_EQ(ran.exitCode, 2);
  EXPECT_NE(ran.err.find("bad.swing.json"), std::string::npos);
}

TEST_F(Watch, ChecksAreInTheLogUnlessItIsLeftOut) {
  const auto logs = [&] {
    std::size_t count = 0;
    const fs::path history = folder_ / "user" / "data" / "swingroom" / "history";
    if (!fs::exists(history)) return count;
    for (const auto& entry : fs::directory_iterator(history)) {
      count += entry.path().extension() == ".history";
    }
    return count;
  };
  for (const bool kept : {false, true}) {
    std::vector<std::string> words{"watch", file_};
    if (!kept) words.push_back("--no-history");
    RunningProgram watch(words, folder_ / "user");
    ASSERT_TRUE(watch.says("3 clear"));
    watch.send(SIGINT);
    EXPECT_EQ(watch.exitCode(), 0);
    EXPECT_EQ(logs(), kept ? 1u : 0u);
  }
}

}  // namespace
}  // namespace swingroom::command
