// The log of checks: what is kept, its bounds, damage, and several programs at once.
#include "core/history/check_log.h"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <sstream>

#include "core/files/held_file.h"
#include "core/history/log_line.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

/// A check of parts a, b, c: a and b at `gapMm`, the others far.
CheckFigures figuresWith(double gapMm, Verdict verdict = Verdict::clear) {
  const auto pair = [](const char* a, const char* b) {
    PairFigure figure;
    figure.a = a, figure.b = b;
    figure.verdict = Verdict::clear;
    figure.lowerMm = 1.8;  // What is required of far pairs is not kept.
    return figure;
  };
  CheckFigures figures{"figure", 0.01, {{"stand up", "tug", "deckhand", {}}}};
  figures.ways[0].pairs = {pair("a", "b"), pair("a", "c"), pair("b", "c")};
  PairFigure& near = figures.ways[0].pairs[0];
  near.verdict = verdict;
  near.requiredMm = 0.3;
  near.lowerMm = gapMm, near.upperMm = gapMm + 0.01;
  near.instant = 0.5, near.step = "head \"up\"", near.stepNumber = 4;
  return figures;
}

LoggedCheck checkWith(double gapMm, Verdict verdict = Verdict::clear) {
  LoggedCheck check;
  check.when = 1'700'000'000;
  check.by = "window";
  check.files = {"a.stl"}, check.parts = {"a"}, check.edits = {"Move a joint"};
  check.put(figuresWith(gapMm, verdict));
  return check;
}

