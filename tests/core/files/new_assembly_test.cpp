#include "core/files/sources/new_assembly.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <random>

#include "core/base/transform.h"
#include "core/files/document/read_document.h"
#include "core/files/document/write_document.h"
#include "core/files/loading/load_assembly.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;
using shapes::box;
using shapes::cylinder;
using shapes::joined;
using shapes::moved;
using shapes::tube;

constexpr unsigned kAssemblySeed = 20240613;

void writeStl(const TriangleMesh& mesh, const fs::path& file) {
  std::ofstream out(file, std::ios::binary);
  const std::string header(80, ' ');
  const auto count = static_cast<std::uint32_t>(mesh.triangles.size());
  out << header;
  out.write(reinterpret_cast<const char*>(&count), sizeof count);
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    float numbers[12] = {};
    for (int i = 0; i < 3; ++i) {
      for (int k = 0; k < 3; ++k) numbers[3 + 3 * i + k] = static_cast<float>(mesh.corner(t, i)[k]);
    }
    out.write(reinterpret_cast<const char*>(numbers), sizeof numbers);
    out.write("\0\0", 2);
  }
}

/// Two folders, "open" and "shut", in a folder of the test's own that goes away with it.
class NewAssemblyTest : public ::testing::Test {
 protected:
  NewAssemblyTest() {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    top_ = fs::temp_directory_path() / ("new_assembly_" + std::string(test->name()) + "_" +
                                        std::to_string(std::random_device()()));
    fs::create_directories(top_ / "open");
    fs::create_directories(top_ / "shut");
  }
  ~NewAssemblyTest() override {
    std::error_code ignored;
    fs::remove_all(top_, ignored);
  }

  void add(const std::string& name, const TriangleMesh& mesh, const Pose& D = Pose::Identity()) {
    writeStl(mesh, top_ / "open" / name);
    writeStl(moved(mesh, D), top_ / "shut" / name);
  }

  Outcome<NewAssembly> make(bool bothFolders = true) const {
    NewAssemblyWish wish;
    wish.source = top_ / "open";
    if (bothFolders) wish.other = top_ / "shut";
    wish.file = top_ / "thing.swing.json";
    wish.mmPerUnit = mmPerUnit_;
    wish.threads = 2;
    return newAssembly(wish, MeshReader::besideThisProgram());
  }

  /// A box with a pin, and a lid on that pin that turns 40 degrees.
  void addBoxAndLid(double scale = 1) {
    const TriangleMesh body = joined({box({-20, -20, 0}, {20, 20, 10}),
                                      moved(cylinder(2, 9, 15, 32), translation({15, 15, 0}))});
    const TriangleMesh lid =
        moved(joined({tube(5, 2.2, 10.4, 14, 32), box({-30, -3, 10.4}, {-4.5, 3, 14})}),
              translation({15, 15, 0}));
    const Pose D = rotationAbout({15, 15, 0}, kZ, radFromDeg(40));
    Eigen::Affine3d size(Eigen::Scaling(scale));
    writeStl(transformed(body, size), top_ / "open" / "body.stl");
    writeStl(transformed(body, size), top_ / "shut" / "body.stl");
    writeStl(transformed(lid, size), top_ / "open" / "lid.stl");
    writeStl(transformed(moved(lid, D), size), top_ / "shut" / "lid.stl");
  }

  fs::path top_;
  double mmPerUnit_ = 1;
};

bool mentions(const Problems& problems, const std::string& words) {
  return std::any_of(problems.begin(), problems.end(), [&](const Problem& problem) {
    return toText(problem).find(words) != std::string::npos;
  });
}

std::string allText(const Problems& problems) {
  std::string text;
  for (const Problem& problem : problems) text += toText(problem) + "\n";
  return text;
}

