#include <gtest/gtest.h>
#include <unistd.h>

#include <cstring>
#include <limits>

#include "core/files/mesh_file.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

// Each bad file: one problem, in the file's name, that says what a maker can act on.

namespace swingroom {
namespace {

namespace w = writers;

TriangleMesh plate() {
  return shapes::box({1, 2, 3}, {11, 22, 33});
}

TriangleMesh plateWith(double coordinate) {
  TriangleMesh mesh = plate();
  mesh.vertices[6].x() = coordinate;
  return mesh;
}

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();

/// @param place  ", triangle 3", or nothing for the whole file.
void expectProblem(const std::string& name, const std::string& bytes, const std::string& place,
                   const std::string& what) {
  SCOPED_TRACE(name + ": " + what);
  const TempFolder folder;
  const auto file = folder.write(name, bytes);
  const auto outcome = MeshReader::besideThisProgram().read(file);
  ASSERT_FALSE(outcome.ok());
  ASSERT_EQ(outcome.problems().size(), 1u);
  const Problem& problem = outcome.problems().front();
  EXPECT_EQ(problem.where, file.string() + place);
  EXPECT_NE(problem.what.find(what), std::string::npos) << toText(problem);
  EXPECT_FALSE(problem.hint.empty());
  EXPECT_EQ(problem.what.find('\n'), std::string::npos);
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

std::string cutBy(std::string bytes, std::size_t count) {
  bytes.resize(bytes.size() - count);
  return bytes;
}

std::string floats(const Eigen::Vector3d& p) {
  const Eigen::Vector3f narrow = p.cast<float>();
  return std::string(reinterpret_cast<const char*>(narrow.data()), sizeof narrow);
}

TEST(BadMeshFiles, MissingFile) {
  const auto outcome = MeshReader::besideThisProgram().read("no/such/lid.stl");
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(toText(outcome.problems()[0]),
            "no/such/lid.stl: there is no such file (check its name and folder)");
}

TEST(BadMeshFiles, Folder) {
  const TempFolder folder;
  const auto outcome = MeshReader::besideThisProgram().read(folder.path());
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.problems()[0].what, "is a folder, not a file");
}

TEST(BadMeshFiles, Device) {
  const auto outcome = MeshReader::besideThisProgram().read("/dev/zero");
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.problems()[0].what, "is not a plain file");
}

TEST(BadMeshFiles, UnreadableFile) {
  if (geteuid() == 0) GTEST_SKIP() << "root may read everything";
  const TempFolder folder;
  const auto file = folder.write("lid.stl", w::binaryStl(plate()));
  std::filesystem::permissions(file, std::filesystem::perms::none);
  const auto outcome = MeshReader::besideThisProgram().read(file);
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.problems()[0].what, "may not be read");
}

TEST(BadMeshFiles, UnknownEnding) {
  expectProblem("lid.iges", "x", "", "has the ending '.iges', which is none that is read");
  expectProblem("lid", "x", "", "has no ending");
}

TEST(BadMeshFiles, EmptyFileOfEachFormat) {
  for (const char* ending : {"stl", "obj", "ply", "gltf", "glb", "dae", "3mf"}) {
    expectProblem(std::string("lid.") + ending, "", "", "is empty");
  }
}

