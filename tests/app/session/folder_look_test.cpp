// Part files looked at in the background, written by the test.
#include "app/session/sources/folder_look.h"

#include <gtest/gtest.h>

#include "tests/app/support/wait.h"
#include "tests/core/files/load_fixture.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

class FolderLookTest : public ::testing::Test {
 protected:
  void write(const std::string& name, const TriangleMesh& mesh) {
    std::filesystem::create_directories((folder_.path() / name).parent_path());
    folder_.write(name, writers::binaryStl(mesh));
  }
  FolderLook::Look lookAt(const std::filesystem::path& source, const QStringList& only = {}) {
    FolderLook::Look answer;
    QObject::connect(&look_, &FolderLook::looked,
                     [&](const FolderLook::Look& look) { answer = look; });
    look_.look(source, only);
    EXPECT_TRUE(waitUntil([&] { return answer != nullptr; }));
    look_.disconnect();
    return answer;
  }

  TempFolder folder_;
  FolderLook look_{MeshReader::besideThisProgram()};
};

TEST_F(FolderLookTest, EachPartIsToldWithItsSizeTrianglesAndHoles) {
  write("body.stl", shapes::box({0, 0, 0}, {4, 3, 2.5}));  // 4 inches: 101.6 mm.
  TriangleMesh open = shapes::box({0, 0, 0}, {1, 1, 1});
  open.triangles.pop_back();  // A triangle less: three open edges.
  write("hand.stl", open);
  const auto look = lookAt(folder_.path());
  ASSERT_TRUE(look->ok()) << textOf(look->problems());
  const PartsLook& found = look->value();
  ASSERT_EQ(found.parts.size(), 2u);
  ASSERT_TRUE(found.unit.guess);
  EXPECT_EQ(found.unit.guess->unit, LengthUnit::inch);
  const PartLook& body = found.parts[0];
  EXPECT_EQ(body.name, "body");
  EXPECT_TRUE(body.sizes_mm.isApprox(25.4 * Eigen::Vector3d(4, 3, 2.5), 1e-6));
  EXPECT_EQ(body.triangles, 12u);
  EXPECT_TRUE(body.closed && body.notes.empty());
  EXPECT_FALSE(body.colour.empty());
  const PartLook& hand = found.parts[1];
  EXPECT_EQ(hand.openEdges, 3u);
  EXPECT_FALSE(hand.closed);
  EXPECT_FALSE(hand.notes.empty());
  EXPECT_FALSE(look_.isLooking());
}

TEST_F(FolderLookTest, OnlyWhatWasAskedForLastIsTold) {
  write("a/body.stl", shapes::box({0, 0, 0}, {40, 30, 25}));
  write("b/other.stl", shapes::box({0, 0, 0}, {40, 30, 25}));
  int told = 0;
  FolderLook::Look answer;
  QObject::connect(&look_, &FolderLook::looked, [&](const FolderLook::Look& look) {
    ++told;
    answer = look;
  });
  look_.look(folder_.path() / "a", {});
  look_.look(folder_.path() / "b", {});
  ASSERT_TRUE(waitUntil([&] { return answer != nullptr; }));
  letTimePass();
  EXPECT_EQ(told, 1);
  ASSERT_TRUE(answer->ok());
  EXPECT_EQ(answer->value().parts[0].name, "other");
}

TEST_F(FolderLookTest, WhatCannotBeReadIsAProblemInWords) {
  folder_.write("body.stl", "no mesh");
  const auto look = lookAt(folder_.path());
  ASSERT_FALSE(look->ok());
  EXPECT_NE(textOf(look->problems()).find("body.stl"), std::string::npos);
  EXPECT_FALSE(lookAt(folder_.path() / "not there")->ok());
}

}  // namespace
}  // namespace swingroom
