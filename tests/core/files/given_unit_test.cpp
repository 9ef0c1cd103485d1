// The unit of part files, from folders whose numbers were written in a known one.
#include "core/files/sources/given_unit.h"

#include <gtest/gtest.h>

#include "core/files/sources/new_assembly.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

/// A figure of 110 mm: a body, a head on it, an arm.
class GivenUnitTest : public ::testing::Test {
 protected:
  void SetUp() override {
    for (const char* folder : {"open", "shut"}) fs::create_directories(folder_.path() / folder);
  }
  void write(const std::string& name, const TriangleMesh& mesh, double unitsPerMm) {
    const Eigen::Affine3d size(Eigen::Scaling(unitsPerMm));
    folder_.write(name + ".stl", writers::binaryStl(transformed(mesh, size)));
  }
  void writeFigure(const std::string& folder, double unitsPerMm, double armDeg = 0) {
    write(folder + "/body", shapes::box({-20, -10, 0}, {20, 12, 80}), unitsPerMm);
    write(folder + "/head", shapes::box({-10, -9, 81}, {11, 10, 110}), unitsPerMm);
    const TriangleMesh arm = shapes::box({21, -4, 30}, {29, 5, 75});
    Pose X = Pose::Identity();
    X.linear() = Eigen::AngleAxisd(radFromDeg(armDeg), Eigen::Vector3d::UnitX()).toRotationMatrix();
    write(folder + "/arm", shapes::moved(arm, X), unitsPerMm);
  }
  Outcome<NewAssembly> make(std::optional<double> mmPerUnit, bool bothFolders = false) {
    NewAssemblyWish wish;
    wish.source = folder_.path() / "open";
    if (bothFolders) wish.other = folder_.path() / "shut";
    wish.file = folder_.path() / "figure.swing.json";
    wish.mmPerUnit = mmPerUnit;
    return newAssembly(wish, MeshReader::besideThisProgram());
  }
  static std::string allOf(const Problems& problems) {
    std::string text;
    for (const Problem& problem : problems) text += toText(problem) + "\n";
    return text;
  }

  TempFolder folder_;
};

TEST_F(GivenUnitTest, TheUnitIsGuessedBySizeAndBecomesThePartsScale) {
  for (const auto& [unitsPerMm, scale] :
       {std::pair(1.0, 1.0), {0.001, 1000.0}, {0.1, 10.0}, {1 / 25.4, 25.4}}) {
    writeFigure("open", unitsPerMm);
    const auto made = make(std::nullopt);
    ASSERT_TRUE(made) << allOf(made.problems());
    for (const DocumentPart& part : made->document.parts) EXPECT_EQ(part.scale, scale);
    EXPECT_NE(made->found.front().find("guessed"), std::string::npos) << made->found.front();
    EXPECT_TRUE(made->notes.empty()) << allOf(made->notes);
  }
}

TEST_F(GivenUnitTest, AUnitThatIsSaidIsTaken) {
  writeFigure("open", 0.001);
  const auto made = make(1);
  ASSERT_TRUE(made);
  for (const DocumentPart& part : made->document.parts) EXPECT_EQ(part.scale, 1);
  EXPECT_NE(allOf(made->notes).find("no size of a printed figure"), std::string::npos)
      << "0.11 mm: " << allOf(made->notes);
}

TEST_F(GivenUnitTest, AnUnsureGuessIsNoted) {
  writeFigure("open", 7.0 / 110);
  const auto made = make(std::nullopt);
  ASSERT_TRUE(made);
  EXPECT_EQ(made->document.parts[0].scale, 1);
  const std::string notes = allOf(made->notes);
  for (const char* words : {"cm and inches", "mm is kept", "--unit"}) {
    EXPECT_NE(notes.find(words), std::string::npos) << words << " in " << notes;
  }
}

TEST_F(GivenUnitTest, AFileThatSaysMetresWithNumbersInMmIsNoted) {
  folder_.write("open/body.glb", writers::glb(shapes::box({0, 0, 0}, {40, 30, 110})));
  const auto made = make(std::nullopt);
  ASSERT_TRUE(made) << allOf(made.problems());
  const std::string notes = allOf(made->notes);
  EXPECT_NE(notes.find("is 110000 mm at the longest"), std::string::npos) << notes;
  EXPECT_NE(notes.find("--scale 0.001"), std::string::npos) << notes;
}

TEST_F(GivenUnitTest, OnePartThatIs1000TimesTooSmallIsToldWithItsCure) {
  writeFigure("open", 1);
  write("open/hand", shapes::box({21, -4, 20}, {29, 5, 29}), 0.001);
  const auto made = make(std::nullopt);
  ASSERT_TRUE(made);
  EXPECT_EQ(made->document.parts[0].scale, 1) << "the figure is still one in mm";
  const std::string notes = allOf(made->notes);
  EXPECT_NE(notes.find("hand.stl: seems 1000 times too small"), std::string::npos) << notes;
  EXPECT_NE(notes.find("scale 1000"), std::string::npos) << notes;
}

TEST_F(GivenUnitTest, OnePartThatIs1000TimesTooLargeDoesNotChangeTheFiguresUnit) {
  writeFigure("open", 1 / 25.4);
  write("open/hand", shapes::box({21, -4, 20}, {29, 5, 29}), 1000 / 25.4);
  const auto made = make(std::nullopt);
  ASSERT_TRUE(made);
  for (const DocumentPart& part : made->document.parts) EXPECT_EQ(part.scale, 25.4) << part.name;
  const std::string notes = allOf(made->notes);
  EXPECT_NE(notes.find("hand.stl: seems 1000 times too large"), std::string::npos) << notes;
  EXPECT_NE(notes.find("scale 0.0254"), std::string::npos) << notes;
}

TEST_F(GivenUnitTest, TwoFoldersInDifferentUnitsMeet) {
  writeFigure("open", 1);
  writeFigure("shut", 1 / 25.4, 40);
  const auto made = make(std::nullopt, true);
  ASSERT_TRUE(made) << allOf(made.problems());
  const auto turned =
      std::find_if(made->document.joints.begin(), made->document.joints.end(),
                   [](const DocumentJoint& joint) { return joint.type == JointType::hinge; });
  ASSERT_NE(turned, made->document.joints.end());
  EXPECT_NE(made->found[1].find("25.4 mm"), std::string::npos) << made->found[1];
}

TEST_F(GivenUnitTest, ASaidUnitThatOneFolderDoesNotHaveIsTold) {
  writeFigure("open", 1);
  writeFigure("shut", 1 / 25.4, 40);
  const auto made = make(1, true);
  ASSERT_FALSE(made);
  EXPECT_NE(toText(made.problems().front()).find("shut"), std::string::npos);
  EXPECT_NE(made.problems().front().what.find("0.0394 times as large"), std::string::npos)
      << made.problems().front().what;  // 1 / 25.4 = 0.03937.
}

TEST_F(GivenUnitTest, OnePartInAnotherUnitInTheSecondFolderIsTold) {
  writeFigure("open", 1);
  writeFigure("shut", 1, 40);
  write("shut/head", shapes::box({-10, -9, 81}, {11, 10, 110}), 0.001);
  const auto made = make(std::nullopt, true);
  ASSERT_FALSE(made);
  const std::string text = allOf(made.problems());
  EXPECT_NE(text.find("head.stl: is 0.001 times as large"), std::string::npos) << text;
}

}  // namespace
}  // namespace swingroom
