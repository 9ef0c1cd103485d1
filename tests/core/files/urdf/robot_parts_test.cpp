// What becomes of links: meshes with scales and units, boxes, cylinders and spheres, colours.
#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "core/mesh/health.h"
#include "tests/core/files/urdf/robot_folder.h"
#include "tests/support/shapes.h"

namespace swingroom::robots {
namespace {

/// Numbers of a mesh file are float32: 7 digits of some 100 mm.
constexpr double kFloatMm = 2e-5;

/// A lopsided wedge, so that every turn and mirroring shows; metres.
const std::vector<Vector3d> kCorners = {{0.1, 0.02, 0.03}, {0.4, 0.05, 0.07}, {0.2, 0.3, 0.011}};

TriangleMesh wedge() {
  TriangleMesh mesh;
  mesh.vertices = kCorners;
  mesh.triangles = {{0, 1, 2}};
  return mesh;
}

std::string linkWithMesh(const std::string& mesh) {
  return R"(<link name="a"><visual><origin xyz="1 2 3" rpy="0 0 1.5707963267948966"/><geometry>)" +
         mesh + "</geometry></visual></link>";
}

/// Where the origin above puts a point that is scaled by `scale`: a quarter turn left, then along.
Vector3d placed(const Vector3d& p, const Vector3d& scale) {
  const Vector3d q = p.cwiseProduct(scale);
  return 1000 * Vector3d(1 - q.y(), 2 + q.x(), 3 + q.z());
}

void expectCorners(const ReadRobot& robot, const std::vector<Vector3d>& wanted) {
  const Part& part = robot.loaded.assembly.parts().front();
  ASSERT_TRUE(part.mesh);
  ASSERT_EQ(part.mesh->vertices.size(), wanted.size());
  for (const Vector3d& corner : wanted) {
    double nearest = 1e9;
    for (const Vector3d& v : part.mesh->vertices) {
      nearest = std::min(nearest, (part.X_WP_home * v - corner).norm());
    }
    EXPECT_LT(nearest, 10 * kFloatMm) << corner.transpose();
  }
}

class ScaledMesh : public ::testing::TestWithParam<std::array<double, 3>> {};

TEST_P(ScaledMesh, StandsAsUrdfSays) {
  const auto& s = GetParam();
  const Vector3d scale(s[0], s[1], s[2]);
  const RobotFolder folder;
  folder.writeStl("a.stl", wedge());
  std::ostringstream mesh;
  mesh << "<mesh filename=\"a.stl\" scale=\"" << scale.transpose() << "\"/>";
  folder.write("r.urdf", robotText(linkWithMesh(mesh.str())));
  const ReadRobot robot = readWell(folder / "r.urdf", folder / "r.swing.json");
  std::vector<Vector3d> wanted;
  for (const Vector3d& p : kCorners) wanted.push_back(placed(p, scale));
  expectCorners(robot, wanted);
  EXPECT_EQ(robot.part("a").mirror.has_value(), scale.prod() < 0);
  EXPECT_DOUBLE_EQ(robot.part("a").scale, 1000 * std::abs(s[0])) << "an STL file is in metres";
}

INSTANTIATE_TEST_SUITE_P(
    Signs, ScaledMesh,
    ::testing::Values(std::array<double, 3>{1, 1, 1}, std::array<double, 3>{0.5, 0.5, 0.5},
                      std::array<double, 3>{-2, 2, 2}, std::array<double, 3>{1, -1, 1},
                      std::array<double, 3>{1, 1, -1}, std::array<double, 3>{-1, -1, 1},
                      std::array<double, 3>{-1, -1, -1}));

struct DaeCase {
  const char* upAxis;
  double metresPerUnit;
};

class DaeMesh : public ::testing::TestWithParam<DaeCase> {};

/// The numbers are taken as they stand, in the file's unit; its up axis is left out.
TEST_P(DaeMesh, IsTakenInItsUnitAndNotTurned) {
  const DaeCase& dae = GetParam();
  const RobotFolder folder;
  folder.writeDae("a.dae", dae.upAxis, dae.metresPerUnit, kCorners);
  folder.write("r.urdf", robotText(linkWithMesh(R"(<mesh filename="a.dae" scale="-1 1 1"/>)")));
  const ReadRobot robot = readWell(folder / "r.urdf", folder / "r.swing.json");
  std::vector<Vector3d> wanted;
  for (const Vector3d& p : kCorners) {
    wanted.push_back(placed(p, dae.metresPerUnit * Vector3d(-1, 1, 1)));
  }
  expectCorners(robot, wanted);
}

INSTANTIATE_TEST_SUITE_P(UpAxes, DaeMesh,
                         ::testing::Values(DaeCase{"<up_axis>Y_UP</up_axis>", 1},
                                           DaeCase{"<up_axis>Z_UP</up_axis>", 1},
                                           DaeCase{"<up_axis>X_UP</up_axis>", 1}, DaeCase{"", 1},
                                           DaeCase{"<up_axis>Y_UP</up_axis>", 0.01},
                                           DaeCase{"<up_axis>Z_UP</up_axis>", 0.0254}));

/// The package has each link of this arm as DAE (Y up) and as STL, which has no up axis, from one
/// model: with the up axis left out, and only so, both are in one place.
TEST(DaeMesh, OfARealArmLiesWhereItsStlTwinLies) {
  const auto arm = kDart / "urdf/wam/meshes/wam";
  const RobotFolder folder;
  for (const char* name : {"wam1", "wam2", "wam4"}) {
    const auto mesh = [&](const char* ending) {
      return "<visual><geometry><mesh filename=\"" + (arm / name).string() + ending +
             "\"/></geometry></visual>";
    };
    folder.write("r.urdf",
                 robotText("<link name=\"a\">" + mesh(".dae") + mesh(".STL") + "</link>"));
    const ReadRobot robot = readWell(folder / "r.urdf", folder / "r.swing.json");
    Eigen::AlignedBox3d boxes[2];
    for (std::size_t i = 0; i < 2; ++i) {
      const Part& part = robot.loaded.assembly.parts().at(i);
      for (const Vector3d& v : part.mesh->vertices) boxes[i].extend(part.X_WP_home * v);
    }
    // They were exported with different fineness: 1 mm of 200 mm; a turn would show as 50 mm.
    EXPECT_LT((boxes[0].min() - boxes[1].min()).norm(), 1.5) << name;
    EXPECT_LT((boxes[0].max() - boxes[1].max()).norm(), 1.5) << name;
  }
}

struct Solid {
  const char* shape;
  double volumeMm3;  ///< Closed form.
  Vector3d sizeMm;
  double radiusMm;  ///< 0: no round faces.
};

class PlainShape : public ::testing::TestWithParam<Solid> {};

TEST_P(PlainShape, IsAClosedMeshWithItsVolumeAndSizeWithinWhatIsTold) {
  const Solid& solid = GetParam();
  const RobotFolder folder;
  folder.write("r.urdf", robotText(std::string("<link name=\"a\"><visual><geometry>") +
                                   solid.shape + "</geometry></visual></link>"));
  const ReadRobot robot = readWell(folder / "r.urdf", folder / "r.swing.json");
  const TriangleMesh& mesh = *robot.loaded.assembly.parts().front().mesh;
  const MeshHealth health = examine(mesh);
  EXPECT_TRUE(health.closed());
  // Corners on the surface, facets inside it by no more than the greater of 0.05 mm and 1/2000.
  const double insideMm = solid.radiusMm > 0 ? std::max(0.05, solid.radiusMm / 2000) : 0;
  double areaMm2 = 0;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    areaMm2 += (mesh.corner(t, 1) - mesh.corner(t, 0))
                   .cross(mesh.corner(t, 2) - mesh.corner(t, 0))
                   .norm() /
               2;
  }
  const double volume = health.volumeMm3;
  EXPECT_LE(volume, solid.volumeMm3 * (1 + 1e-6));
  EXPECT_GE(volume, solid.volumeMm3 * (1 - 1e-6) - areaMm2 * insideMm);
  EXPECT_LT((boundsOf(mesh).sizes() - solid.sizeMm).norm(), kFloatMm * solid.sizeMm.norm());
  EXPECT_LT(boundsOf(mesh).center().norm(), kFloatMm * solid.sizeMm.norm());
}

const double kPiNow = 3.14159265358979;
INSTANTIATE_TEST_SUITE_P(
    Shapes, PlainShape,
    ::testing::Values(
        Solid{R"(<box size="0.1 0.2 0.05"/>)", 100.0 * 200 * 50, {100, 200, 50}, 0},
        Solid{R"(<cylinder radius="0.02" length="0.3"/>)", kPiNow * 400 * 300, {40, 40, 300}, 20},
        Solid{
            R"(<cylinder radius="1" length="2"/>)", kPiNow * 1e6 * 2000, {2000, 2000, 2000}, 1000},
        Solid{R"(<sphere radius="0.03"/>)", 4.0 / 3 * kPiNow * 27000, {60, 60, 60}, 30},
        Solid{R"(<sphere radius="0.0005"/>)", 4.0 / 3 * kPiNow * 0.125, {1, 1, 1}, 0.5}));

/// The deepest that a facet lies inside is what is told, not more: distance of each facet's plane.
TEST(PlainShapes, TellHowFarTheirFacetsLieInside) {
  const RobotFolder folder;
  folder.write("r.urdf", robotText(R"(<link name="a"><visual><geometry><sphere radius="0.2"/>
      </geometry></visual></link>)"));
  const ReadRobot robot = readWell(folder / "r.urdf", folder / "r.swing.json");
  const TriangleMesh& mesh = *robot.loaded.assembly.parts().front().mesh;
  double deepestMm = 0;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Vector3d& a = mesh.corner(t, 0);
    const Vector3d n = (mesh.corner(t, 1) - a).cross(mesh.corner(t, 2) - a).normalized();
    deepestMm = std::max(deepestMm, 200 - std::abs(n.dot(a)));
  }
  double toldMm = 0;
  for (const std::string& sentence : robot.made.found) {
    const auto at = sentence.find("lie up to ");
    if (at != std::string::npos) toldMm = std::stod(sentence.substr(at + 10));
  }
  EXPECT_LE(deepestMm, toldMm);
  EXPECT_GE(deepestMm, toldMm - 0.002) << "told to 0.001 mm, upwards";
  EXPECT_LE(toldMm, 0.1 + 0.001) << "1/2000 of the radius";
}

TEST(RobotParts, EqualShapesShareOneFileBesideTheAssembly) {
  const RobotFolder folder;
  folder.write("r.urdf", robotText(R"(
    <link name="a"><visual><geometry><box size="0.1 0.1 0.1"/></geometry></visual></link>
    <link name="b"><visual><geometry><box size=" 0.1  0.100 1e-1"/></geometry></visual></link>
    <joint name="j" type="fixed"><parent link="a"/><child link="b"/></joint>)"));
  const ReadRobot robot = readWell(folder / "r.urdf", folder / "my robot.swing.json");
  EXPECT_EQ(robot.made.files.size(), 1u);
  EXPECT_EQ(robot.part("a").stages.at("block"), "my robot_shapes/box_100x100x100.stl");
  EXPECT_EQ(robot.part("a").stages, robot.part("b").stages);
}

TEST(RobotParts, FurtherShapesOfALinkAreFixedToItsFirstAndMayOverlapIt) {
  const RobotFolder folder;
  folder.write("r.urdf", robotText(R"(
    <link name="a"><visual><geometry><box size="0.1 0.1 0.1"/></geometry></visual>
      <visual name="lid"><geometry><box size="0.1 0.1 0.2"/></geometry></visual>
      <visual><geometry><sphere radius="0.1"/></geometry></visual></link>)"));
  const ReadRobot robot = readWell(folder / "r.urdf", folder / "r.swing.json");
  ASSERT_EQ(robot.made.document.parts.size(), 3u);
  EXPECT_EQ(robot.made.document.parts[1].name, "lid");
  EXPECT_EQ(robot.made.document.parts[2].name, "a 2");
  ASSERT_EQ(robot.made.document.joints.size(), 2u);
  for (const DocumentJoint& joint : robot.made.document.joints) {
    EXPECT_EQ(joint.type, JointType::fixed);
    EXPECT_EQ(joint.parent, "a");
  }
  ASSERT_EQ(robot.made.document.pairs.size(), 3u);
  for (const DocumentPair& pair : robot.made.document.pairs) {
    EXPECT_EQ(pair.allow, "both are shapes of the link a");
  }
}

TEST(RobotParts, ColoursComeFromMaterialsOfTheirOwnAndOfTheRobot) {
  const RobotFolder folder;
  folder.write("r.urdf", robotText(R"(
    <material name="sea"><color rgba="0 0.5 1 1"/></material>
    <link name="a"><visual><geometry><box size="1 1 1"/></geometry><material name="sea"/></visual>
      <visual><geometry><box size="1 1 1"/></geometry><material name=""><color rgba="1 0 0 0.4"/>
      </material></visual></link>
    <link name="b"><visual><geometry><box size="1 1 1"/></geometry><material name="later"/></visual></link>
    <link name="c"><visual><geometry><box size="1 1 1"/></geometry><material name="later">
      <color rgba="1 1 0 1"/></material></visual></link>
    <link name="d"><visual><geometry><box size="1 1 1"/></geometry><material name="nowhere"/></visual></link>
    <joint name="b" type="fixed"><parent link="a"/><child link="b"/></joint>
    <joint name="c" type="fixed"><parent link="a"/><child link="c"/></joint>
    <joint name="d" type="fixed"><parent link="a"/><child link="d"/></joint>)"));
  const ReadRobot robot = readWell(folder / "r.urdf", folder / "r.swing.json");
  EXPECT_EQ(robot.part("a").colour, "#0080FF");
  EXPECT_EQ(robot.part("a 2").colour, "#FF0000");
  EXPECT_EQ(robot.part("a 2").clear, true);
  EXPECT_EQ(robot.part("b").colour, "#FFFF00");
  EXPECT_EQ(robot.part("c").colour, "#FFFF00");
  expectTold(robot.made.notes, 1, {"there is no material \"nowhere\"", "line 10"});
}

TEST(RobotParts, CollisionGeometryIsTakenIfAskedForAndWhereThereIsNoOther) {
  const RobotFolder folder;
  const char* const body = R"(
    <link name="a"><visual><geometry><box size="0.1 0.1 0.1"/></geometry>
      <material name="m"><color rgba="1 0 0 1"/></material></visual>
      <collision><geometry><box size="0.2 0.2 0.2"/></geometry></collision></link>
    <link name="b"><collision><geometry><box size="0.3 0.3 0.3"/></geometry></collision></link>
    <link name="c"><visual><geometry><box size="0.4 0.4 0.4"/></geometry></visual></link>
    <joint name="b" type="fixed"><parent link="a"/><child link="b"/></joint>
    <joint name="c" type="fixed"><parent link="a"/><child link="c"/></joint>)";
  folder.write("r.urdf", robotText(body));
  const ReadRobot seen = readWell(folder / "r.urdf", folder / "r.swing.json");
  EXPECT_EQ(seen.part("a").stages.at("block"), "r_shapes/box_100x100x100.stl");
  EXPECT_EQ(seen.part("b").stages.at("block"), "r_shapes/box_300x300x300.stl");
  expectTold(seen.made.notes, 1, {"1 link has no visual geometry", "\"b\""});
  RobotWish wish;
  wish.collision = true;
  const ReadRobot hit = readWell(folder / "r.urdf", folder / "r.swing.json", wish);
  EXPECT_EQ(hit.part("a").stages.at("block"), "r_shapes/box_200x200x200.stl");
  EXPECT_EQ(hit.part("a").colour, "#FF0000") << "the colour is that of what is seen";
  EXPECT_EQ(hit.part("c").stages.at("block"), "r_shapes/box_400x400x400.stl");
  expectTold(hit.made.notes, 1, {"1 link has no collision geometry", "\"c\""});
}

}  // namespace
}  // namespace swingroom::robots