TEST_F(NewAssemblyTest, TwoFoldersGiveAFileThatLoads) {
  addBoxAndLid();
  const auto made = make();
  ASSERT_TRUE(made.ok()) << allText(made.problems());
  const AssemblyDocument& document = made->document;
  EXPECT_EQ(document.name, "thing");
  ASSERT_EQ(document.parts.size(), 2u);
  EXPECT_EQ(document.parts[1].name, "lid");
  EXPECT_EQ(document.parts[1].stages.at("block"), "open/lid.stl");
  EXPECT_NE(document.parts[0].colour, document.parts[1].colour);
  ASSERT_EQ(document.joints.size(), 1u);
  const DocumentJoint& joint = document.joints[0];
  EXPECT_EQ(joint.name, "lid hinge");
  EXPECT_EQ(joint.parent, "body");
  // As built above; the product promises 0.01 mm and 0.01 degrees.
  EXPECT_NEAR((*joint.through)[0], 15, 0.01);
  EXPECT_NEAR((*joint.through)[1], 15, 0.01);
  EXPECT_NEAR((*joint.along)[2], 1, 1e-8);
  ASSERT_EQ(document.modes.size(), 2u);
  EXPECT_EQ(document.modes[0].name, "open");
  EXPECT_EQ(document.modes[1].name, "shut");
  EXPECT_NEAR(std::get<double>(document.modes[1].values->at("lid hinge")), 40, 0.01);
  ASSERT_EQ(document.sequences.size(), 1u);
  EXPECT_EQ(document.sequences[0].name, "open to shut");
  ASSERT_EQ(document.sequences[0].steps.size(), 1u);

  ASSERT_FALSE(saveDocument(document, top_ / "thing.swing.json"));
  const auto loaded = loadAssembly(top_ / "thing.swing.json", MeshReader::besideThisProgram(), 2);
  ASSERT_TRUE(loaded.ok()) << allText(loaded.problems());
  EXPECT_EQ(loaded->sequences.size(), 1u);
  EXPECT_EQ(loaded->assembly.joints()[0].zones.size(), 1u);
}

// By the loaded file's own motion each part must come to where the other folder has it.
TEST_F(NewAssemblyTest, LoadedFileBringsPartsToWhereTheOtherFolderHasThem) {
  std::mt19937_64 random(kAssemblySeed);
  const Pose X_WA = shapes::randomPose(random, 40);
  const auto at = [&](const Pose& X) { return X_WA * X * X_WA.inverse(); };
  const Pose first = rotationAbout({30, 0, 0}, kZ, radFromDeg(100));
  const Pose second = first * rotationAbout({60, 0, 0}, -kZ, radFromDeg(77));
  const auto link = [](double from, double length, double z) {
    return joined({moved(tube(5, 2.2, z, z + 4, 32), translation({from, 0, 0})),
                   box({from + 4.5, -2.5, z}, {from + length + 3, 2.5, z + 4}),
                   moved(cylinder(2, z + 3, z + 8.2, 32), translation({from + length, 0, 0}))});
  };
  add("a.stl", moved(link(0, 30, 0), X_WA));
  add("b.stl", moved(link(30, 30, 4.4), X_WA), at(first));
  add("c.stl", moved(link(60, 30, 8.8), X_WA), at(second));
  const auto made = make();
  ASSERT_TRUE(made.ok()) << allText(made.problems());
  ASSERT_FALSE(saveDocument(made->document, top_ / "thing.swing.json"));
  const auto loaded = loadAssembly(top_ / "thing.swing.json", MeshReader::besideThisProgram(), 2);
  ASSERT_TRUE(loaded.ok()) << allText(loaded.problems());
  const auto reached = displacementsOf(loaded->assembly, loaded->modes[1].configuration);
  const Pose wanted[] = {Pose::Identity(), at(first), at(second)};
  for (std::size_t i = 0; i < 3; ++i) {
    for (const Vector3d& v : loaded->assembly.part(PartId{i}).mesh->vertices) {
      ASSERT_LT((reached[i] * v - wanted[i] * v).norm(), 0.01) << "part " << i;
    }
  }
}

TEST_F(NewAssemblyTest, OneFolderGivesPartsInOneModeAndLoads) {
  addBoxAndLid();
  const auto made = make(false);
  ASSERT_TRUE(made.ok()) << allText(made.problems());
  EXPECT_TRUE(made->document.joints.empty());
  EXPECT_TRUE(made->document.sequences.empty());
  ASSERT_EQ(made->document.modes.size(), 1u);
  EXPECT_EQ(made->document.modes[0].name, "open");
  ASSERT_FALSE(saveDocument(made->document, top_ / "thing.swing.json"));
  const auto loaded = loadAssembly(top_ / "thing.swing.json", MeshReader::besideThisProgram(), 1);
  EXPECT_TRUE(loaded.ok()) << allText(loaded.problems());
}

