#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cerrno>
#include <chrono>
#include <cmath>
#include <iterator>
#include <limits>

#include "core/files/mesh_file.h"
#include "core/files/printable.h"
#include "core/files/reader_protocol.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

// The reader program is outside data too: scripts stand in for one that hangs, dies or talks
// nonsense.

namespace swingroom {
namespace {

using std::chrono::milliseconds;

/// What reading a sound file with this script in the reader's place says.
std::string saidBy(const std::string& script, milliseconds time = milliseconds(10'000)) {
  const TempFolder folder;
  const auto file = folder.write("lid.stl", writers::binaryStl(shapes::box({0, 0, 0}, {1, 2, 3})));
  ReadLimits limits;
  limits.time = time;
  const MeshReader reader(folder.writeProgram("reader.sh", "#!/bin/sh\n" + script + "\n"), limits);
  const auto outcome = reader.read(file);
  if (outcome.ok()) return "a mesh";
  EXPECT_EQ(outcome.problems().size(), 1u);
  EXPECT_EQ(outcome.problems()[0].where, file.string());
  return outcome.problems()[0].what;
}

const char* const kCrashed = "the reader crashed on it";

TEST(MeshReaderChild, ThatHangsIsEndedAtTheTimeLimit) {
  const auto start = std::chrono::steady_clock::now();
  EXPECT_EQ(saidBy("exec sleep 60", milliseconds(300)), "took longer than 0.3 s to read");
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(30));
}

TEST(MeshReaderChild, ThatClosesItsOutputAndHangsIsEndedToo) {
  EXPECT_EQ(saidBy("exec sleep 60 >&-", milliseconds(300)), "took longer than 0.3 s to read");
}

TEST(MeshReaderChild, ThatTalksNonsenseIsACrash) {
  EXPECT_EQ(saidBy("echo this is not at all what was asked for"), kCrashed);
  EXPECT_EQ(saidBy("echo short"), kCrashed);
  EXPECT_EQ(saidBy("exec yes"), kCrashed);
  EXPECT_EQ(saidBy("exit 0"), kCrashed);
  EXPECT_EQ(saidBy("exit 3"), kCrashed);
}

TEST(MeshReaderChild, ThatStopsWithinItsAnswerIsACrash) {
  EXPECT_EQ(saidBy(R"(printf 'SWRMESH1\100\0\0\0\0\0\0\0\1abc')"), kCrashed);
}

TEST(MeshReaderChild, ThatClaimsAnAnswerBeyondAllMemoryIsACrash) {
  EXPECT_EQ(saidBy(R"(printf 'SWRMESH1\0\0\0\0\0\0\0\100'; exec sleep 60)"), kCrashed);
}

TEST(MeshReaderChild, ThatDiesByASignalIsExplained) {
  EXPECT_EQ(saidBy("kill -SEGV $$"), kCrashed);
  EXPECT_EQ(saidBy("kill -ABRT $$"), kCrashed);
  EXPECT_EQ(saidBy("kill -KILL $$"), "needed more memory to read than the machine has");
  EXPECT_EQ(saidBy("kill -XCPU $$"), "took longer than 10 s to read");
}

TEST(MeshReaderChild, AnswerIsNotBelievedIfItDiesAfterwards) {
  const TempFolder folder;
  MeshFile sound{shapes::box({0, 0, 0}, {1, 1, 1}), "mm", false, {}, {}};
  const auto answer = folder.write("answer", reader_protocol::encode(sound));
  EXPECT_EQ(saidBy("cat " + answer.string()), "a mesh");
  EXPECT_EQ(saidBy("cat " + answer.string() + "; kill -SEGV $$"), kCrashed);
  EXPECT_EQ(saidBy("cat " + answer.string() + "; exit 1"), kCrashed);
}

TEST(MeshReaderChild, ThatIsNotInstalledIsNamed) {
  const TempFolder folder;
  const auto file = folder.write("lid.stl", writers::binaryStl(shapes::box({0, 0, 0}, {1, 2, 3})));
  const auto program = folder.path() / "nowhere";
  const auto outcome = MeshReader(program).read(file);
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.problems()[0].where, program.string());
  EXPECT_NE(outcome.problems()[0].what.find("cannot be started"), std::string::npos);
}

TEST(MeshReaderChild, IsNotAskedForAFileAboveTheSizeLimit) {
  const TempFolder folder;
  const auto file = folder.write("lid.stl", std::string(3 << 20, 'x'));
  ReadLimits limits;
  limits.fileBytes = 2 << 20;
  const auto outcome = MeshReader(folder.path() / "nowhere", limits).read(file);
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.problems()[0].what, "has 3 MB, more than the limit of 2 MB");
}

