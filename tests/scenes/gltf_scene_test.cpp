// What tinygltf writes, and what must come of it by the glTF 2.0 specification: metres, Y up, nodes
// T * R * S under their parents.
#include <cmath>

#include "tests/scenes/read_back.h"
#include "tests/scenes/writers/gltf_writer.h"

namespace swingroom {
namespace {

using writers::GltfWriter;

/// In the file's metres, Y up; exact in single precision.
TriangleMesh brick() { return shapes::box({0.25, 0.5, 0.75}, {0.5, 1, 2}); }

/// (x, y, z) m with Y up is (x, -z, y) with Z up.
Eigen::Affine3d toMillimetres() {
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  X.linear() << 1000, 0, 0, 0, 0, -1000, 0, 1000, 0;
  return X;
}

TEST(GltfScene, EveryNodeWithAMeshIsAPartUnderItsParents) {
  for (const char* name : {"figure.glb", "figure.gltf"}) {
    const TempFolder folder;
    GltfWriter writer;
    const int mesh = writer.addMesh("brick mesh", brick(), Vector3d(1, 0, 0));
    const int other = writer.addMesh("", brick());
    const Eigen::Quaterniond turn(Eigen::AngleAxisd(0.75, Vector3d(2, 1, 2) / 3));
    const int torso = writer.addNode({"torso", mesh, -1, Vector3d(1, 2, 3), turn});
    const int empty = writer.addNode({"shoulder", -1, torso, Vector3d(0, 1, 0), {}, Vector3d(2, 2, 2)});
    writer.addNode({"arm", other, empty, {}, turn});
    writer.addNode({"", other, empty, Vector3d(5, 0, 0)});
    writer.addNode({"lone", mesh, -1, {}, {}, Vector3d(-1, 1, 1)});
    writer.write(folder.path() / name);
    const auto made = newFrom(folder.path() / name, folder);
    ASSERT_TRUE(made.ok()) << textOf(made.problems());
    std::vector<std::string> names;
    for (const DocumentPart& part : made->document.parts) names.push_back(part.name);
    EXPECT_EQ(names, (std::vector<std::string>{"torso", "arm", "shoulder", "lone"}));
    const auto back = loaded(*made, folder);
    ASSERT_TRUE(back.ok()) << textOf(back.problems());
    const Eigen::Affine3d X_torso = Eigen::Translation3d(1, 2, 3) * turn;
    const Eigen::Affine3d X_shoulder = X_torso * Eigen::Translation3d(0, 1, 0) * Eigen::Scaling(2.0);
    const auto expectAt = [&](const char* part, const Eigen::Affine3d& X) {
      // JSON numbers in double, corners in single precision of numbers up to 4000 mm.
      expectSameSurface(standing(*back, part), transformed(brick(), toMillimetres() * X), 2e-3);
    };
    expectAt("torso", X_torso);
    expectAt("arm", X_shoulder * turn);
    expectAt("shoulder", X_shoulder * Eigen::Translation3d(5, 0, 0));
    expectAt("lone", Eigen::Affine3d(Eigen::Scaling(-1.0, 1.0, 1.0)));
    const DocumentPart* lone = partNamed(made->document, "lone");
    EXPECT_EQ(lone->stages.at("block"), std::string(name) + "#torso") << "one mesh, one source";
    ASSERT_TRUE(lone->mirror);
    EXPECT_FALSE(lone->placement) << "a mirror in its own plane and nothing else";
    EXPECT_EQ(lone->colour, "#FF0000");
    EXPECT_EQ(partNamed(made->document, "arm")->scale, 2);
  }
}

TEST(GltfScene, MatrixOfANodeIsReadColumnByColumn) {
  const TempFolder folder;
  GltfWriter writer;
  const Eigen::Affine3d X =
      Eigen::Translation3d(0.5, -0.25, 1) * Eigen::AngleAxisd(1, Vector3d::UnitZ());
  GltfWriter::Node node{"a", writer.addMesh("", brick())};
  node.matrix = X.matrix();
  writer.addNode(node);
  writer.write(folder.path() / "figure.glb");
  const auto made = newFrom(folder.path() / "figure.glb", folder);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  const auto back = loaded(*made, folder);
  ASSERT_TRUE(back.ok()) << textOf(back.problems());
  expectSameSurface(standing(*back, "a"), transformed(brick(), toMillimetres() * X), 1e-3);
}

TEST(GltfScene, NamesThatAreTwiceThereAreNumberedAndGivenOnesKept) {
  const TempFolder folder;
  GltfWriter writer;
  const int mesh = writer.addMesh("", brick());
  double x = 0;
  for (const char* name : {"leg", "leg", "leg 2", "a/b#c", "leg"}) {
    writer.addNode({name, mesh, -1, Vector3d(x += 10, 0, 0)});
  }
  writer.write(folder.path() / "figure.glb");
  const auto made = newFrom(folder.path() / "figure.glb", folder);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  std::vector<std::string> names;
  for (const DocumentPart& part : made->document.parts) names.push_back(part.name);
  EXPECT_EQ(names, (std::vector<std::string>{"leg", "leg 3", "leg 2", "a/b#c", "leg 4"}));
}

TEST(GltfScene, AFileWithoutAnyMeshIsToldInWords) {
  const TempFolder folder;
  GltfWriter writer;
  writer.addNode({"camera"});
  writer.write(folder.path() / "figure.glb");
  const auto made = newFrom(folder.path() / "figure.glb", folder);
  ASSERT_FALSE(made.ok());
  EXPECT_EQ(made.problems().size(), 1u);
}

TEST(GltfScene, APartThatTheFileNoLongerHasIsToldWithThoseThatItHas) {
  const TempFolder folder;
  const auto write = [&](const char* name) {
    GltfWriter writer;
    const int mesh = writer.addMesh("", brick());
    writer.addNode({name, mesh});
    writer.addNode({"head", mesh, -1, Vector3d(5, 0, 0)});
    writer.write(folder.path() / "figure.glb");
  };
  write("torso");
  const auto made = newFrom(folder.path() / "figure.glb", folder);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  write("torsoe");
  const auto back = loaded(*made, folder);
  ASSERT_FALSE(back.ok());
  const std::string text = textOf(back.problems());
  EXPECT_NE(text.find("no part \"torso\""), std::string::npos) << text;
  EXPECT_NE(text.find("\"torsoe\""), std::string::npos) << text;
  EXPECT_NE(text.find("head"), std::string::npos) << text;
  EXPECT_NE(text.find("/parts/0/stages/block"), std::string::npos) << text;
}

}  // namespace
}  // namespace swingroom
