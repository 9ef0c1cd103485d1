// A process that edits and saves is killed at random moments. What it was told to keep must be
// there: on disk the old or the new document, whole, and the edit that was not saved is found.
// The two documents are made here as text, not by the program.
#include <gtest/gtest.h>

#include <QCoreApplication>
#include <QProcess>
#include <QThread>
#include <fstream>
#include <iostream>
#include <random>
#include <sstream>

#include "app/session/document/recovery.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

constexpr unsigned kSeed = 20261126;
constexpr int kKills = 50;
constexpr std::size_t kNameBytes = 1 << 19;

std::string contentOf(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

/// As a file of ours is laid out (product description, section 3); large, so that writing takes a
/// while.
std::string documentText(int requiredGap) {
  return "{\n  \"swingroom\": 1,\n  \"name\": \"" + std::string(kNameBytes, 'n') +
         "\",\n  \"requiredGap\": " + std::to_string(requiredGap) +
         ",\n  \"resolution\": 0.01,\n  \"up\": [0, 0, 1],\n  \"front\": [0, -1, 0],\n"
         "  \"parts\": []\n}\n";
}

std::size_t entriesIn(const fs::path& folder) {
  return fs::exists(folder) ? static_cast<std::size_t>(std::distance(fs::directory_iterator(folder),
                                                                     fs::directory_iterator()))
                            : 0;
}

class Killed : public ::testing::Test {
 protected:
  void SetUp() override {
    std::cout << "seed " << kSeed << "\n";
    folder_.write("toy.swing.json", documentText(1));
  }

  /// Starts it, kills it after so long. @returns The last number that it said of `what`; 0: none.
  int runAndKill(const char* mode, int microseconds, const QByteArray& what) {
    QProcess process;
    process.start(QCoreApplication::applicationDirPath() + QStringLiteral("/edit_and_save"),
                  {QString::fromLatin1(mode), path(file_), path(recovery_)});
    if (!process.waitForReadyRead(20'000)) ADD_FAILURE() << "it did not start";
    QThread::usleep(static_cast<unsigned long>(microseconds));
    process.kill();  // SIGKILL.
    process.waitForFinished(20'000);
    EXPECT_EQ(process.exitStatus(), QProcess::CrashExit) << "it ended by itself";
    said_ = process.readAllStandardOutput().split('\n');
    int last = 0;
    for (const QByteArray& line : said_) {
      if (line.startsWith(what)) last = line.mid(what.size()).toInt();
    }
    return last;
  }

  std::vector<LeftWork> leftWork() const { return findLeftWork(recovery_, file_); }

  static QString path(const fs::path& of) { return QString::fromStdString(of.string()); }

  TempFolder folder_;
  const fs::path file_ = folder_.path() / "toy.swing.json";
  const fs::path recovery_ = folder_.path() / "recovery";
  QList<QByteArray> said_;
  std::mt19937 random_{kSeed};
};

TEST_F(Killed, InASaveTheFileIsTheOldOrTheNewOneAndWhatWasNotSavedIsFound) {
  const std::string one = documentText(1), two = documentText(2);
  std::uniform_int_distribution<int> moment(0, 40'000);
  int betweenEditAndSave = 0, inAWrite = 0;
  for (int kill = 0; kill < kKills; ++kill) {
    runAndKill("save", moment(random_), "saved ");
    const std::string now = contentOf(file_);
    ASSERT_TRUE(now == one || now == two) << "kill " << kill << ": " << now.size() << " bytes";
    // Beside the file and the recovery folder no more than what one process was writing.
    const std::size_t besides = entriesIn(folder_.path()) - 1 - fs::exists(recovery_);
    EXPECT_LE(besides, 1u);
    inAWrite += besides > 0;
    // The last line that it got out, and nothing after it but what it was doing then.
    const QByteArray last = said_.value(said_.size() - 2);
    auto left = leftWork();
    if (last.startsWith("kept ")) {
      const int kept = last.mid(5).toInt();
      const bool isSaved = now == (kept == 1 ? one : two);
      ASSERT_EQ(left.size(), isSaved ? 0u : 1u) << "kill " << kill;
      if (!isSaved) {
        EXPECT_EQ(left[0].work.document.requiredGap, kept);
        ++betweenEditAndSave;
      }
    }
    for (LeftWork& work : left) throwAway(work);
  }
  std::cout << inAWrite << " of " << kKills << " kills left a half written file, "
            << betweenEditAndSave << " were between an edit and its save\n";
  EXPECT_GT(inAWrite + betweenEditAndSave, 0) << "no kill hit a save";
}

TEST_F(Killed, InAnEditTheFileIsUntouchedAndTheEditIsFound) {
  const std::string one = documentText(1);
  std::uniform_int_distribution<int> moment(0, 60'000);
  int found = 0;
  for (int kill = 0; kill < kKills; ++kill) {
    const int kept = runAndKill("edit", moment(random_), "kept ");
    ASSERT_EQ(contentOf(file_), one) << "kill " << kill;
    auto left = leftWork();
    ASSERT_LE(left.size(), 1u) << "kill " << kill;
    ASSERT_TRUE(kept == 0 || left.size() == 1) << "kill " << kill << ", kept " << kept;
    if (!left.empty()) {
      const UnsavedWork& work = left[0].work;
      EXPECT_GE(work.document.requiredGap, kept) << "kill " << kill;
      EXPECT_EQ(work.lastEdit, QStringLiteral("edit %1").arg(work.document.requiredGap));
      EXPECT_EQ(work.document.name.size(), kNameBytes);
      EXPECT_EQ(work.original, file_);
      ++found;
      throwAway(left[0]);
    }
    EXPECT_EQ(entriesIn(recovery_), 0u) << "kill " << kill << " left something behind";
  }
  std::cout << found << " of " << kKills << " kills came after an edit was kept\n";
  EXPECT_GT(found, 0) << "no kill came late enough";
}

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) {
  ::testing::InitGoogleTest(&argc, argv);
  QCoreApplication app(argc, argv);
  return RUN_ALL_TESTS();
}
