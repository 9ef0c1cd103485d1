// Results kept from earlier runs change nothing but the time: whatever is in the cache folder, the
// files that `check` writes are the bytes that it writes without it.
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <random>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

namespace fs = std::filesystem;

std::string fileOf(const std::string& name) {
  return sample(name + "/" + name + ".swing.json").string();
}

std::vector<std::string> checkWords(const std::string& file, const fs::path& json,
                                    const fs::path& csv) {
  return {"check", file, "--json", json.string(), "--csv", csv.string()};
}

/// What a run wrote and said.
struct Written {
  int exitCode = -1;
  std::string out, err, json, csv;

  bool operator==(const Written&) const = default;
};

Written check(const std::string& file, const fs::path& cache,
              const std::vector<std::string>& more = {}) {
  const TemporaryFolder folder;
  auto words = checkWords(file, folder / "report.json", folder / "pairs.csv");
  words.insert(words.end(), more.begin(), more.end());
  const Ran ran = run(words, cache);
  return {ran.exitCode, ran.out, ran.err, readText(folder / "report.json"),
          readText(folder / "pairs.csv")};
}

/// Every file in the cache with its bytes.
std::map<std::string, std::string> contentOf(const fs::path& cache) {
  std::map<std::string, std::string> content;
  for (const auto& entry : fs::recursive_directory_iterator(cache)) {
    if (entry.is_regular_file()) content[entry.path().string()] = readText(entry.path());
  }
  return content;
}

class KeptResults : public testing::TestWithParam<const char*> {
 protected:
  const std::string file_ = fileOf(GetParam());
  const TemporaryFolder folder_;
  const fs::path cache_ = folder_ / "cache";
  const Written& expected_ = withoutCache(file_);

 private:
  /// Once for each sample.
  static const Written& withoutCache(const std::string& file) {
    static std::map<std::string, Written> known;
    const TemporaryFolder folder;
    const auto [entry, isNew] = known.try_emplace(file);
    if (isNew) entry->second = check(file, folder / "none", {"--no-cache"});
    EXPECT_FALSE(fs::exists(folder / "none")) << "--no-cache keeps nothing";
    return entry->second;
  }
};
INSTANTIATE_TEST_SUITE_P(Samples, KeptResults, testing::Values("hatch_box", "folding_lamp"));

TEST_P(KeptResults, GiveTheSameBytesColdWarmDamagedAndReadOnly) {
  EXPECT_EQ(expected_.exitCode, 0) << expected_.err;
  EXPECT_FALSE(expected_.json.empty());
  EXPECT_EQ(check(file_, cache_), expected_) << "cold";
  const auto kept = contentOf(cache_);
  ASSERT_FALSE(kept.empty());
  EXPECT_EQ(check(file_, cache_), expected_) << "warm";
  EXPECT_EQ(contentOf(cache_), kept) << "a warm run had nothing to add";

  std::mt19937 random(7);
  for (const auto& [name, bytes] : kept) {
    std::string damaged = bytes;
    for (std::size_t i = 0; i < damaged.size(); i += 400)
      damaged[random() % damaged.size()] ^= 0x11;
    writeText(name, damaged.substr(0, damaged.size() - 5));
  }
  EXPECT_EQ(check(file_, cache_), expected_) << "damaged";
  EXPECT_EQ(check(file_, cache_), expected_) << "mended";

  for (const auto& [name, bytes] : kept) {
    fs::remove(name);
    fs::create_directory(name);  // Cannot be read or written by anybody, root included.
  }
  EXPECT_EQ(check(file_, cache_), expected_) << "nothing can be read or written";
  fs::remove_all(cache_);
  writeText(cache_, "a file where the folder should be");
  EXPECT_EQ(check(file_, cache_), expected_);
}

TEST_P(KeptResults, ReadOnlyFolderServesAndStaysAsItIs) {
  EXPECT_EQ(check(file_, cache_), expected_);
  const auto kept = contentOf(cache_);
  for (const auto& entry : fs::recursive_directory_iterator(cache_)) {
    if (entry.is_regular_file()) fs::permissions(entry.path(), fs::perms::owner_read);
  }
  for (const auto& entry : fs::recursive_directory_iterator(cache_)) {
    if (entry.is_directory())
      fs::permissions(entry.path(), fs::perms::owner_read | fs::perms::owner_exec);
  }
  EXPECT_EQ(check(file_, cache_), expected_);
  EXPECT_EQ(contentOf(cache_), kept);
  for (const auto& entry : fs::recursive_directory_iterator(cache_)) {
    if (entry.is_directory()) fs::permissions(entry.path(), fs::perms::owner_all);
  }
}

