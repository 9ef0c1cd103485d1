// STEP files that are damaged, through the reader program: one clear sentence or parts that may be
// used, never a crash or a hang of ours.
#include <gtest/gtest.h>

#include <BRepAlgoAPI_Cut.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <cstdlib>
#include <iostream>
#include <map>
#include <mutex>
#include <random>

#include "core/base/parallel.h"
#include "core/files/mesh_file.h"
#include "core/mesh/health.h"
#include "tests/core/files/step/step_author.h"
#include "tests/support/temp_folder.h"

namespace swingroom::step_tests {
namespace {

constexpr std::uint64_t kDamageSeed = 20261126;

/// A small assembly: a drilled block and a pin that is placed twice.
std::string soundBytes() {
  StepAuthor author;
  const TDF_Label figure = author.assembly("figure");
  const TopoDS_Shape block =
      BRepAlgoAPI_Cut(BRepPrimAPI_MakeBox(10, 10, 10),
                      BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(5, 5, -1), gp_Dir(0, 0, 1)), 2, 12));
  author.place(figure, author.product(block, "block", "#D55E00"), turnedAndMoved(0, 0, 0, 0));
  const TDF_Label pin = author.product(BRepPrimAPI_MakeCylinder(1.9, 12), "pin");
  author.place(figure, pin, turnedAndMoved(0, 5, 5, -1));
  author.place(figure, pin, turnedAndMoved(0.3, 25, 5, -1));
  return author.bytes();
}

void expectRefused(const std::string& bytes, const std::string& what) {
  SCOPED_TRACE(what);
  const TempFolder folder;
  const auto file = folder.write("figure.step", bytes);
  const auto outcome = MeshReader::besideThisProgram().read(file);
  ASSERT_FALSE(outcome.ok());
  ASSERT_EQ(outcome.problems().size(), 1u);
  EXPECT_EQ(outcome.problems()[0].where.rfind(file.string(), 0), 0u);
  EXPECT_NE(outcome.problems()[0].what.find(what), std::string::npos)
      << toText(outcome.problems()[0]);
  EXPECT_FALSE(outcome.problems()[0].hint.empty());
}

TEST(BadStepFiles, EachIsToldInOneSentence) {
  const std::string sound = soundBytes();
  expectRefused("", "is empty");
  expectRefused("PK\3\4rest", "a zip archive");
  expectRefused("solid lid\nendsolid lid\n", "is not STEP in spite of its ending");
  expectRefused(std::string(5000, '\0'), "is not STEP in spite of its ending");
  expectRefused(sound.substr(0, sound.size() / 2), "it is cut off");
  expectRefused("ISO-10303-21;\nEND-ISO-10303-21;\n", "has no data in it");
  expectRefused("ISO-10303-21;\nHEADER;\nENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n",
                "cannot be understood as STEP");
  expectRefused("ISO-10303-21;\nHEADER;\nENDSEC;\nDATA;\n#1=)))(((;\nENDSEC;\nEND-ISO-10303-21;\n",
                "");
  // All but the solids.
  std::string bodyless = sound;
  for (std::size_t at; (at = bodyless.find("MANIFOLD_SOLID_BREP")) != std::string::npos;) {
    bodyless.replace(at, 19, "MANIFOLD_FLUID_BREP");
  }
  expectRefused(bodyless, "2 records in it could not be understood");
  // A place that is a text; a radius like the way to the next star, mm.
  expectRefused(replacedIn(stepOf(BRepPrimAPI_MakeCylinder(1.9375, 12)), "CYLINDRICAL_SURFACE('',#",
                           "CYLINDRICAL_SURFACE('',#9"),
                "could not be understood");
  std::string astronomic = stepOf(BRepPrimAPI_MakeBox(10, 10, 1234));
  for (std::size_t at; (at = astronomic.find("1.234E+03")) != std::string::npos;) {
    astronomic.replace(at, 9, "1.234E+19");
  }
  expectRefused(astronomic, "is longer than 100 m");
}

TEST(BadStepFiles, NestedClaimOfAMillionBodiesIsRefused) {
  StepAuthor author;
  TDF_Label inner = author.product(BRepPrimAPI_MakeBox(1, 1, 1), "grain");
  for (int level = 0; level < 4; ++level) {
    const TDF_Label outer = author.assembly("level");
    for (int i = 0; i < 10; ++i) author.place(outer, inner, turnedAndMoved(0, 2.0 * i, level, 0));
    inner = outer;
  }
  expectRefused(author.bytes(), "stands for more than 5000 bodies");
}

