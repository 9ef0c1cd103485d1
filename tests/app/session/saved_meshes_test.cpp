// Meshes that other programs save while the assembly is open: real saves to disk, in every manner.
// The press (tests/app/support/assemblies.h): the rail stays 0.2 mm over the sled, required are
// 0.3.
#include <gtest/gtest.h>

#include <QSignalSpy>
#include <fstream>

#include "app/models/history/change_lines.h"
#include "app/models/plurals.h"
#include "app/session/check/check_news.h"
#include "app/session/document/outside_changes.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;

class SavedMeshes : public ::testing::Test {
 protected:
  SavedMeshes() {
    SettlingTimes times;
    times.still = times.stillOpen = milliseconds(300);
    times.young = milliseconds(2500);
    outside_.setTimes(times);
    QObject::connect(&outside_, &OutsideChanges::meshesReadAgain, &news_, &CheckNews::noteFiles);
    QObject::connect(&news_, &CheckNews::told, &news_,
                     [this](const CheckedChange& change) { told_.push_back(change); });
  }
  void SetUp() override {
    age();
    ASSERT_EQ(session_.open(bench_.file()), Problems{});
    ASSERT_TRUE(waitUntil([&] { return told_.size() == 1; }));
    told_.clear();
  }
  /// As if they had been there for long.
  void age() {
    for (const auto& entry : fs::directory_iterator(bench_.folder())) {
      fs::last_write_time(entry, fs::file_time_type::clock::now() - std::chrono::hours(1));
    }
  }
  fs::path file(const std::string& part) const { return bench_.folder() / (part + ".stl"); }
  /// The rail so far over the sled.
  static std::string rail(double gapMm) {
    return writers::binaryStl(shapes::box({12, 2, 8 + gapMm}, {30, 8, 12}));
  }
  void saveByRenaming(const fs::path& place, const std::string& bytes) {
    const fs::path beside = place.string() + ".tmp";
    writeBytes(beside, bytes);
    fs::rename(beside, place);
  }
  bool waitForNews(std::size_t count = 1) {
    return waitUntil([&] { return told_.size() >= count; });
  }
  const TriangleMesh* railNow() {
    return session_.scene()->assembly().part(part(*session_.scene(), "rail")).mesh.get();
  }
  /// The rail's gap over the sled in the way "push", as a change tells it.
  static const PairChange* railChange(const CheckedChange& change) {
    for (const PairChange& one : change.comparison->changes) {
      if (one.a == "sled" && one.b == "rail" && one.way == "push") return &one;
    }
    return nullptr;
  }

  Bench bench_ = Bench::press();
  Session session_{testReader()};
  OutsideChanges outside_{session_};
  CheckNews news_{session_};
  std::vector<CheckedChange> told_;
};

TEST_F(SavedMeshes, SaveByRenamingIsToldWithTheGapNowAndBefore) {
  saveByRenaming(file("rail"), rail(0.5));
  ASSERT_TRUE(waitForNews());
  ASSERT_EQ(told_[0].parts, std::vector<std::string>{"rail"});
  const PairChange* change = railChange(told_[0]);
  ASSERT_NE(change, nullptr);
  EXPECT_EQ(change->change, Change::solved);
  // float32 in the file: 1e-6 of some 10 mm.
  EXPECT_LE(change->now->lowerMm, 0.5 + 1e-5);
  EXPECT_GE(*change->now->upperMm, 0.5 - 1e-5);
  EXPECT_LE(change->before->lowerMm, 0.2 + 1e-5);
  EXPECT_GE(*change->before->upperMm, 0.2 - 1e-5);
  const ChangeStory story = storyOf(told_[0]);
  EXPECT_EQ(story.heading, QStringLiteral("rail saved"));
  EXPECT_FALSE(story.anyWorse);
  ASSERT_FALSE(story.lines.empty());
  QString line = story.lines[0].text;
  line.replace(QChar(0xA0), QLatin1Char(' '));
  EXPECT_TRUE(line.startsWith(QStringLiteral("rail 0.5"))) << line.toStdString();
  EXPECT_TRUE(line.contains(QStringLiteral(" mm from sled at step 1 push in, was 0.2")))
      << line.toStdString();
}

TEST_F(SavedMeshes, WorseOnesAreToldAsWorse) {
  saveByRenaming(file("rail"), rail(0.05));
  ASSERT_TRUE(waitForNews());
  ASSERT_NE(railChange(told_[0]), nullptr);
  EXPECT_EQ(railChange(told_[0])->change, Change::tighter);
  EXPECT_TRUE(storyOf(told_[0]).anyWorse);
  saveByRenaming(file("rail"), rail(-0.4));
  ASSERT_TRUE(waitForNews(2));
  EXPECT_EQ(railChange(told_[1])->change, Change::worse);
  EXPECT_NEAR(railChange(told_[1])->now->depthMm, 0.4, 0.02);
}