TEST_F(NewAssemblyTest, MissingPartsAreNamedOnBothSides) {
  addBoxAndLid();
  writeStl(box({0, 0, 0}, {1, 2, 3}), top_ / "open" / "only_open.stl");
  writeStl(box({0, 0, 0}, {1, 2, 3}), top_ / "shut" / "only_shut.stl");
  const auto made = make();
  ASSERT_FALSE(made.ok());
  EXPECT_TRUE(mentions(made.problems(), "shut: lacks \"only_open.stl\""))
      << allText(made.problems());
  EXPECT_TRUE(mentions(made.problems(), "open: lacks \"only_shut.stl\""))
      << allText(made.problems());
}

TEST_F(NewAssemblyTest, MirroredAndChangedPartsAreToldTogether) {
  addBoxAndLid();
  const TriangleMesh hook = joined({box({0, 0, 0}, {30, 8, 6}), box({0, 5, 5}, {6, 20, 9})});
  Eigen::Affine3d mirror = Eigen::Affine3d::Identity();
  mirror.linear()(0, 0) = -1;
  writeStl(hook, top_ / "open" / "hook.stl");
  writeStl(transformed(hook, mirror), top_ / "shut" / "hook.stl");
  writeStl(box({0, 0, 0}, {30, 20, 10}), top_ / "open" / "slab.stl");
  writeStl(box({0, 0, 0}, {30, 20, 11.3}), top_ / "shut" / "slab.stl");
  const auto made = make();
  ASSERT_FALSE(made.ok());
  EXPECT_EQ(made.problems().size(), 2u) << allText(made.problems());
  EXPECT_TRUE(mentions(made.problems(), "hook.stl: is mirrored")) << allText(made.problems());
  EXPECT_TRUE(mentions(made.problems(), "slab.stl: differs in shape")) << allText(made.problems());
}

// The same assembly with its numbers in inches.
TEST_F(NewAssemblyTest, UnitScalesPartsAndJoints) {
  addBoxAndLid(1 / 25.4);
  mmPerUnit_ = 25.4;
  const auto made = make();
  ASSERT_TRUE(made.ok()) << allText(made.problems());
  EXPECT_EQ(made->document.parts[0].scale, 25.4);
  ASSERT_EQ(made->document.joints.size(), 1u);
  EXPECT_NEAR((*made->document.joints[0].through)[0], 15, 0.01);
}

TEST_F(NewAssemblyTest, TwoFilesForOnePartAndEmptyFoldersAreRefused) {
  const auto empty = make();
  ASSERT_FALSE(empty.ok());
  EXPECT_TRUE(mentions(empty.problems(), "holds no mesh file")) << allText(empty.problems());
  addBoxAndLid();
  std::ofstream(top_ / "open" / "lid.obj") << "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n";
  const auto twice = make();
  ASSERT_FALSE(twice.ok());
  EXPECT_TRUE(mentions(twice.problems(), "two files for part \"lid\""))
      << allText(twice.problems());
}

TEST_F(NewAssemblyTest, OtherFilesAreLeftOutAndTold) {
  addBoxAndLid();
  std::ofstream(top_ / "open" / "notes.txt") << "hello";
  std::ofstream(top_ / "open" / ".hidden.stl") << "x";
  const auto made = make();
  ASSERT_TRUE(made.ok()) << allText(made.problems());
  EXPECT_EQ(made->document.parts.size(), 2u);
  EXPECT_TRUE(mentions(made->notes, "notes.txt")) << allText(made->notes);
  EXPECT_FALSE(mentions(made->notes, "hidden")) << allText(made->notes);
}