TEST(BadStepFiles, SoundOneIsRead) {
  const TempFolder folder;
  const auto outcome =
      MeshReader::besideThisProgram().read(folder.write("figure.step", soundBytes()));
  ASSERT_TRUE(outcome.ok()) << toText(outcome.problems()[0]);
  EXPECT_EQ(outcome.value().objects, (std::vector<std::string>{"block", "pin", "pin 2"}));
  EXPECT_TRUE(examine(outcome.value().mesh).closed());
}

/// Damages of a text that stays a text: records lost, doubled, mixed up, numbers and references
/// that are others; and of bytes.
class Damager {
 public:
  explicit Damager(std::uint64_t seed) : random_(seed) {}

  std::string damaged(std::string bytes) {
    for (std::size_t i = 1 + below(3); i > 0; --i) damage(bytes);
    return bytes;
  }

 private:
  std::size_t below(std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random_);
  }

  /// From one record's start to the next one's.
  std::pair<std::size_t, std::size_t> record(const std::string& bytes) {
    const std::size_t data = bytes.find("DATA;");
    if (data == std::string::npos) return {0, 1};
    const std::size_t from = bytes.find("\n#", data + below(bytes.size() - data));
    if (from == std::string::npos) return {data, data + 1};
    const std::size_t to = bytes.find("\n#", from + 1);
    return {from, to == std::string::npos ? from + 1 : to};
  }

  /// The number at or after a random place, signs and point as well.
  std::pair<std::size_t, std::size_t> number(const std::string& bytes) {
    const std::size_t from = bytes.find_first_of("0123456789", below(bytes.size()));
    if (from == std::string::npos) return {0, 0};
    const std::size_t to = bytes.find_first_not_of("0123456789.E", from);
    return {from, (to == std::string::npos ? bytes.size() : to) - from};
  }

  void damage(std::string& bytes) {
    const auto [from, to] = record(bytes);
    const auto [at, length] = number(bytes);
    static const char* const kNumbers[] = {"0.",   "1.E300", "-1.E300", "1.E-300", "99999999999",
                                           "-5.", "0.5",    "17",      "NaN",     "$"};
    switch (below(6)) {
      case 0:
        bytes.erase(from, to - from);
        break;
      case 1:
        bytes.insert(record(bytes).first, bytes.substr(from, to - from));
        break;
      case 2:
      case 3:
        bytes.replace(at, length, kNumbers[below(std::size(kNumbers))]);
        break;
      case 4:
        bytes.replace(at, length, std::to_string(1 + below(400)));
        break;
      default:
        for (std::size_t i = 1 + below(4); i > 0; --i) {
          bytes[below(bytes.size())] = static_cast<char>(below(256));
        }
    }
  }

  std::mt19937_64 random_;
};

std::string judged(const Outcome<MeshFile>& outcome) {
  if (outcome.ok()) {
    examine(outcome.value().mesh);  // Throws if an index is out of range.
    return "read";
  }
  EXPECT_EQ(outcome.problems().size(), 1u);
  const std::string& what = outcome.problems().front().what;
  EXPECT_FALSE(what.empty());
  for (const char* const ofChild : {"crashed", "took longer", "memory"}) {
    if (what.find(ofChild) != std::string::npos) return what;
  }
  return "refused";
}

TEST(BadStepFiles, DamagedAtRandomGivesPartsOrAProblem) {
  const std::size_t count = std::getenv("SWINGROOM_LONG") ? 2000 : 60;
  ReadLimits limits;
  limits.time = std::chrono::milliseconds(6'000);
  limits.stepTimes = 1;
  const MeshReader reader = MeshReader::besideThisProgram(limits);
  const std::string sound = soundBytes();
  const TempFolder folder;
  std::mutex mutex;
  std::map<std::string, int> answers;
  parallelFor(count, defaultThreads(), [&](std::size_t i) {
    const std::string bytes = Damager(kDamageSeed + i).damaged(sound);
    const auto file = folder.write(std::to_string(i) + ".step", bytes);
    const std::string answer = judged(reader.read(file));
    const char* const keep = std::getenv("SWINGROOM_RANDOM_WRITE");  // A folder for what crashes.
    if (keep && answer != "read" && answer != "refused") {
      std::filesystem::copy_file(file, std::filesystem::path(keep) / file.filename());
    }
    const std::lock_guard lock(mutex);
    ++answers[answer];
  });
  std::cout << "seed " << kDamageSeed << ":";
  for (const auto& [answer, times] : answers) std::cout << "  " << answer << " " << times;
  std::cout << std::endl;
  EXPECT_GT(answers["read"], 0);
  EXPECT_GT(answers["refused"], 0);
}

}  // namespace
}  // namespace swingroom::step_tests