TEST_P(KeptResults, TwoRunsAtOnceOnOneEmptyFolderBothGiveThem) {
  std::string line;
  for (const char* run : {"1", "2"}) {
    const std::string name = run;
    line += "(" +
            shellLine(checkWords(file_, folder_ / (name + ".json"), folder_ / (name + ".csv")),
                      cache_) +
            " >/dev/null 2>&1 </dev/null) & ";
  }
  ASSERT_EQ(std::system((line + "wait").c_str()), 0);
  for (const char* run : {"1", "2"}) {
    EXPECT_EQ(readText(folder_ / (std::string(run) + ".json")), expected_.json);
    EXPECT_EQ(readText(folder_ / (std::string(run) + ".csv")), expected_.csv);
  }
  const auto kept = contentOf(cache_);
  EXPECT_EQ(check(file_, cache_), expected_);
  EXPECT_EQ(contentOf(cache_), kept) << "everything was known";
}

/// Two cubes of 1 mm, `apart` mm of gap between them.
void writeCubes(const fs::path& file, double apart) {
  writeText(file.parent_path() / "cube.obj",
            "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nv 0 0 1\nv 1 0 1\nv 1 1 1\nv 0 1 1\n"
            "f 1 4 3\nf 1 3 2\nf 5 6 7\nf 5 7 8\nf 1 2 6\nf 1 6 5\nf 2 3 7\nf 2 7 6\nf 3 4 8\nf 3 "
            "8 7\nf 4 1 5\nf 4 5 8\n");
  writeText(file, R"({"swingroom": 1, "requiredGap": 0.3,
    "parts": [{"name": "left", "stages": {"block": "cube.obj"}},
              {"name": "right", "stages": {"block": "cube.obj"},
               "placement": {"at": [)" +
                      std::to_string(1 + apart) + R"(, 0, 0], "turn": [1, 0, 0, 0]}}],
    "modes": [{"name": "whole", "values": {}}]})");
}

// Figures are closed forms: the gap that was written.
TEST(KeptResultsOfAnEdit, AreNotTakenForThoseOfTheEditedAssembly) {
  const TemporaryFolder folder;
  const auto file = folder / "cubes.swing.json";
  const fs::path cache = folder / "cache";
  writeCubes(file, 0.5);
  EXPECT_EQ(check(file.string(), cache).exitCode, 0);
  writeCubes(file, 0.1);
  const Written tight = check(file.string(), cache);
  EXPECT_EQ(tight.exitCode, 1);
  EXPECT_NE(tight.out.find("tight    left and right"), std::string::npos) << tight.out;
  // The part file itself: a corner nearer by 0.15.
  writeCubes(file, 0.5);
  EXPECT_EQ(check(file.string(), cache).exitCode, 0);
  std::string mesh = readText(folder / "cube.obj");
  mesh.replace(mesh.find("v 1 1 1"), 7, "v 1.25 1 1");
  writeText(folder / "cube.obj", mesh);
  EXPECT_EQ(check(file.string(), cache).exitCode, 1);
}

// A stored record is what a warm run says: so that the tests above cannot pass by never reading
// any.
TEST(KeptResultsOfAnEdit, AreReadAgainInACopyElsewhereWithoutAddingAny) {
  const TemporaryFolder folder, other;
  const fs::path cache = folder / "cache";
  writeCubes(folder / "cubes.swing.json", 0.5);
  writeCubes(other / "copy.swing.json", 0.5);
  check((folder / "cubes.swing.json").string(), cache);
  const auto kept = contentOf(cache);
  ASSERT_EQ(kept.size(), 1u);
  EXPECT_EQ(check((other / "copy.swing.json").string(), cache).exitCode, 0);
  EXPECT_EQ(contentOf(cache), kept);
  writeCubes(other / "copy.swing.json", 0.4);
  EXPECT_EQ(check((other / "copy.swing.json").string(), cache).exitCode, 0);
  EXPECT_GT(contentOf(cache).begin()->second.size(), kept.begin()->second.size());
}

TEST(KeptResultsOfAnEdit, WithoutAHomeTheCheckGoesOn) {
  const TemporaryFolder folder;
  writeCubes(folder / "cubes.swing.json", 0.5);
  // An empty XDG_CACHE_HOME counts as none.
  const std::string line =
      "env -u HOME " + shellLine({"check", (folder / "cubes.swing.json").string()}, "");
  EXPECT_EQ(std::system((line + " >/dev/null 2>&1").c_str()), 0) << line;
}

}  // namespace
}  // namespace swingroom::command