std::string bytesIn(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

class Log : public ::testing::Test {
 protected:
  TempFolder folder_;
  fs::path assembly_ = folder_.write("tug.swing.json", "{}");
  CheckLog log_{folder_.path() / "data" / "history"};
};

TEST_F(Log, KeepsWhatItWasGivenOldestFirst) {
  EXPECT_TRUE(log_.read(assembly_).empty());
  ASSERT_TRUE(log_.add(assembly_, checkWith(0.5)));
  ASSERT_TRUE(log_.add(assembly_, checkWith(0.1, Verdict::tight)));
  const auto checks = log_.read(assembly_);
  ASSERT_EQ(checks.size(), 2u);
  EXPECT_EQ(checks[0].whole(), figuresWith(0.5));
  EXPECT_EQ(checks[1].whole(), figuresWith(0.1, Verdict::tight));
  EXPECT_EQ(checks[1].files, std::vector<std::string>{"a.stl"});
  EXPECT_EQ(checks[1].edits, std::vector<std::string>{"Move a joint"});
  EXPECT_EQ(checks[1].when, 1'700'000'000);
  EXPECT_EQ(checks[1].counts, (std::array<std::size_t, 6>{0, 1, 0, 0, 2, 0}));
}

TEST_F(Log, TellsWhatTurnedSinceTheCheckBefore) {
  log_.add(assembly_, checkWith(0.5));
  log_.add(assembly_, checkWith(0.1, Verdict::tight));
  log_.add(assembly_, checkWith(0.6));
  log_.add(assembly_, checkWith(0.4));
  const auto checks = log_.read(assembly_);
  ASSERT_EQ(checks.size(), 4u);
  EXPECT_TRUE(checks[0].turns.empty());
  const auto turn = [](Change change) {
    return std::vector<LoggedTurn>{{change, "a", "b", "stand up"}};
  };
  EXPECT_EQ(checks[1].turns, turn(Change::newFinding));
  EXPECT_EQ(checks[2].turns, turn(Change::solved));
  EXPECT_EQ(checks[3].turns, turn(Change::shrank));
}

TEST_F(Log, ACheckThatSaysNothingNewIsNotAdded) {
  LoggedCheck again = checkWith(0.5);
  again.files.clear(), again.parts.clear(), again.edits.clear();
  log_.add(assembly_, checkWith(0.5));
  EXPECT_TRUE(log_.add(assembly_, again));
  EXPECT_EQ(log_.read(assembly_).size(), 1u);
  EXPECT_TRUE(log_.add(assembly_, checkWith(0.5))) << "a file was saved";
  EXPECT_EQ(log_.read(assembly_).size(), 2u);
}

TEST_F(Log, EachFileHasItsOwnAndALinkHasThatOfItsFile) {
  const fs::path other = folder_.write("other.swing.json", "{}");
  const fs::path link = folder_.path() / "link.swing.json";
  fs::create_symlink(assembly_, link);
  log_.add(assembly_, checkWith(0.5));
  EXPECT_TRUE(log_.read(other).empty());
  EXPECT_EQ(log_.read(link).size(), 1u);
}

TEST_F(Log, HoldsNothingPrivateBeyondNamesAndFigures) {
  LoggedCheck check = checkWith(0.5);
  log_.add(assembly_, check);
  const std::string bytes = bytesIn(log_.fileOf(assembly_));
  EXPECT_EQ(bytes.find(folder_.path().string()), std::string::npos) << bytes;
  EXPECT_EQ(log_.fileOf(assembly_).string().find("tug"), std::string::npos);
}

TEST_F(Log, IsBoundedInChecksAndBytesTheOldestGoFirst) {
  CheckLog small(folder_.path() / "small", {5, 1u << 20, 1u << 20});
  for (int i = 0; i < 12; ++i) small.add(assembly_, checkWith(0.4 + 0.01 * i));
  auto checks = small.read(assembly_);
  ASSERT_EQ(checks.size(), 5u);
  EXPECT_EQ(checks.back().whole(), figuresWith(0.4 + 0.01 * 11));
  const std::size_t one = toLogLine(checkWith(0.4)).size();
  CheckLog tiny(folder_.path() / "tiny", {300, 4 * one, 1u << 20});
  for (int i = 0; i < 12; ++i) tiny.add(assembly_, checkWith(0.4 + 0.01 * i));
  checks = tiny.read(assembly_);
  EXPECT_GE(checks.size(), 2u);
  EXPECT_LE(checks.size(), 4u);
  EXPECT_EQ(checks.back().whole(), figuresWith(0.4 + 0.01 * 11));
  EXPECT_LE(fs::file_size(tiny.fileOf(assembly_)), 5 * one);
}

TEST_F(Log, LogsNotAddedToForLongestGoWhenAllTakeTooMuch) {
  const std::size_t one = toLogLine(checkWith(0.4)).size();
  CheckLog few(folder_.path() / "few", {300, 1u << 20, 4 * one});
  std::vector<fs::path> files;
  for (int i = 0; i < 8; ++i) {
    files.push_back(folder_.write(std::to_string(i) + ".swing.json", "{}"));
    few.add(files.back(), checkWith(0.4));
    fs::last_write_time(few.fileOf(files.back()),
                        fs::file_time_type::clock::now() - std::chrono::minutes(100 - i));
  }
  few.add(files.back(), checkWith(0.5));
  EXPECT_TRUE(few.read(files.front()).empty());
  EXPECT_EQ(few.read(files.back()).size(), 2u);
}

TEST_F(Log, ADamagedLogIsSetAsideAndWhatCanBeReadStays) {
  log_.add(assembly_, checkWith(0.5));
  log_.add(assembly_, checkWith(0.6));
  const fs::path file = log_.fileOf(assembly_);
  const std::string good = bytesIn(file);
  std::ofstream(file, std::ios::binary) << good.substr(0, good.size() - 40);
  EXPECT_EQ(log_.read(assembly_).size(), 1u);
  EXPECT_TRUE(log_.add(assembly_, checkWith(0.7)));
  EXPECT_EQ(log_.read(assembly_).size(), 2u);
  EXPECT_EQ(bytesIn(file.string() + ".damaged"), good.substr(0, good.size() - 40));
  std::ofstream(file, std::ios::binary) << std::string("\0\1\2 no log at all \n{}", 20);
  EXPECT_TRUE(log_.read(assembly_).empty());
  EXPECT_TRUE(log_.add(assembly_, checkWith(0.8)));
  EXPECT_EQ(log_.read(assembly_).size(), 1u);
}

TEST_F(Log, EveryCutOfALineIsNoLineAndNothingThrows) {
  const std::string line = toLogLine(checkWith(0.5));
  ASSERT_EQ(fromLogLine(line), checkWith(0.5));
  for (std::size_t size = 0; size < line.size(); ++size) {
    EXPECT_FALSE(fromLogLine(line.substr(0, size)).has_value()) << size;
  }
  EXPECT_FALSE(fromLogLine(R"({"when": "yesterday"})").has_value());
}

TEST_F(Log, AFolderThatCannotBeWrittenIsNoError) {
  const fs::path blocked = folder_.write("blocked", "a file where a folder should be");
  CheckLog log(blocked / "history");
  EXPECT_FALSE(log.add(assembly_, checkWith(0.5)));
  EXPECT_TRUE(log.read(assembly_).empty());
  EXPECT_EQ(log.bytesOnDisk(), 0u);
}

TEST_F(Log, TwoProgramsAtOnceLoseNoCheck) {
  constexpr int kEach = 15;
  std::vector<pid_t> children;
  for (int child = 0; child < 2; ++child) {
    const pid_t pid = fork();
    ASSERT_GE(pid, 0);
    if (pid == 0) {
      bool all = true;
      for (int i = 0; i < kEach; ++i) {
        LoggedCheck check = checkWith(0.4 + 0.001 * i);
        check.by = child == 0 ? "one" : "other";
        all = log_.add(assembly_, check) && all;
      }
      _exit(all ? 0 : 1);
    }
    children.push_back(pid);
  }
  for (const pid_t child : children) {
    int status = 0;
    waitpid(child, &status, 0);
    EXPECT_EQ(status, 0);
  }
  int one = 0;
  const auto checks = log_.read(assembly_);
  for (const LoggedCheck& check : checks) one += check.by == "one";
  EXPECT_EQ(checks.size(), 2u * kEach);
  EXPECT_EQ(one, kEach);
}

TEST_F(Log, EmptiedItHasNothing) {
  log_.add(assembly_, checkWith(0.5));
  EXPECT_GT(log_.bytesOnDisk(), 0u);
  log_.clear();
  EXPECT_TRUE(log_.read(assembly_).empty());
  EXPECT_EQ(log_.bytesOnDisk(), 0u);
}

}  // namespace
}  // namespace swingroom