TEST_F(SavedMeshes, OnlyPairsOfTheSavedPartAreCheckedAgain) {
  const std::size_t all = session_.board().pairsInAll();
  ASSERT_EQ(all, 2u * 10) << "five parts, the way and a mode of none";
  std::vector<std::size_t> knownAtOnce;
  QObject::connect(&session_, &Session::sceneChanged, &news_,
                   [&] { knownAtOnce.push_back(session_.board().pairsKnown()); });
  saveByRenaming(file("rail"), rail(0.5));
  ASSERT_TRUE(waitForNews());
  EXPECT_EQ(knownAtOnce, std::vector<std::size_t>{all - 2 * 4});
}

TEST_F(SavedMeshes, OtherPartsKeepTheirMeshesAndTheirTrees) {
  const AssemblyGeometry before = session_.scene()->geometry;
  saveByRenaming(file("rail"), rail(0.5));
  ASSERT_TRUE(waitForNews());
  const std::size_t saved = part(*session_.scene(), "rail").index;
  for (std::size_t p = 0; p < before.size(); ++p) {
    EXPECT_EQ(session_.scene()->geometry[p] == before[p], p != saved) << p;
  }
}

TEST_F(SavedMeshes, WrittenInPlaceWithAPauseIsReadWhenItsWriterIsDone) {
  const std::string bytes = rail(0.5);
  const TriangleMesh* before = railNow();
  {
    std::ofstream out(file("rail"), std::ios::binary | std::ios::trunc);
    out << bytes.substr(0, bytes.size() / 2) << std::flush;
    QTest::qWait(1000);  // Longer than an open file is left alone here: it is tried, and fails.
    EXPECT_TRUE(session_.problems().empty());
    EXPECT_EQ(railNow(), before);
    EXPECT_TRUE(told_.empty());
    out << bytes.substr(bytes.size() / 2);
  }
  ASSERT_TRUE(waitForNews());
  EXPECT_EQ(railChange(told_[0])->change, Change::solved);
}

TEST_F(SavedMeshes, InPiecesThatAreClosedEachTheGoodMeshStaysAndNothingFails) {
  const std::string bytes = rail(0.5);
  const TriangleMesh* before = railNow();
  const QSignalSpy problems(&session_, &Session::problemsChanged);
  writeBytes(file("rail"), "");
  bool waited = false;
  constexpr std::size_t kPieces = 6;
  for (std::size_t i = 0; i < kPieces; ++i) {
    const std::size_t from = i * bytes.size() / kPieces, to = (i + 1) * bytes.size() / kPieces;
    std::ofstream(file("rail"), std::ios::binary | std::ios::app) << bytes.substr(from, to - from);
    if (i + 1 == kPieces) break;
    QTest::qWait(400);
    waited = waited || session_.lateFiles().contains(file("rail"));
    EXPECT_EQ(railNow(), before);
    EXPECT_TRUE(session_.problems().empty());
  }
  EXPECT_TRUE(waited);
  ASSERT_TRUE(waitForNews());
  EXPECT_EQ(problems.count(), 0);
  EXPECT_TRUE(session_.lateFiles().empty());
  EXPECT_EQ(railChange(told_[0])->change, Change::solved);
}

TEST_F(SavedMeshes, WhileOneIsHalfWrittenOthersAreCheckedAndNothingIsSaidToBeProven) {
  writeBytes(file("rail"), rail(0.5).substr(0, 300));
  ASSERT_TRUE(waitUntil([&] { return !session_.lateFiles().empty(); }));
  EXPECT_FALSE(session_.isProven());
  const auto sled = [&] {
    return session_.scene()->geometry[part(*session_.scene(), "sled").index];
  };
  const auto before = sled();
  saveByRenaming(file("sled"), writers::binaryStl(shapes::box({14, 2, 2}, {18, 8, 7.9})));
  ASSERT_TRUE(waitUntil([&] { return sled() != before; }));
  EXPECT_TRUE(session_.problems().empty());
}

TEST_F(SavedMeshes, CutOffForGoodIsToldAfterTheQuietTimeAndMended) {
  const TriangleMesh* before = railNow();
  writeBytes(file("rail"), rail(0.5).substr(0, 300));
  ASSERT_TRUE(waitUntil([&] { return !session_.lateFiles().empty(); }));
  EXPECT_TRUE(session_.problems().empty());
  ASSERT_TRUE(waitUntil([&] { return !session_.problems().empty(); }));
  EXPECT_NE(toText(session_.problems().front()).find("rail.stl"), std::string::npos);
  EXPECT_EQ(railNow(), before) << "the good mesh is still shown";
  writeBytes(file("rail"), rail(0.5));
  ASSERT_TRUE(waitForNews());
  EXPECT_TRUE(session_.problems().empty());
}

TEST_F(SavedMeshes, DeletedAndMadeAgainIsOneSave) {
  const QSignalSpy problems(&session_, &Session::problemsChanged);
  fs::remove(file("rail"));
  QTest::qWait(500);
  writeBytes(file("rail"), rail(0.5));
  ASSERT_TRUE(waitForNews());
  EXPECT_EQ(problems.count(), 0);
  EXPECT_EQ(railChange(told_[0])->change, Change::solved);
}