TEST_F(NewAssemblyTest, NothingThatMovedGivesNoSequence) {
  add("a.stl", box({0, 0, 0}, {10, 10, 10}));
  add("b.stl", box({20, 0, 0}, {30, 10, 10}));
  const auto made = make();
  ASSERT_TRUE(made.ok()) << allText(made.problems());
  EXPECT_TRUE(made->document.joints.empty());
  EXPECT_TRUE(made->document.sequences.empty());
  ASSERT_FALSE(saveDocument(made->document, top_ / "thing.swing.json"));
  const auto loaded = loadAssembly(top_ / "thing.swing.json", MeshReader::besideThisProgram(), 1);
  EXPECT_TRUE(loaded.ok()) << allText(loaded.problems());
}

TEST_F(NewAssemblyTest, GuessesAndHalfTurnsAreTold) {
  add("base.stl", box({0, 0, 0}, {40, 40, 5}));
  add("far.stl", box({0, 0, 100}, {10, 10, 110}),
      rotationAbout({20, 20, 20}, Vector3d::UnitX(), kPi));
  const auto made = make();
  ASSERT_TRUE(made.ok()) << allText(made.problems());
  EXPECT_TRUE(mentions(made->notes, "hangs on the ground by a guess")) << allText(made->notes);
  EXPECT_TRUE(mentions(made->notes, "half a turn")) << allText(made->notes);
}

// 0.3 mm of a travel that is no joint's: a part that was dragged by hand.
TEST_F(NewAssemblyTest, SmallTravelAlongAHingeIsToldWithItsSize) {
  add("body.stl", joined({box({-20, -20, 0}, {20, 20, 10}), cylinder(2, 9, 15, 32)}));
  add("lid.stl", joined({tube(5, 2.2, 10.4, 14, 32), box({-30, -3, 10.4}, {-4.5, 3, 14})}),
      translation({0, 0, 0.3}) * rotationAbout(Vector3d::Zero(), kZ, radFromDeg(40)));
  const auto made = make();
  ASSERT_TRUE(made.ok()) << allText(made.problems());
  ASSERT_EQ(made->document.joints.size(), 2u);
  EXPECT_TRUE(mentions(made->notes, "travels only 0.3 mm")) << allText(made->notes);
}

// The sample's joints, written by its generator from the numbers that its meshes were made with:
// nested frames, pins and holes of one size, all hinges but one parallel. The child tells which is
// which; a joint may be said by any point of its line.
TEST_F(NewAssemblyTest, FoldingLampHasItsTrueParentsAxesAndValues) {
  const fs::path sample = fs::path(SWINGROOM_SOURCE) / "sample_assemblies/folding_lamp";
  const auto truth = readDocument(sample / "folding_lamp.swing.json");
  ASSERT_TRUE(truth.ok()) << allText(truth.problems());
  NewAssemblyWish wish;
  wish.source = sample / "folded";
  wish.other = sample / "reading";
  wish.file = top_ / "lamp.swing.json";
  wish.threads = 2;
  const auto made = newAssembly(wish, MeshReader::besideThisProgram());
  ASSERT_TRUE(made.ok()) << allText(made.problems());
  const AssemblyDocument& document = made->document;
  ASSERT_EQ(document.joints.size(), truth->document.joints.size());
  for (const DocumentJoint& joint : truth->document.joints) {
    const auto found = std::find_if(document.joints.begin(), document.joints.end(),
                                    [&](const auto& other) { return other.child == joint.child; });
    ASSERT_NE(found, document.joints.end()) << joint.child;
    EXPECT_EQ(found->type, joint.type) << joint.child;
    EXPECT_EQ(found->parent, joint.parent) << joint.child;
    if (joint.type == JointType::fixed) continue;
    const Vector3d along = Vector3d(joint.along->data()), other = Vector3d(found->along->data());
    EXPECT_LT(degFromRad((along - other).norm()), 0.01) << joint.child;
    EXPECT_NEAR(std::get<double>(document.modes[1].values->at(found->name)),
                std::get<double>(truth->document.modes[1].values->at(joint.name)), 0.01)
        << joint.child;
    if (joint.type != JointType::hinge) continue;
    const Vector3d apart = Vector3d(found->through->data()) - Vector3d(joint.through->data());
    EXPECT_LT(along.cross(apart).norm(), 0.01) << joint.child;
    EXPECT_EQ(found->zones.size(), joint.zones.size()) << joint.child;
  }
  EXPECT_TRUE(made->notes.empty()) << allText(made->notes);
}

}  // namespace
}  // namespace swingroom
