// Mesh files out: read back by what reads outside files, and against the bytes of their format's description.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "core/files/formats/writing/write_mesh.h"
#include "core/files/mesh_file.h"
#include "core/mesh/weld.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

/// With coordinates that single precision does not hold.
TriangleMesh oddBall() {
  TriangleMesh mesh = shapes::sphere(10.0 / 3, 2);
  for (Vector3d& p : mesh.vertices) p += Vector3d(100.0 / 7, -1.0 / 9, 0);
  return mesh;
}

TriangleMesh inSinglePrecision(TriangleMesh mesh) {
  for (Vector3d& p : mesh.vertices) p = p.cast<float>().cast<double>();
  return mesh;
}

/// The same triangles in the same order; corners may have other numbers.
void expectSameTriangles(const TriangleMesh& a, const TriangleMesh& b, double withinMm) {
  ASSERT_EQ(a.triangles.size(), b.triangles.size());
  for (std::size_t t = 0; t < a.triangles.size(); ++t) {
    for (int i = 0; i < 3; ++i) {
      ASSERT_LE((a.corner(t, i) - b.corner(t, i)).cwiseAbs().maxCoeff(), withinMm) << "triangle " << t;
    }
  }
}

TEST(MeshWriting, StlHasTheBytesOfItsDescription) {
  const TriangleMesh mesh = inSinglePrecision(oddBall());
  const std::string bytes = stlBytes(mesh, "ball");
  const std::string wanted = writers::binaryStl(mesh, "mm: ball");
  ASSERT_EQ(bytes.size(), wanted.size());
  EXPECT_EQ(bytes.size(), 84 + 50 * mesh.triangles.size());
  EXPECT_NE(bytes.substr(0, 5), "solid");
  // Normals apart, which are for show and rounded by each as it likes.
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    EXPECT_EQ(bytes.substr(84 + 50 * t + 12, 38), wanted.substr(84 + 50 * t + 12, 38));
  }
}

TEST(MeshWriting, StlAnd3mfComeBackAsTheyWere) {
  const TempFolder folder;
  const TriangleMesh mesh = oddBall();
  for (const char* name : {"ball.stl", "ball.3mf", "BALL.STL"}) {
    const auto file = folder.path() / name;
    ASSERT_FALSE(writeMesh(file, mesh, "head room")) << name;
    const Outcome<MeshFile> read = MeshReader::besideThisProgram().read(file);
    ASSERT_TRUE(read.ok()) << name << ": " << toText(read.problems().front());
    const bool isText = std::string(name) == "ball.3mf";
    // 3MF holds decimal text: lib3mf writes single precision to six decimals, and reads it so.
    expectSameTriangles(read->mesh, inSinglePrecision(mesh), isText ? 2e-6 : 0);
    EXPECT_EQ(read->unit, "mm");
    if (isText) {
      EXPECT_EQ(read->objects, std::vector<std::string>{"head room"});
    }
  }
}

TEST(MeshWriting, SaysWhyItCannotWrite) {
  const TempFolder folder;
  const auto wrong = writeMesh(folder.path() / "ball.obj", oddBall(), "ball");
  ASSERT_TRUE(wrong);
  EXPECT_NE(wrong->hint.find(".3mf"), std::string::npos);
  EXPECT_TRUE(writeMesh(folder.path() / "nowhere" / "ball.stl", oddBall(), "ball"));
  EXPECT_TRUE(writeMesh(folder.path() / "nowhere" / "ball.3mf", oddBall(), "ball"));
  EXPECT_TRUE(canWriteMesh("a.3MF"));
  EXPECT_FALSE(canWriteMesh("a.step"));
}

}  // namespace
}  // namespace swingroom
