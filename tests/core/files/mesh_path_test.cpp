// One part of a file that holds several, as a stage writes it.
#include "core/files/mesh_path.h"

#include <gtest/gtest.h>

#include "core/files/document/moved_document.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

AssemblyDocument withMeshes(const std::vector<std::string>& paths) {
  AssemblyDocument document;
  for (const std::string& path : paths) {
    document.parts.emplace_back();
    document.parts.back().name = path;
    document.parts.back().stages["block"] = path;
  }
  return document;
}

TEST(MeshPath, PartIsWhatFollowsTheFirstHashAfterAnEndingThatIsRead) {
  EXPECT_EQ(meshPathOf("/toys", "figure.glb#torso"), (MeshPath{"/toys/figure.glb", "torso"}));
  EXPECT_EQ(meshPathOf("/toys", "figure.3MF#a#b"), (MeshPath{"/toys/figure.3MF", "a#b"}));
  EXPECT_EQ(meshPathOf("/toys", "no#1/figure.obj#arm"),
            (MeshPath{"/toys/no#1/figure.obj", "arm"}));
  EXPECT_EQ(meshPathOf("/toys", "../figure.dae#left/arm"), (MeshPath{"/figure.dae", "left/arm"}));
}

TEST(MeshPath, WithoutSuchAnEndingOrAPartItIsTheWholeFile) {
  EXPECT_EQ(meshPathOf("/toys", "arm#2.stl"), (MeshPath{"/toys/arm#2.stl", ""}));
  EXPECT_EQ(meshPathOf("/toys", "figure.glb"), (MeshPath{"/toys/figure.glb", ""}));
  EXPECT_EQ(meshPathOf("/toys", "figure.glb#"), (MeshPath{"/toys/figure.glb#", ""}));
}

TEST(MeshPath, AFileThatIsCalledSoAsAWholeWins) {
  const TempFolder folder;
  folder.write("figure.glb#torso.stl", "x");
  EXPECT_EQ(meshPathOf(folder.path(), "figure.glb#torso.stl"),
            (MeshPath{folder.path() / "figure.glb#torso.stl", ""}));
}

TEST(MeshPath, IsWrittenAsItWasRead) {
  for (const char* written : {"figure.glb#torso", "a/figure.glb#l/arm#1", "arm.stl"}) {
    const MeshPath path = meshPathOf("", written);
    EXPECT_EQ(writtenMeshPath(path), written);
  }
}

TEST(MeshPath, MovesWithItsDocumentAndKeepsItsPart) {
  const AssemblyDocument moved =
      movedDocument(withMeshes({"figure.glb#left/../arm"}), "/toys/tug", "/toys");
  EXPECT_EQ(moved.parts[0].stages.at("block"), "tug/figure.glb#left/../arm");
}

TEST(MeshPath, PartsOfOneFileAreOneFileToWatch) {
  const auto files =
      meshFilesOf(withMeshes({"figure.glb#torso", "figure.glb#head", "pin.stl"}), "/toys");
  EXPECT_EQ(files, (std::vector<std::filesystem::path>{"/toys/figure.glb", "/toys/pin.stl"}));
}

}  // namespace
}  // namespace swingroom
