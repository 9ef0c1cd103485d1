// Two folders of part files become a document; the truth is the sample's own file, made by its
// generator from the same numbers as the meshes.
#include "app/session/sources/folder_start.h"

#include <gtest/gtest.h>

#include <cmath>

#include "app/session/scene_loader.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"
#include "tests/core/files/load_fixture.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

constexpr double kAxisMm = 0.01;  ///< Makers cannot tell less; STL files hold 0.00001.
constexpr double kAxisDeg = 0.01;

Vector3d vectorOf(const ThreeNumbers& numbers) {
  return Vector3d(numbers.data());
}

bool isSameAxis(const DocumentJoint& truth, const DocumentJoint& found) {
  if (truth.type != found.type || !found.along) return false;
  const Vector3d along = vectorOf(*truth.along).normalized();
  const Vector3d other = vectorOf(*found.along).normalized();
  const double angle = std::atan2(along.cross(other).norm(), std::abs(along.dot(other)));
  if (degFromRad(angle) > kAxisDeg) return false;
  if (truth.type != JointType::hinge) return true;
  return (vectorOf(*found.through) - vectorOf(*truth.through)).cross(along).norm() <= kAxisMm;
}

class FolderStartTest : public ::testing::Test {
 protected:
  void SetUp() override {
    fs::copy(sampleFile("folding_lamp/folded"), folder_.path() / "folded");
    fs::copy(sampleFile("folding_lamp/reading"), folder_.path() / "reading");
  }
  Outcome<FolderStart::Made> make(const FolderStart::Wish& wish) {
    std::optional<Outcome<FolderStart::Made>> outcome;
    FolderStart start(testReader());
    QObject::connect(&start, &FolderStart::done, [&](const auto& made) { outcome = made; });
    start.begin(wish);
    if (!waitUntil([&] { return outcome.has_value(); })) return Problem{"FolderStart", "hangs", ""};
    return *outcome;
  }
  FolderStart::Wish bothFolders(const std::string& ground) const {
    return {folder_.path() / "folded", folder_.path() / "reading", 1, 0.3, ground};
  }
  void expectTrueAxes(const AssemblyDocument& found) const {
    for (const DocumentJoint& joint : truth_.joints) {
      if (joint.type == JointType::fixed) continue;
      EXPECT_TRUE(std::any_of(found.joints.begin(), found.joints.end(),
                              [&](const auto& other) { return isSameAxis(joint, other); }))
          << joint.name << " has no match within 0.01 mm and 0.01 degrees";
    }
  }

  TempFolder folder_;
  const AssemblyDocument truth_ = documentOf(sampleFile("folding_lamp/folding_lamp.swing.json"));
};

TEST_F(FolderStartTest, OneFolderGivesItsPartsAndNoJoints) {
  const auto made = make({folder_.path() / "folded", std::nullopt, 1, 0.25, ""});
  ASSERT_TRUE(made) << textOf(made.problems());
  EXPECT_EQ(made->document.parts.size(), 8u);
  EXPECT_TRUE(made->document.joints.empty());
  EXPECT_EQ(made->document.requiredGap, 0.25);
  EXPECT_EQ(made->file, folder_.path() / "folded.swing.json") << "beside the folder";
  EXPECT_FALSE(fs::exists(made->file)) << "it is not saved yet";
}

TEST_F(FolderStartTest, NoFileThatIsThereIsTakenAsThePlace) {
  for (const char* name : {"folded.swing.json", "folded 2.swing.json"}) {
    folder_.write(name, "mine");
  }
  const auto made = make({folder_.path() / "folded" / "", std::nullopt, 1, 0.3, ""});
  ASSERT_TRUE(made) << textOf(made.problems());
  EXPECT_EQ(made->file, folder_.path() / "folded 3.swing.json");
}

