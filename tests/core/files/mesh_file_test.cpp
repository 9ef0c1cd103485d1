#include "core/files/mesh_file.h"

#include <gtest/gtest.h>

#include "core/base/parallel.h"
#include "core/mesh/mass_properties.h"
#include "core/mesh/weld.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

// What comes back is compared with the mesh that the test wrote, by writers that share nothing with
// the reader's libraries.

namespace swingroom {
namespace {

namespace w = writers;

/// Unlike in every axis and away from the origin, so that no mix-up of axes or signs stays hidden.
/// Its numbers are exact in single precision.
TriangleMesh lid() {
  return shapes::box({1, 2, 3}, {11, 22, 33});
}

MeshFile readBack(const std::string& name, const std::string& bytes) {
  const TempFolder folder;
  const auto file = folder.write(name, bytes);
  auto outcome = MeshReader::besideThisProgram().read(file);
  if (outcome.ok()) return *std::move(outcome);
  ADD_FAILURE() << toText(outcome.problems().front());
  return {};
}

/// Same triangles in the same order, corners within `toleranceMm`, no vertex twice.
void expectSame(const TriangleMesh& actual, const TriangleMesh& expected, double toleranceMm) {
  ASSERT_EQ(actual.triangles.size(), expected.triangles.size());
  EXPECT_EQ(actual.vertices.size(), welded(expected).vertices.size());
  for (std::size_t t = 0; t < expected.triangles.size(); ++t) {
    for (int i = 0; i < 3; ++i) {
      EXPECT_LE((actual.corner(t, i) - expected.corner(t, i)).norm(), toleranceMm);
    }
  }
}

void expectLid(const MeshFile& file) {
  expectSame(file.mesh, lid(), 0);
}

TEST(MeshFiles, BinaryStlComesBackInMillimetresWithItsUnitAssumed) {
  const MeshFile file = readBack("lid.stl", w::binaryStl(lid()));
  expectLid(file);
  EXPECT_EQ(file.unit, "mm");
  EXPECT_TRUE(file.unitAssumed);
  EXPECT_FALSE(file.colour.has_value());
  EXPECT_TRUE(file.objects.empty());
}

// Many programs write binary files whose 80 free bytes start like an ASCII file.
TEST(MeshFiles, BinaryStlThatStartsWithSolidIsReadAsBinary) {
  expectLid(readBack("lid.stl", w::binaryStl(lid(), "solid lid")));
}

TEST(MeshFiles, AsciiStlComesBackWithItsName) {
  const MeshFile file = readBack("lid.stl", w::asciiStl(lid()));
  expectLid(file);
  EXPECT_EQ(file.objects, std::vector<std::string>{"lid"});
}

TEST(MeshFiles, EndingInCapitalsIsKnown) {
  expectLid(readBack("LID.STL", w::binaryStl(lid())));
  EXPECT_TRUE(MeshReader::knows("a/b.3MF"));
  EXPECT_TRUE(MeshReader::knows("a/b.STP"));
  EXPECT_FALSE(MeshReader::knows("a/b.iges"));
  EXPECT_FALSE(MeshReader::knows("stl"));
}

TEST(MeshFiles, NameWithBlanksDashesAndAccentsIsRead) {
  expectLid(readBack("-lid d'été \"1\".stl", w::binaryStl(lid())));
}

TEST(MeshFiles, ObjComesBack) {
  const MeshFile file = readBack("lid.obj", w::obj(lid()));
  expectLid(file);
  EXPECT_TRUE(file.unitAssumed);
  EXPECT_EQ(file.objects, std::vector<std::string>{"lid"});
}

TEST(MeshFiles, ObjFacesOfFourCornersAreSplit) {
  const MeshFile file =
      readBack("lid.obj",
               "v 0 0 0\nv 1 0 0\nv 1 2 0\nv 0 2 0\nv 0 0 3\nv 1 0 3\nv 1 2 3\nv 0 2 3\n"
               "f 1 4 3 2\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n");
  EXPECT_EQ(file.mesh.triangles.size(), 12u);
  EXPECT_DOUBLE_EQ(massProperties(file.mesh).volumeMm3, 6);
  EXPECT_TRUE(examine(file.mesh).closed());
}

TEST(MeshFiles, ObjectsOfOneFileAreJoined) {
  const TriangleMesh pin = shapes::box({20, 0, 0}, {21, 1, 1});
  std::string second = w::obj(pin, "pin");
  // Negative numbers count back from the last vertex.
  second.erase(second.find("f "));
  second += "f -8 -6 -7\n";
  const MeshFile file = readBack("two.obj", w::obj(lid()) + second);
  EXPECT_EQ(file.mesh.triangles.size(), 13u);
  EXPECT_EQ(file.objects, (std::vector<std::string>{"lid", "pin"}));
  EXPECT_EQ(file.mesh.corner(12, 0), pin.vertices[0]);
}

TEST(MeshFiles, PlyComesBackInEachEncoding) {
  for (const auto encoding :
       {w::PlyEncoding::ascii, w::PlyEncoding::littleEndian, w::PlyEncoding::bigEndian}) {
    const MeshFile file = readBack("lid.ply", w::ply(lid(), encoding));
    expectLid(file);
    EXPECT_TRUE(file.unitAssumed);
  }
}

/// The mesh that a file with Y up holds if its numbers are those of `mesh`, in `unitMm`. By the
/// meaning of the axes: what is up in the file (y) is up here (z), what points to the viewer (z)
/// points to -y.
TriangleMesh fromYUp(TriangleMesh mesh, double unitMm) {
  for (auto& p : mesh.vertices) p = unitMm * Eigen::Vector3d(p.x(), -p.z(), p.y());
  return mesh;
}

/// Single precision in the file: 33 mm are right to 33 * 2^-24.
constexpr double kFloatMm = 2e-6;

TriangleMesh lidInMetres() {
  return shapes::box({0.001, 0.002, 0.003}, {0.011, 0.022, 0.033});
}

// glTF 2.0 specification, 3.4: metres, +Y up, +Z forward.
TEST(MeshFiles, GltfComesBackInMillimetresWithZUp) {
  for (const bool binary : {false, true}) {
    const MeshFile file = binary ? readBack("lid.glb", w::glb(lidInMetres()))
                                 : readBack("lid.gltf", w::gltf(lidInMetres()));
    expectSame(file.mesh, fromYUp(lidInMetres(), 1000), kFloatMm);
    EXPECT_GT(massProperties(file.mesh).volumeMm3, 0);
    EXPECT_EQ(file.unit, "m");
    EXPECT_FALSE(file.unitAssumed);
    EXPECT_EQ(file.objects, std::vector<std::string>{"lid"});
    EXPECT_FALSE(file.colour.has_value());
  }
}

TEST(MeshFiles, GltfNodesArePlacedAndMirroredOnesStayOutwards) {
  const std::string nodes =
      R"([{"name":"top","children":[1,2],"scale":[2,2,2]},{"name":"lid","mesh":0,"translation":[0,1,0]},)"
      R"({"name":"left","mesh":0,"scale":[-1,1,1]}])";
  const MeshFile file = readBack("lid.gltf", w::gltf(lidInMetres(), nodes));
  const TriangleMesh here = fromYUp(lidInMetres(), 2000);
  ASSERT_EQ(file.mesh.triangles.size(), 24u);
  EXPECT_LE((file.mesh.corner(0, 0) - here.corner(0, 0) - Eigen::Vector3d(0, 0, 2000)).norm(),
            2e-4);
  const Eigen::Vector3d mirrored = here.corner(0, 0).cwiseProduct(Eigen::Vector3d(-1, 1, 1));
  EXPECT_LE((file.mesh.corner(12, 0) - mirrored).norm(), 2 * kFloatMm);
  for (const Shell& shell : examine(file.mesh).shells) EXPECT_NEAR(shell.volumeMm3, 8 * 6000, 0.1);
  EXPECT_EQ(file.objects, (std::vector<std::string>{"lid", "left"}));
}

// IEC 61966-2-1: 128 of 255 is 0.2158605 in linear light.
TEST(MeshFiles, GltfColourIsGivenAsShown) {
  const std::string orange = R"({"pbrMetallicRoughness":{"baseColorFactor":[1,0.2158605,0,1]}})";
  const auto file = readBack("lid.gltf", w::gltf(lidInMetres(), R"([{"mesh":0}])", orange));
  EXPECT_EQ(file.colour, "#FF8000");
}

TEST(MeshFiles, ObjColourComesFromItsMaterialFile) {
  const TempFolder folder;
  folder.write("lid.mtl", "newmtl a\nKd 0 1 0.2\nnewmtl b\nKd 1 0 0\n");
  const MeshReader reader = MeshReader::besideThisProgram();
  const std::string text = "mtllib lid.mtl\nv 0 0 0\nv 1 0 0\nv 0 1 0\nusemtl a\nf 1 2 3\n";
  EXPECT_EQ(reader.read(folder.write("one.obj", text)).value().colour, "#00FF33");
  const auto two = reader.read(folder.write("two.obj", text + "usemtl b\nf 1 2 3\n"));
  EXPECT_EQ(two.value().colour, std::nullopt);
}

TEST(MeshFiles, DaeInCentimetresWithZUpKeepsItsAxes) {
  const std::string unit = R"(<unit name="centimeter" meter="0.01"/>)";
  const MeshFile file = readBack("lid.dae", w::dae(lid(), unit, "Z_UP"));
  expectSame(file.mesh, shapes::box({10, 20, 30}, {110, 220, 330}), 1e-9);
  EXPECT_EQ(file.unit, "cm");
  EXPECT_FALSE(file.unitAssumed);
  EXPECT_EQ(file.objects, std::vector<std::string>{"lid"});
}

// COLLADA 1.4.1, "unit" and "up_axis": without them metres and Y_UP; X_UP: x up, -y right, z to the
// viewer.
TEST(MeshFiles, DaeWithoutUnitIsInMetresWithYUp) {
  const MeshFile file = readBack("lid.dae", w::dae(lidInMetres(), "", ""));
  expectSame(file.mesh, fromYUp(lidInMetres(), 1000), kFloatMm);
  EXPECT_EQ(file.unit, "m");
}

TEST(MeshFiles, DaeWithXUpIsTurned) {
  const MeshFile file =
      readBack("lid.dae", w::dae(lid(), R"(<unit name="inch" meter="0.0254"/>)", "X_UP"));
  TriangleMesh expected = lid();
  for (auto& p : expected.vertices) p = 25.4 * Eigen::Vector3d(-p.y(), -p.z(), p.x());
  expectSame(file.mesh, expected, 1e-9);
  EXPECT_EQ(file.unit, "inch");
}

// 3MF Core Specification 1.2, 3.4: the values of `unit`, and the millimetre if it is not there.
TEST(MeshFiles, ThreeMfIsReadInItsUnit) {
  struct Case {
    const char* unit;
    const char* name;
    double mm;
  };
  for (const Case& c :
       {Case{"", "mm", 1}, Case{"millimeter", "mm", 1}, Case{"micron", "micrometre", 0.001},
        Case{"centimeter", "cm", 10}, Case{"inch", "inch", 25.4}, Case{"foot", "foot", 304.8},
        Case{"meter", "m", 1000}}) {
    SCOPED_TRACE(c.unit);
    const auto bytes =
        w::threeMf(w::threeMfObject(1, "lid", lid()), R"(<item objectid="1"/>)", c.unit);
    const MeshFile file = readBack("lid.3mf", bytes);
    const auto expected = shapes::box(c.mm * Vector3d(1, 2, 3), c.mm * Vector3d(11, 22, 33));
    expectSame(file.mesh, expected, 1e-12 * c.mm);
    EXPECT_EQ(file.unit, c.name);
    EXPECT_FALSE(file.unitAssumed);
    EXPECT_EQ(file.objects, std::vector<std::string>{"lid"});
  }
}

// 3MF Core Specification 1.2, 3.3: row vectors times the matrix, its last row the translation.
TEST(MeshFiles, ThreeMfItemsAreTurnedMovedAndMirrored) {
  const std::string object = w::threeMfObject(1, "lid", lid());
  const auto turned = readBack(
      "lid.3mf",
      w::threeMf(object, R"(<item objectid="1" transform="0 1 0 -1 0 0 0 0 1 100 0 0"/>)", ""));
  const Pose X = translation({100, 0, 0}) * rotationAbout({0, 0, 0}, {0, 0, 1}, kPi / 2);
  expectSame(turned.mesh, shapes::moved(lid(), X), 1e-12);
  const auto mirrored = readBack(
      "lid.3mf",
      w::threeMf(object, R"(<item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>)", ""));
  EXPECT_DOUBLE_EQ(massProperties(mirrored.mesh).volumeMm3, 6000);
  EXPECT_EQ(boundsOf(mirrored.mesh).min(), Eigen::Vector3d(-11, 2, 3));
}

TEST(MeshFiles, ThreeMfComponentsArePlacedInTheirObject) {
  const std::string pair =
      w::threeMfObject(1, "lid", lid()) +
      R"(<object id="2" name="pair"><components><component objectid="1"/>)"
      R"(<component objectid="1" transform="1 0 0 0 1 0 0 0 1 50 0 0"/></components></object>)";
  const MeshFile file = readBack(
      "pair.3mf",
      w::threeMf(pair, R"(<item objectid="2" transform="1 0 0 0 1 0 0 0 1 0 0 7"/>)", "inch"));
  const TriangleMesh one = shapes::box(25.4 * Vector3d(1, 2, 10), 25.4 * Vector3d(11, 22, 40));
  expectSame(file.mesh, shapes::joined({one, shapes::moved(one, translation({25.4 * 50, 0, 0}))}),
             1e-9);
  EXPECT_EQ(file.objects, std::vector<std::string>{"pair"});
}

TEST(MeshFiles, ThreeMfSupportsAreLeftOut) {
  std::string support = w::threeMfObject(2, "support", shapes::box({0, 0, 0}, {1, 1, 1}));
  support.replace(support.find("\"model\""), 7, "\"support\"");
  const auto bytes = w::threeMf(w::threeMfObject(1, "lid", lid()) + support,
                                R"(<item objectid="1"/><item objectid="2"/>)", "");
  const MeshFile file = readBack("lid.3mf", bytes);
  expectLid(file);
  EXPECT_EQ(file.objects, std::vector<std::string>{"lid"});
}

TEST(MeshFiles, ThreeMfColourIsGivenIfThereIsExactlyOne) {
  const std::string materials =
      R"(<basematerials id="5"><base name="A" displaycolor="#FF8000FF"/><base name="B" displaycolor="#00FF00"/></basematerials>)";
  const std::string colours =
      R"(<m:colorgroup id="5"><m:color color="#0072B2"/><m:color color="#00FF00"/></m:colorgroup>)";
  const std::string first = R"(pid="5" pindex="0")", second = R"(pid="5" pindex="1")";
  const auto colourOf = [&](const std::string& resources, const std::string& items) {
    return readBack("lid.3mf", w::threeMf(resources, items, "")).colour;
  };
  const std::string one = R"(<item objectid="1"/>)",
                    both = R"(<item objectid="1"/><item objectid="2"/>)";
  EXPECT_EQ(colourOf(materials + w::threeMfObject(1, "lid", lid(), first), one), "#FF8000");
  EXPECT_EQ(colourOf(colours + w::threeMfObject(1, "lid", lid(), first), one), "#0072B2");
  const std::string two =
      w::threeMfObject(1, "lid", lid(), first) + w::threeMfObject(2, "pin", lid(), second);
  EXPECT_EQ(colourOf(materials + two, both), std::nullopt);
  EXPECT_EQ(colourOf(colours + two, both), std::nullopt);
  EXPECT_EQ(colourOf(w::threeMfObject(1, "lid", lid()), one), std::nullopt);
}

TEST(MeshFiles, SeveralThreadsReadAtOnce) {
  const TempFolder folder;
  const std::size_t count = 24;
  std::vector<MeshFile> files(count);
  const auto part = [](std::size_t i) {
    return shapes::cylinder(5, 0, static_cast<double>(1 + i), 32);
  };
  for (std::size_t i = 0; i < count; ++i) {
    folder.write(std::to_string(i) + ".stl", w::binaryStl(part(i)));
  }
  const MeshReader reader = MeshReader::besideThisProgram();
  parallelFor(count, 8, [&](std::size_t i) {
    auto outcome = reader.read(folder.path() / (std::to_string(i) + ".stl"));
    if (outcome.ok()) files[i] = *std::move(outcome);
  });
  for (std::size_t i = 0; i < count; ++i) {
    ASSERT_EQ(files[i].mesh.triangles.size(), 128u);
    EXPECT_EQ(boundsOf(files[i].mesh).max().z(), static_cast<double>(1 + i));
  }
}

}  // namespace
}  // namespace swingroom