TEST(BadMeshFiles, PictureUnderEachEnding) {
  std::string png("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16);
  png += std::string(500, '\7');
  for (const char* ending : {"stl", "obj", "ply", "gltf", "glb", "dae", "3mf"}) {
    expectProblem(std::string("lid.") + ending, png, "", "its content is a PNG picture");
  }
}

TEST(BadMeshFiles, OtherMeshFormatUnderTheEnding) {
  expectProblem("lid.gltf", w::glb(plate()), "", "is not glTF: its content is a GLB mesh");
  expectProblem("lid.stl", w::ply(plate(), w::PlyEncoding::ascii), "", "its content is a PLY mesh");
  expectProblem("lid.obj", w::dae(plate(), "", ""), "", "its content is an XML text");
}

TEST(BadMeshFiles, TextUnderEachEnding) {
  std::string text;
  for (int i = 0; i < 40; ++i) text += "the quick brown fox jumps over the lazy dog\n";
  for (const char* ending : {"stl", "ply", "gltf", "glb", "dae", "3mf"}) {
    expectProblem(std::string("lid.") + ending, text, "", "in spite of its ending");
  }
  expectProblem("lid.obj", text, "", "has no triangles");
}

TEST(BadMeshFiles, CutOffBinaryStl) {
  const std::string bytes = w::binaryStl(plate());
  expectProblem("lid.stl", cutBy(bytes, 70), "",
                "says that it has 12 triangles, but its size is right for 10 and a part of one");
  expectProblem(
      "lid.stl", cutBy(bytes, 100), "",
      "says that it has 12 triangles, but its size is right for 10: it is cut off or damaged");
  expectProblem("lid.stl", cutBy(w::binaryStl(plate(), "solid lid"), 70), "",
                "says that it has 12 triangles");
  expectProblem("lid.stl", bytes + "tail", "", "right for 12 and a part of one");
  expectProblem("lid.stl", bytes.substr(0, 60), "", "is not STL");
}

TEST(BadMeshFiles, StlThatClaimsTwoGigabytes) {
  std::string bytes = w::binaryStl(plate());
  const std::uint32_t claimed = 2u * 1000 * 1000 * 1000 / 50;
  std::memcpy(bytes.data() + 80, &claimed, sizeof claimed);
  expectProblem("lid.stl", bytes, "",
                "says that it has 40000000 triangles, but its size is right for 12");
}

// 50 * 2^31 is 0 modulo 2^32: in 32 bits this claim would agree with the file's size.
TEST(BadMeshFiles, StlWhoseClaimOverflowsToItsSize) {
  std::string bytes = w::binaryStl(plate());
  const std::uint32_t claimed = 12 + (1u << 31);
  std::memcpy(bytes.data() + 80, &claimed, sizeof claimed);
  expectProblem("lid.stl", bytes, "",
                "says that it has 2147483660 triangles, but its size is right for 12");
}

TEST(BadMeshFiles, CutOffAsciiStl) {
  const std::string text = w::asciiStl(plate());
  expectProblem("lid.stl", text.substr(0, text.find("endsolid")), "", "'endsolid'");
  expectProblem("lid.stl", text.substr(0, text.size() / 2), "", "");
}

TEST(BadMeshFiles, WordInsteadOfANumberInStl) {
  expectProblem("lid.stl", replaced(w::asciiStl(plate()), "vertex 11 22 33", "vertex abc 22 33"), "",
                "has something else where a number should be");
}

// Triangle 3 is the first of the box that uses corner 6, counted from 1 (tests/support/shapes.cpp).
TEST(BadMeshFiles, CornersThatAreNotFinite) {
  for (const double x : {kNaN, kInfinity, -kInfinity}) {
    expectProblem("lid.stl", w::binaryStl(plateWith(x)), ", triangle 3", "not at a finite place");
    expectProblem("lid.stl", w::asciiStl(plateWith(x)), ", triangle 3", "not at a finite place");
    expectProblem("lid.obj", w::obj(plateWith(x)), ", triangle 3", "not at a finite place");
    expectProblem("lid.ply", w::ply(plateWith(x), w::PlyEncoding::ascii), ", triangle 3",
                  "not at a finite place");
    expectProblem("lid.ply", w::ply(plateWith(x), w::PlyEncoding::bigEndian), ", triangle 3",
                  "not at a finite place");
    // In the data only: JSON has no word for such numbers.
    const std::string glb = replaced(w::glb(plate()), floats({11, 22, 33}), floats({x, 22, 33}));
    expectProblem("lid.glb", glb, ", triangle 3", "not at a finite place");
    expectProblem("lid.3mf",
                  w::threeMf(w::threeMfObject(1, "lid", plateWith(x)), R"(<item objectid="1"/>)", ""),
                  "", "not at a finite place");
  }
  expectProblem("lid.stl", replaced(w::asciiStl(plate()), "vertex 11 22 33", "vertex 1e99 22 33"),
                ", triangle 3", "not at a finite place");
}

TEST(BadMeshFiles, MeshWithoutTriangles) {
  TriangleMesh points = plate();
  points.triangles.clear();
  expectProblem("lid.stl", w::binaryStl(points), "", "has no triangles");
  expectProblem("lid.stl", w::asciiStl(points), "", "has no triangles");
  expectProblem("lid.obj", w::obj(points), "", "has no triangles");
  expectProblem("lid.ply", w::ply(points, w::PlyEncoding::ascii), "", "has no triangles");
  expectProblem("lid.3mf", w::threeMf(w::threeMfObject(1, "lid", plate()), "", ""), "",
                "has nothing to build");
}

TEST(BadMeshFiles, FaceThatNamesAMissingCorner) {
  TriangleMesh mesh = plate();
  mesh.triangles[3][1] = 77;
  expectProblem("lid.obj", w::obj(mesh), "", "corner which is not there");
  expectProblem("lid.dae", w::dae(mesh, "", ""), "", "corner which is not there");
  expectProblem("lid.glb", w::glb(mesh), "", "corners which are not there");
  expectProblem("lid.3mf",
                w::threeMf(w::threeMfObject(1, "lid", mesh), R"(<item objectid="1"/>)", ""), "",
                "corner which is not there");
  for (const auto encoding : {w::PlyEncoding::ascii, w::PlyEncoding::littleEndian}) {
    expectProblem("lid.ply", w::ply(mesh, encoding), ", face 4",
                  "names corner 77 (counted from 0)");
  }
}

TEST(BadMeshFiles, CutOffPly) {
  for (const auto encoding :
       {w::PlyEncoding::ascii, w::PlyEncoding::littleEndian, w::PlyEncoding::bigEndian}) {
    const std::string bytes = w::ply(plate(), encoding);
    const std::size_t body = bytes.find("end_header\n") + 11;
    const std::size_t lastFace = encoding == w::PlyEncoding::ascii ? 2 : 13;
    expectProblem("lid.ply", cutBy(bytes, lastFace), ", face 12 of 12", "it is cut off");
    expectProblem("lid.ply", bytes.substr(0, body), ", vertex 1 of 8", "it is cut off");
    expectProblem("lid.ply", bytes.substr(0, body - 20), "", "has no end of its header");
  }
}

TEST(BadMeshFiles, PlyWhoseHeaderDisagreesWithItsBody) {
  const std::string text = w::ply(plate(), w::PlyEncoding::ascii);
  expectProblem("lid.ply", replaced(text, "face 12", "face 2000000000"), ", face 13 of 2000000000",
                "cut off");
  expectProblem("lid.ply", replaced(text, "face 12", "face 5"), "",
                "has more in it than its header says");
  expectProblem("lid.ply", replaced(text, "face 12", "face -1"), ", line 8", "is not understood");
  expectProblem("lid.ply", replaced(text, "float y", "flota y"), ", line 6", "is not understood");
  expectProblem("lid.ply", replaced(text, "11 22 33", "11 abc 33"), ", vertex 7 of 8",
                "'abc' is not a number");
  expectProblem("lid.ply", replaced(text, "\n3 ", "\n-3 "), ", face 1 of 12",
                "'-3' is not the length of a list");
}

TEST(BadMeshFiles, CutOffGltf) {
  expectProblem("lid.glb", cutBy(w::glb(plate()), 30), "", "it is cut off or damaged");
  expectProblem("lid.glb", w::glb(plate()).substr(0, 9), "", "ends within its header");
  expectProblem("lid.gltf", cutBy(w::gltf(plate()), 40), "", "is cut off");
  expectProblem("lid.gltf", replaced(w::gltf(plate()), "\"count\":36", "\"count\":3600000"), "",
                "has less data than it says");
  std::string old = w::glb(plate());
  old[4] = 1;
  expectProblem("lid.glb", old, "", "is of glTF version 1, only 2 is read");
}

TEST(BadMeshFiles, CutOffDae) {
  expectProblem("lid.dae", cutBy(w::dae(plate(), "", ""), 100), "", "is not sound XML");
}

TEST(BadMeshFiles, BrokenThreeMf) {
  const std::string bytes =
      w::threeMf(w::threeMfObject(1, "lid", plate()), R"(<item objectid="1"/>)", "");
  expectProblem("lid.3mf", cutBy(bytes, 200), "", "is not a sound zip archive");
  expectProblem("lid.3mf", bytes.substr(0, 60), "", "is not a sound zip archive");
  expectProblem("lid.3mf", replaced(bytes, "<build>", "<built>"), "", "");
  expectProblem("lid.3mf", w::threeMf("<object", "", ""), "", "");
  expectProblem("lid.3mf",
                w::threeMf(w::threeMfObject(1, "lid", plate()), R"(<item objectid="9"/>)", ""), "",
                "");
  expectProblem("lid.3mf",
                w::threeMf(w::threeMfObject(1, "lid", plate()), R"(<item objectid="1"/>)", "parsec"),
                "", "has a unit that 3MF does not know");
}

}  // namespace
}  // namespace swingroom