TEST(MeshReaderChild, StaysWithinItsMemoryLimit) {
#if defined(SWINGROOM_SANITIZED)
  GTEST_SKIP() << "the sanitizers need more addresses than any limit";
#endif
  const TempFolder folder;
  const auto file = folder.write("ball.stl", writers::binaryStl(shapes::sphere(10, 7)));  // 16 MB
  ReadLimits limits;
  limits.memoryBytes = 64 << 20;
  const auto program = MeshReader::besideThisProgram();
  EXPECT_TRUE(program.read(file).ok());
  const auto outcome = MeshReader::besideThisProgram(limits).read(file);
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.problems()[0].where, file.string());
  EXPECT_EQ(outcome.problems()[0].what, "needs more memory to read than is allowed");
}

std::size_t openDescriptors() {
  using Iterator = std::filesystem::directory_iterator;
  return static_cast<std::size_t>(std::distance(Iterator("/proc/self/fd"), Iterator()));
}

TEST(MeshReaderChild, LeavesNoDescriptorAndNoZombie) {
  const TempFolder folder;
  const auto file = folder.write("lid.stl", writers::binaryStl(shapes::box({0, 0, 0}, {1, 2, 3})));
  const auto bad = folder.write("bad.stl", "x");
  const std::size_t before = openDescriptors();
  const MeshReader reader = MeshReader::besideThisProgram();
  for (int i = 0; i < 5; ++i) {
    EXPECT_TRUE(reader.read(file).ok());
    EXPECT_FALSE(reader.read(bad).ok());
    EXPECT_FALSE(MeshReader(folder.path() / "nowhere").read(file).ok());
    saidBy("exec sleep 60", milliseconds(20));
    saidBy("exec yes");
    saidBy("kill -SEGV $$");
  }
  EXPECT_EQ(openDescriptors(), before);
  EXPECT_EQ(waitpid(-1, nullptr, WNOHANG), -1);
  EXPECT_EQ(errno, ECHILD);
}

MeshFile sample() {
  return {shapes::box({0, 0, 0}, {1, 2, 3}), "inch", true, "#FF8000", {"lid", "pin"}};
}

std::string bodyOf(const Outcome<MeshFile>& outcome) {
  const std::string bytes = reader_protocol::encode(outcome);
  EXPECT_EQ(reader_protocol::bodyBytes(bytes.substr(0, reader_protocol::kHeadBytes)),
            bytes.size() - reader_protocol::kHeadBytes);
  return bytes.substr(reader_protocol::kHeadBytes);
}

TEST(ReaderProtocol, CarriesAMeshAndItsProperties) {
  const auto decoded = reader_protocol::decode(bodyOf(sample()));
  ASSERT_TRUE(decoded && decoded->ok());
  EXPECT_EQ((*decoded)->mesh, sample().mesh);
  EXPECT_EQ((*decoded)->unit, "inch");
  EXPECT_TRUE((*decoded)->unitAssumed);
  EXPECT_EQ((*decoded)->colour, "#FF8000");
  EXPECT_EQ((*decoded)->objects, sample().objects);
}

TEST(ReaderProtocol, CarriesProblems) {
  const Problems problems = {{"triangle 812", "has no area", "repair the mesh"},
                             {"", "is empty", ""}};
  const auto decoded = reader_protocol::decode(bodyOf(problems));
  ASSERT_TRUE(decoded && !decoded->ok());
  EXPECT_EQ(decoded->problems(), problems);
}

TEST(ReaderProtocol, RefusesEveryCutOffBody) {
  for (const std::string& body : {bodyOf(sample()), bodyOf(Problem{"a", "b", "c"})}) {
    for (std::size_t size = 0; size < body.size(); ++size) {
      EXPECT_FALSE(reader_protocol::decode(std::string_view(body).substr(0, size))) << size;
    }
    EXPECT_FALSE(reader_protocol::decode(body + "x"));
  }
}

TEST(ReaderProtocol, RefusesMeshesThatNobodyMayUse) {
  MeshFile outOfRange = sample();
  outOfRange.mesh.triangles[0][0] = 8;
  MeshFile notFinite = sample();
  notFinite.mesh.vertices[3].y() = std::numeric_limits<double>::quiet_NaN();
  MeshFile empty = sample();
  empty.mesh.triangles.clear();
  for (const MeshFile& bad : {outOfRange, notFinite, empty}) {
    EXPECT_FALSE(reader_protocol::decode(bodyOf(bad)));
  }
}

// Unicode 15.0, table 3-7: well-formed UTF-8.
TEST(Printable, KeepsTextAndReplacesWhatIsNone) {
  EXPECT_EQ(printable("d'été 車 🙂"), "d'été 車 🙂");
  EXPECT_EQ(printable("a\nb\x01\x7F"), "a?b??");
  EXPECT_EQ(printable("\xC3(\xC0\xAF\xED\xA0\x80\xF5"), "?(??????");
  EXPECT_EQ(printable("\xE2\x82"), "??");
  EXPECT_EQ(printable("abcdef", 3), "abc...");
  EXPECT_EQ(printable("ab\xC3\xA9", 3), "ab...");
}

}  // namespace
}  // namespace swingroom
