// What lib3mf writes, and what must come of it by the 3MF Core Specification.
#include "tests/scenes/read_back.h"
#include "tests/scenes/writers/three_mf_writer.h"

namespace swingroom {
namespace {

using writers::ThreeMfWriter;

/// Unlike in every axis; exact in single precision.
TriangleMesh oblong() { return shapes::box({1, 2, 3}, {5, 10, 19}); }

Eigen::Affine3d turnAndMove() {
  return Eigen::Translation3d(10, -20, 30) * Eigen::AngleAxisd(0.5, Vector3d(1, 2, 2) / 3);
}

TEST(ThreeMfScene, ObjectsComeByNameWithColoursWhereTheyAreBuilt) {
  const TempFolder folder;
  ThreeMfWriter writer(ThreeMfWriter::Unit::millimetre);
  writer.build(writer.addMesh("torso", oblong(), {0x2F, 0x48, 0x58}));
  writer.build(writer.addMesh("head", oblong(), {0xEF, 0xE6, 0xD2}), turnAndMove());
  writer.build(writer.addMesh("prop", oblong(), {}, true));
  writer.write(folder.path() / "figure.3mf");
  const auto made = newFrom(folder.path() / "figure.3mf", folder);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  ASSERT_EQ(made->document.parts.size(), 2u) << "supports are left out";
  EXPECT_EQ(made->document.parts[0].name, "torso");
  EXPECT_EQ(made->document.parts[0].colour, "#2F4858");
  EXPECT_EQ(made->document.parts[0].stages.at("block"), "figure.3mf#torso");
  EXPECT_EQ(made->document.parts[1].name, "head");
  EXPECT_EQ(made->document.parts[1].colour, "#EFE6D2");
  const auto back = loaded(*made, folder);
  ASSERT_TRUE(back.ok()) << textOf(back.problems());
  expectSameSurface(standing(*back, "torso"), oblong(), 0);
  // Single precision of numbers up to 50: 4e-6.
  expectSameSurface(standing(*back, "head"), transformed(oblong(), turnAndMove()), 3e-5);
}

TEST(ThreeMfScene, InchesAndMetresBecomeMillimetres) {
  for (const auto& [unit, mm] : {std::pair(ThreeMfWriter::Unit::inch, 25.4),
                                 std::pair(ThreeMfWriter::Unit::metre, 1000.0)}) {
    const TempFolder folder;
    ThreeMfWriter writer(unit);
    writer.build(writer.addMesh("a", oblong()));
    writer.build(writer.addMesh("b", oblong()), Eigen::Affine3d(Eigen::Translation3d(2, 0, 0)));
    writer.write(folder.path() / "figure.3mf");
    const auto made = newFrom(folder.path() / "figure.3mf", folder);
    ASSERT_TRUE(made.ok()) << textOf(made.problems());
    const auto back = loaded(*made, folder);
    ASSERT_TRUE(back.ok()) << textOf(back.problems());
    expectSameSurface(standing(*back, "a"), transformed(oblong(), Eigen::Affine3d(Eigen::Scaling(mm))),
                      1e-9 * mm);
    EXPECT_EQ(partNamed(made->document, "b")->placement->at, (ThreeNumbers{2 * mm, 0, 0}));
  }
}

TEST(ThreeMfScene, ComponentsOfOneMeshAreOneSourceInSeveralPlaces) {
  const TempFolder folder;
  ThreeMfWriter writer(ThreeMfWriter::Unit::millimetre);
  const int wheel = writer.addMesh("wheel", oblong());
  Eigen::Affine3d mirrored = Eigen::Affine3d::Identity();
  mirrored.linear()(1, 1) = -1;
  mirrored.translation() = Vector3d(0, -40, 0);
  const int axle = writer.addComponents(
      "axle", {{wheel, Eigen::Affine3d(Eigen::Translation3d(0, 40, 0))}, {wheel, mirrored}});
  writer.build(axle, Eigen::Affine3d(Eigen::Translation3d(7, 0, 0)));
  writer.write(folder.path() / "cart.3mf");
  const auto made = newFrom(folder.path() / "cart.3mf", folder);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  ASSERT_EQ(made->document.parts.size(), 2u);
  const DocumentPart* second = partNamed(made->document, "wheel 2");
  ASSERT_TRUE(second);
  EXPECT_EQ(second->stages.at("block"), "cart.3mf#wheel");
  ASSERT_TRUE(second->mirror);
  EXPECT_EQ(second->mirror->normal, (ThreeNumbers{0, 1, 0}));
  EXPECT_EQ(second->placement->at, (ThreeNumbers{7, -40, 0}));
  EXPECT_EQ(second->placement->turn, (FourNumbers{1, 0, 0, 0}));
  const auto back = loaded(*made, folder);
  ASSERT_TRUE(back.ok()) << textOf(back.problems());
  expectSameSurface(standing(*back, "wheel 2"),
                    transformed(oblong(), Eigen::Translation3d(7, 0, 0) * mirrored), 1e-5);
}

TEST(ThreeMfScene, PartsWithoutNamesAreCalledAfterTheFileAndNumbered) {
  const TempFolder folder;
  ThreeMfWriter writer(ThreeMfWriter::Unit::millimetre);
  for (int i = 0; i < 3; ++i) {
    writer.build(writer.addMesh("", oblong()), Eigen::Affine3d(Eigen::Translation3d(20.0 * i, 0, 0)));
  }
  writer.write(folder.path() / "figure.3mf");
  const auto made = newFrom(folder.path() / "figure.3mf", folder);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  ASSERT_EQ(made->document.parts.size(), 3u);
  EXPECT_EQ(made->document.parts[0].name, "figure");
  EXPECT_EQ(made->document.parts[2].name, "figure 3");
}

TEST(ThreeMfScene, StretchedPartsAreRefusedAllInOneGo) {
  const TempFolder folder;
  ThreeMfWriter writer(ThreeMfWriter::Unit::millimetre);
  writer.build(writer.addMesh("sound", oblong()));
  writer.build(writer.addMesh("long", oblong()), Eigen::Affine3d(Eigen::Scaling(1.0, 1.0, 2.0)));
  Eigen::Affine3d shear = Eigen::Affine3d::Identity();
  shear.linear()(0, 1) = 0.25;
  writer.build(writer.addMesh("leaning", oblong()), shear);
  writer.write(folder.path() / "figure.3mf");
  const auto made = newFrom(folder.path() / "figure.3mf", folder);
  ASSERT_FALSE(made.ok());
  ASSERT_EQ(made.problems().size(), 2u) << textOf(made.problems());
  EXPECT_TRUE(made.problems()[0].where.ends_with("figure.3mf, long"));
  EXPECT_NE(made.problems()[0].what.find("stretched by 1, 1 and 2"), std::string::npos)
      << made.problems()[0].what;
  EXPECT_NE(made.problems()[1].what.find("sheared"), std::string::npos);
  EXPECT_FALSE(made.problems()[0].hint.empty());
}

TEST(ThreeMfScene, EvenScaleGoesIntoTheScaleOfThePart) {
  const TempFolder folder;
  ThreeMfWriter writer(ThreeMfWriter::Unit::millimetre);
  writer.build(writer.addMesh("sound", oblong()));
  const Eigen::Affine3d X = turnAndMove() * Eigen::Scaling(2.5);
  writer.build(writer.addMesh("large", oblong()), X);
  writer.write(folder.path() / "figure.3mf");
  const auto made = newFrom(folder.path() / "figure.3mf", folder);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  // lib3mf writes six decimals of single precision.
  EXPECT_NEAR(partNamed(made->document, "large")->scale, 2.5, 5e-6);
  const auto back = loaded(*made, folder);
  ASSERT_TRUE(back.ok()) << textOf(back.problems());
  expectSameSurface(standing(*back, "large"), transformed(oblong(), X), 2e-4);
}

}  // namespace
}  // namespace swingroom