TEST_F(SavedMeshes, ManyAtOnceAreToldTogether) {
  saveByRenaming(file("rail"), rail(0.5));
  saveByRenaming(file("cap"), writers::binaryStl(shapes::box({0, 0, 10}, {7, 10, 12})));
  saveByRenaming(file("post"), writers::binaryStl(shapes::box({101, 0, 0}, {110, 10, 10})));
  ASSERT_TRUE(waitForNews());
  letTimePass();
  ASSERT_EQ(told_.size(), 1u);
  EXPECT_EQ(told_[0].parts, (std::vector<std::string>{"rail", "cap", "post"}));
  EXPECT_EQ(storyOf(told_[0]).heading, QStringLiteral("3 parts saved"));
}

TEST_F(SavedMeshes, TheSameAgainTurnsNothing) {
  saveByRenaming(file("rail"), bytesOf(file("rail")));
  ASSERT_TRUE(waitForNews());
  EXPECT_TRUE(told_[0].comparison->changes.empty());
  EXPECT_TRUE(storyOf(told_[0]).lines.empty());
}

TEST_F(SavedMeshes, OpenedWhileItIsBeingSavedIsWaitedFor) {
  const QSignalSpy problems(&session_, &Session::problemsChanged);
  writeBytes(file("rail"), rail(0.5).substr(0, 300));
  ASSERT_EQ(session_.open(bench_.file()), Problems{});
  ASSERT_TRUE(waitUntil([&] { return !session_.isLoading(); }));
  EXPECT_TRUE(session_.problems().empty());
  EXPECT_TRUE(session_.lateFiles().contains(file("rail")));
  writeBytes(file("rail"), rail(0.5));
  ASSERT_TRUE(waitForNews());
  EXPECT_EQ(problems.count(), 0);
  EXPECT_FALSE(told_[0].comparison.has_value()) << "it is the first check of what was opened";
}

/// A glTF whose numbers are in a file beside it.
void writeGltf(const fs::path& file, const TriangleMesh& mesh, const std::string& bin) {
  std::string text = writers::gltf(mesh);
  const std::string head = "data:application/octet-stream;base64,";
  const std::size_t from = text.find(head), to = text.find('"', from);
  ASSERT_NE(from, std::string::npos);
  const auto coded =
      QByteArray::fromStdString(text.substr(from + head.size(), to - from - head.size()));
  text.replace(from, to - from, bin);
  writeBytes(file.parent_path() / bin, QByteArray::fromBase64(coded).toStdString());
  writeBytes(file, text);
}

TEST_F(SavedMeshes, NumbersBesideAGltfAreWatchedToo) {
  writeGltf(bench_.folder() / "post.gltf", shapes::box({1, 0, 0}, {1.01, 0.01, 0.01}), "post.bin");
  AssemblyDocument document = bench_.document();
  document.parts[4].stages["block"] = "post.gltf";
  bench_.write(document);
  age();
  ASSERT_EQ(session_.open(bench_.file()), Problems{});
  ASSERT_TRUE(waitForNews());
  const auto widest = [&] {
    const auto& mesh = session_.scene()->assembly().part(part(*session_.scene(), "post")).mesh;
    double widest = 0;
    for (const Vector3d& p : mesh->vertices) widest = std::max(widest, p.x());
    return widest;
  };
  EXPECT_NEAR(widest(), 1010, 1e-3);  // glTF is in metres; float32.
  const std::string text = bytesOf(bench_.folder() / "post.gltf");
  writeGltf(bench_.folder() / "other.gltf", shapes::box({1, 0, 0}, {1.02, 0.01, 0.01}),
            "other.bin");
  fs::rename(bench_.folder() / "other.bin", bench_.folder() / "post.bin");
  ASSERT_TRUE(waitForNews(2));
  EXPECT_EQ(bytesOf(bench_.folder() / "post.gltf"), text);
  EXPECT_NEAR(widest(), 1020, 1e-3);
}

TEST_F(SavedMeshes, EditsMeanwhileAreToldWithTheirNames) {
  AssemblyDocument document = session_.document().document();
  document.requiredGap = 0.1;
  session_.document().edit(QStringLiteral("required gap 0.10"), document);
  ASSERT_TRUE(waitForNews());
  EXPECT_EQ(told_[0].edits, QStringList{QStringLiteral("required gap 0.10")});
  EXPECT_TRUE(told_[0].files.empty());
  EXPECT_EQ(railChange(told_[0])->change, Change::solved);
  session_.document().undoStack().undo();
  ASSERT_TRUE(waitForNews(2));
  EXPECT_EQ(told_[1].edits, QStringList{QStringLiteral("Undone: required gap 0.10")});
  EXPECT_EQ(railChange(told_[1])->change, Change::newFinding);
}

}  // namespace
}  // namespace swingroom