TEST_F(FolderStartTest, TwoFoldersGiveTheTrueAxes) {
  const auto made = make(bothFolders(""));
  ASSERT_TRUE(made) << textOf(made.problems());
  expectTrueAxes(made->document);
  const MeshReader reader = testReader();
  EXPECT_TRUE(makeScene(made->document, made->file, {&reader, 1, nullptr}, nullptr).ok());
}

TEST_F(FolderStartTest, TheWishedGroundHangsOnNothingAndTheAxesAreTheSame) {
  for (const char* ground : {"foot", "stem", "head", "base"}) {
    const auto made = make(bothFolders(ground));
    ASSERT_TRUE(made) << ground << textOf(made.problems());
    for (const DocumentJoint& joint : made->document.joints) EXPECT_NE(joint.child, ground);
    expectTrueAxes(made->document);
    const MeshReader reader = testReader();
    const auto scene = makeScene(made->document, made->file, {&reader, 1, nullptr}, nullptr);
    EXPECT_TRUE(scene.ok()) << ground << textOf(scene.problems());
  }
}

TEST_F(FolderStartTest, AGroundThatIsNotThereOrAnEmptyFolderIsAProblem) {
  const auto lost = make(bothFolders("mast"));
  ASSERT_FALSE(lost);
  EXPECT_NE(lost.problems()[0].what.find("mast"), std::string::npos);
  fs::create_directory(folder_.path() / "empty");
  EXPECT_FALSE(make({folder_.path() / "empty", std::nullopt, 1, 0.3, ""}));
  EXPECT_FALSE(make({folder_.path() / "not there", std::nullopt, 1, 0.3, ""}));
}

TEST_F(FolderStartTest, PartsInAFolderAreItsMeshFilesByName) {
  folder_.write("folded/notes.txt", "no part");
  EXPECT_EQ(FolderStart::partsIn(QString::fromStdString((folder_.path() / "folded").string())),
            QStringList({QStringLiteral("arm"), QStringLiteral("base"), QStringLiteral("base_pin"),
                         QStringLiteral("foot"), QStringLiteral("head"), QStringLiteral("shade"),
                         QStringLiteral("stem"), QStringLiteral("stop_pin")}));
  EXPECT_TRUE(FolderStart::partsIn(QStringLiteral("/not/there")).isEmpty());
}

TEST_F(FolderStartTest, OnlyTheChosenFilesBecomeParts) {
  FolderStart::Wish wish{folder_.path() / "folded", std::nullopt, 1, 0.3, ""};
  wish.only = QStringList{QStringLiteral("arm.stl"), QStringLiteral("head.stl")};
  const auto made = make(wish);
  ASSERT_TRUE(made) << textOf(made.problems());
  ASSERT_EQ(made->document.parts.size(), 2u);
  EXPECT_EQ(made->document.parts[0].name, "arm");
  EXPECT_EQ(made->document.parts[1].name, "head");
}

// It would hang here for an hour, not fail: nothing in it takes time when it is right.
TEST_F(FolderStartTest, GivingUpDoesNotWaitForAReaderThatHangs) {
  const fs::path began = folder_.path() / "began";
  const fs::path program = folder_.writeProgram(
      "reader.sh", "#!/bin/sh\ntouch '" + began.string() + "'\nexec sleep 3600\n");
  ReadLimits patient;
  patient.time = std::chrono::hours(1);
  {
    FolderStart start(MeshReader(program, patient));
    start.begin({folder_.path() / "folded", std::nullopt, 1, 0.3, ""});
    ASSERT_TRUE(waitUntil([&] { return fs::exists(began); }));
  }
  fs::remove(began);
  SceneLoader loader(MeshReader(program, patient));
  loader.load(documentOf(sampleFile("hatch_box/hatch_box.swing.json")),
              sampleFile("hatch_box/hatch_box.swing.json"), nullptr);
  ASSERT_TRUE(waitUntil([&] { return fs::exists(began); }));
}

}  // namespace
}  // namespace swingroom
