#include "core/store/result_store.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <thread>

#include "core/store/shelf_file.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

Digest digestFor(const std::string& text) {
  Hasher hasher;
  hasher.add(text.data(), text.size());
  return hasher.take();
}
const Digest kShelf = digestFor("shelf");

std::string bytesOf(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

fs::path onlyFileIn(const fs::path& folder) {
  const std::vector<fs::path> files(fs::directory_iterator(folder), {});
  EXPECT_EQ(files.size(), 1u);
  return files.at(0);
}

/// Ten records, "0" to "9", in a new folder.
void fill(const fs::path& folder) {
  ResultStore store(folder);
  for (int i = 0; i < 10; ++i) {
    store.keep(kShelf, digestFor(std::to_string(i)), std::string(100, static_cast<char>('0' + i)));
  }
}

/// How many of them are found, each with its very content.
int foundIn(const fs::path& folder) {
  ResultStore store(folder);
  int found = 0;
  for (int i = 0; i < 10; ++i) {
    const auto record = store.find(kShelf, digestFor(std::to_string(i)));
    if (!record) continue;
    EXPECT_EQ(*record, std::string(100, static_cast<char>('0' + i)));
    ++found;
  }
  return found;
}

TEST(ResultStore, InMemoryFindsWhatItKeeps) {
  ResultStore store;
  EXPECT_FALSE(store.find(kShelf, digestFor("a")));
  store.keep(kShelf, digestFor("a"), "one");
  EXPECT_EQ(store.find(kShelf, digestFor("a")), "one");
  EXPECT_FALSE(store.find(kShelf, digestFor("b")));
}

TEST(ResultStore, NextRunFindsWhatThisOneKept) {
  const TempFolder temp;
  const fs::path folder = temp.path() / "made/with/those/above";
  fill(folder);
  EXPECT_EQ(foundIn(folder), 10);
  EXPECT_EQ(fs::status(folder).permissions(), fs::perms::owner_all) << "XDG: for this user only";
}

// A flipped byte spoils the record in which it stands and no other; 10 records, so at least 9 stay.
TEST(ResultStore, DamagedByteCostsOneRecordAndNeverGivesAWrongOne) {
  const TempFolder temp;
  fill(temp.path());
  const fs::path file = onlyFileIn(temp.path());
  const std::string sound = bytesOf(file);
  for (std::size_t i = 0; i < sound.size(); ++i) {
    std::string damaged = sound;
    damaged[i] = static_cast<char>(damaged[i] ^ 0x20);
    std::ofstream(file, std::ios::binary) << damaged;
    EXPECT_EQ(foundIn(temp.path()), 9) << "byte " << i;
  }
}

TEST(ResultStore, FileThatIsCutShortGivesWhatIsWholeAndIsAddedTo) {
  const TempFolder temp;
  fill(temp.path());
  const fs::path file = onlyFileIn(temp.path());
  const auto size = fs::file_size(file);
  for (std::uintmax_t left = 0; left < size; left += 37) {
    fill(temp.path());
    fs::resize_file(file, left);
    const int whole = static_cast<int>(left / (size / 10));
    EXPECT_EQ(foundIn(temp.path()), whole);
    fill(temp.path());
    EXPECT_EQ(foundIn(temp.path()), 10) << "after the torn record";
    fs::remove(file);
  }
}

TEST(ResultStore, ForeignThingsInItsPlaceAreNoRecordsAndNoHarm) {
  const TempFolder temp;
  fill(temp.path());
  const fs::path file = onlyFileIn(temp.path());
  std::ofstream(file, std::ios::binary) << std::string(100'000, '\xF1') << "swr\r\n\x1A\x01";
  EXPECT_EQ(foundIn(temp.path()), 0);
  fs::remove(file);
  fs::create_directory(file);
  EXPECT_EQ(foundIn(temp.path()), 0);
  fill(temp.path());
  fs::remove(file);
  ASSERT_EQ(mkfifo(file.c_str(), 0600), 0);  // Must not wait for a writer.
  EXPECT_EQ(foundIn(temp.path()), 0);
  fill(temp.path());
}

TEST(ResultStore, FolderThatCannotBeWrittenMeansMemoryOnly) {
  const TempFolder temp;
  const fs::path file = temp.write("a file", "");
  ResultStore store(file / "results");  // Holds for root too.
  store.keep(kShelf, digestFor("a"), "one");
  store.save();
  EXPECT_EQ(store.find(kShelf, digestFor("a")), "one");
}

TEST(ResultStore, MemoryStaysBoundedAndHoldsWhatWasUsedLast) {
  StoreBounds bounds;
  bounds.recordsInMemory = 100;
  ResultStore store(std::nullopt, bounds);
  store.keep(kShelf, digestFor("used"), "u");
  int held = 0;
  for (int i = 0; i < 1000; ++i) {
    store.keep(kShelf, digestFor(std::to_string(i)), "x");
    EXPECT_TRUE(store.find(kShelf, digestFor("used"))) << i;
  }
  for (int i = 0; i < 1000; ++i)
    held += store.find(kShelf, digestFor(std::to_string(i))).has_value();
  EXPECT_LE(held, 100);
  EXPECT_GE(held, 49);
}

TEST(ResultStore, ShelfIsCutDownToTheNewestAndWhatThisRunUsed) {
  const TempFolder temp;
  for (int i = 0; i < 3; ++i) fill(temp.path());
  StoreBounds bounds;
  bounds.bytesOfShelf = 4000;
  {
    ResultStore store(temp.path(), bounds);
    EXPECT_TRUE(store.find(kShelf, digestFor("0")));
    for (int i = 10; i < 40; ++i)
      store.keep(kShelf, digestFor(std::to_string(i)), std::string(100, 'n'));
  }
  EXPECT_EQ(foundIn(temp.path()), 1) << "the one that was used";
  ResultStore again(temp.path(), bounds);
  for (int i = 10; i < 40; ++i) EXPECT_TRUE(again.find(kShelf, digestFor(std::to_string(i)))) << i;
}

TEST(ResultStore, DiskStaysBoundedAndOldestShelvesGoFirst) {
  const TempFolder temp;
  StoreBounds bounds;
  bounds.bytesOnDisk = 40'000;
  const auto shelf = [](int i) { return digestFor("shelf " + std::to_string(i)); };
  for (int i = 0; i < 8; ++i) {
    ResultStore store(temp.path(), bounds);
    store.keep(shelf(i), shelf(i), std::string(9'000, 'x'));
    store.save();
    // Each a day older than the next, so that the clock's steps do not matter.
    for (const auto& file : fs::directory_iterator(temp.path())) {
      fs::last_write_time(file, fs::last_write_time(file) - std::chrono::hours(24));
    }
    if (i == 5) {
      ResultStore user(temp.path(), bounds);
      EXPECT_TRUE(user.find(shelf(3), shelf(3)));
    }
  }
  std::uintmax_t bytes = 0;
  for (const auto& file : fs::directory_iterator(temp.path())) bytes += file.file_size();
  EXPECT_LE(bytes, 40'000u);
  ResultStore store(temp.path(), bounds);
  for (const int held : {3, 6, 7}) EXPECT_TRUE(store.find(shelf(held), shelf(held))) << held;
  EXPECT_FALSE(store.find(shelf(0), shelf(0)));
  EXPECT_FALSE(store.find(shelf(4), shelf(4))) << "shelf 3 was used after it";
}

TEST(ResultStore, SeveralProgramsMayWriteOneFolderAtOnce) {
  const TempFolder temp;
  constexpr int kPrograms = 4, kRounds = 50;
  for (int p = 0; p < kPrograms; ++p) {
    if (fork() != 0) continue;
    for (int round = 0; round < kRounds; ++round) {
      ResultStore store(temp.path());
      const std::string name = std::to_string(p) + " " + std::to_string(round);
      store.keep(kShelf, digestFor(name), std::string(1000, static_cast<char>('a' + p)));
    }
    _exit(0);
  }
  for (int p = 0; p < kPrograms; ++p) {
    int status = -1;
    wait(&status);
    EXPECT_EQ(status, 0);
  }
  ResultStore store(temp.path());
  for (int p = 0; p < kPrograms; ++p) {
    for (int round = 0; round < kRounds; ++round) {
      const std::string name = std::to_string(p) + " " + std::to_string(round);
      EXPECT_EQ(store.find(kShelf, digestFor(name)), std::string(1000, static_cast<char>('a' + p)));
    }
  }
}

TEST(ResultStore, SeveralThreadsMayUseIt) {
  const TempFolder temp;
  ResultStore store(temp.path());
  {
    std::vector<std::jthread> threads;
    for (int t = 0; t < 4; ++t) {
      threads.emplace_back([&store, t] {
        for (int i = 0; i < 500; ++i) {
          const Digest key = digestFor(std::to_string(i));
          EXPECT_EQ(store.find(kShelf, key).value_or(std::to_string(i)), std::to_string(i));
          store.keep(kShelf, key, std::to_string(i));
          if (i % 100 == t) store.save();
        }
      });
    }
  }
  EXPECT_EQ(store.find(kShelf, digestFor("499")), "499");
}

TEST(MeshDigests, TellContentApartAndKnowAMeshAgain) {
  TriangleMesh mesh{{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}, {{0, 1, 2}}};
  const Digest digest = digestOf(mesh);
  EXPECT_EQ(digest, digestOf(TriangleMesh(mesh)));
  TriangleMesh other = mesh;
  other.vertices[2].y() = std::nextafter(1.0, 2);
  EXPECT_NE(digest, digestOf(other));
  other = mesh;
  other.triangles[0] = {0, 2, 1};
  EXPECT_NE(digest, digestOf(other));

  MeshDigests digests;
  for (int i = 0; i < 100; ++i) {  // Meshes come and go; addresses are used again.
    mesh.vertices[0].x() = i;
    AssemblyParts parts;
    parts.parts = {
        {"a", PartKind::printed, std::make_shared<const TriangleMesh>(mesh), Pose::Identity()},
        {"b", PartKind::printed, nullptr, Pose::Identity()}};
    const auto found = digests.of(Assembly(parts), 2);
    EXPECT_EQ(found.at(0), digestOf(mesh));
    EXPECT_EQ(found.at(1), Digest{});
  }
}

class UserFolder : public testing::Test {
 protected:
  void TearDown() override {
    set("XDG_CACHE_HOME", cache_);
    set("HOME", home_);
  }
  static std::optional<std::string> valueOf(const char* name) {
    const char* value = std::getenv(name);
    return value ? std::optional<std::string>(value) : std::nullopt;
  }
  static void set(const char* name, const std::optional<std::string>& value) {
    if (value) {
      setenv(name, value->c_str(), 1);
    } else {
      unsetenv(name);
    }
  }

 private:
  std::optional<std::string> cache_ = valueOf("XDG_CACHE_HOME"), home_ = valueOf("HOME");
};

// XDG Base Directory Specification 0.8: unset or empty means $HOME/.cache; relative paths are
// ignored.
TEST_F(UserFolder, IsWhereTheXdgSpecificationSays) {
  set("XDG_CACHE_HOME", "/var/tmp/cache");
  set("HOME", "/home/maker");
  EXPECT_EQ(userResultFolder(), "/var/tmp/cache/swingroom/results");
  for (const std::optional<std::string>& unusable :
       {std::optional<std::string>(), {""}, {"here"}}) {
    set("XDG_CACHE_HOME", unusable);
    EXPECT_EQ(userResultFolder(), "/home/maker/.cache/swingroom/results");
  }
  set("HOME", std::nullopt);
  EXPECT_EQ(userResultFolder(), std::nullopt);
  const auto store = makeUserStore();
  store->keep(kShelf, digestFor("a"), "one");
  EXPECT_EQ(store->find(kShelf, digestFor("a")), "one");
}

}  // namespace
}  // namespace swingroom
