// Assemblies written by OCCT and read back: names, places, colours, units, instances.
#include <gtest/gtest.h>

#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRep_Builder.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS_Compound.hxx>
#include <gp_Pln.hxx>

#include "core/files/step/step_file.h"
#include "core/mesh/health.h"
#include "tests/core/files/step/step_author.h"
#include "tests/support/temp_folder.h"

namespace swingroom::step_tests {
namespace {

StepFile readBytes(const std::string& bytes) {
  const TempFolder folder;
  Outcome<StepFile> read = readStep(folder.write("figure.stp", bytes));
  if (!read) throw std::runtime_error(toText(read.problems().front()));
  return *std::move(read);
}

const StepPart& partNamed(const StepFile& file, const std::string& name) {
  for (const StepPart& part : file.parts) {
    if (part.name == name) return part;
  }
  std::string names;
  for (const StepPart& part : file.parts) names += "'" + part.name + "' ";
  throw std::runtime_error("no part " + name + " but " + names);
}

void expectPose(const Pose& X, const gp_Trsf& expected) {
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 4; ++column) {
      EXPECT_NEAR(X.matrix()(row, column), expected.Value(row + 1, column + 1), 1e-9);
    }
  }
}

TopoDS_Compound together(const std::vector<TopoDS_Shape>& shapes) {
  TopoDS_Compound all;
  BRep_Builder builder;
  builder.MakeCompound(all);
  for (const TopoDS_Shape& shape : shapes) builder.Add(all, shape);
  return all;
}

TEST(StepProducts, OneProductIsOnePartByItsName) {
  const StepFile file = readBytes(stepOf(BRepPrimAPI_MakeBox(1, 2, 3), "left thigh"));
  ASSERT_EQ(file.parts.size(), 1u);
  EXPECT_EQ(file.parts[0].name, "left thigh");
  EXPECT_FALSE(file.parts[0].colour);
  EXPECT_EQ(file.unit, "mm");
  expectPose(file.parts[0].X_WB, gp_Trsf());
}

TEST(StepProducts, PlacedProductsStandWhereTheyWerePut) {
  StepAuthor author;
  const gp_Trsf atHip = turnedAndMoved(0.4, 10, 20, 30), atKnee = turnedAndMoved(-1.3, 0, -7, 2);
  const TDF_Label figure = author.assembly("figure");
  author.place(figure, author.product(BRepPrimAPI_MakeBox(4, 5, 6), "thigh"), atHip);
  author.place(figure, author.product(BRepPrimAPI_MakeBox(1, 2, 3), "shin"), atKnee);
  const StepFile file = readBytes(author.bytes());
  ASSERT_EQ(file.parts.size(), 2u);
  expectPose(partNamed(file, "thigh").X_WB, atHip);
  expectPose(partNamed(file, "shin").X_WB, atKnee);
  EXPECT_NEAR(examine(file.bodies[partNamed(file, "thigh").body].mesh).volumeMm3, 120, 1e-9);
}

TEST(StepProducts, ProductThatIsPlacedThriceIsOneBodyAndThreeParts) {
  StepAuthor author;
  const TDF_Label figure = author.assembly("figure");
  const TDF_Label pin = author.product(BRepPrimAPI_MakeCylinder(2, 10), "pin");
  for (int i = 0; i < 3; ++i) author.place(figure, pin, turnedAndMoved(0.3 * i, 10.0 * i, 0, 0));
  const StepFile file = readBytes(author.bytes());
  EXPECT_EQ(file.bodies.size(), 1u);
  ASSERT_EQ(file.parts.size(), 3u);
  const char* const names[] = {"pin", "pin 2", "pin 3"};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(file.parts[i].name, names[i]);
    EXPECT_EQ(file.parts[i].body, 0u);
    expectPose(file.parts[i].X_WB,
               turnedAndMoved(0.3 * static_cast<double>(i), 10.0 * static_cast<double>(i), 0, 0));
  }
}

TEST(StepProducts, NameOfTheUseComesBeforeTheProducts) {
  StepAuthor author;
  const TDF_Label figure = author.assembly("figure");
  const TDF_Label pin = author.product(BRepPrimAPI_MakeCylinder(2, 10), "pin");
  author.place(figure, pin, turnedAndMoved(0, 1, 0, 0), "hip pin");
  author.place(figure, pin, turnedAndMoved(0, 2, 0, 0), "7");
  const StepFile file = readBytes(author.bytes());
  ASSERT_EQ(file.parts.size(), 2u);
  EXPECT_EQ(file.parts[0].name, "hip pin");
  EXPECT_EQ(file.parts[1].name, "pin");
}

TEST(StepProducts, AssembliesInAssembliesMultiplyTheirPlaces) {
  StepAuthor author;
  const gp_Trsf inLeg = turnedAndMoved(0.5, 0, 0, -8), left = turnedAndMoved(0.2, -5, 1, 0),
                right = turnedAndMoved(-0.9, 5, 1, 0);
  const TDF_Label leg = author.assembly("leg");
  author.place(leg, author.product(BRepPrimAPI_MakeBox(2, 2, 8), "shin"), inLeg);
  const TDF_Label figure = author.assembly("figure");
  author.place(figure, leg, left);
  author.place(figure, leg, right);
  const StepFile file = readBytes(author.bytes());
  ASSERT_EQ(file.parts.size(), 2u);
  EXPECT_EQ(file.bodies.size(), 1u);
  expectPose(file.parts[0].X_WB, left * inLeg);
  expectPose(file.parts[1].X_WB, right * inLeg);
}

TEST(StepProducts, NamesInOtherScriptsComeThrough) {
  const StepFile file = readBytes(stepOf(BRepPrimAPI_MakeBox(1, 2, 3), "Schlüssel 鍵"));
  EXPECT_EQ(file.parts[0].name, "Schlüssel 鍵");
}

// ISO 10303-21, 6.4.3.3: \X2\ and UTF-16 in hexadecimal, 9375 is U+9375; \S\ adds 128.
TEST(StepProducts, NamesInTheStandardsOwnLettersComeThrough) {
  std::string bytes = stepOf(BRepPrimAPI_MakeBox(1, 2, 3), "plainname");
  for (std::size_t at; (at = bytes.find("plainname")) != std::string::npos;) {
    bytes.replace(at, 9, "\\X2\\9375\\X0\\ \\X\\E9");
  }
  EXPECT_EQ(readBytes(bytes).parts[0].name, "鍵 é");
}

TEST(StepProducts, PartWithoutANameIsCalledPart) {
  const StepFile file = readBytes(stepOf(BRepPrimAPI_MakeBox(1, 2, 3), ""));
  EXPECT_EQ(file.parts[0].name, "part");
}

TEST(StepProducts, BodiesOfOneProductBecomeParts) {
  StepAuthor author;
  author.product(together({BRepPrimAPI_MakeBox(1, 1, 1), BRepPrimAPI_MakeBox(gp_Pnt(5, 0, 0), 2, 2, 2),
                           BRepPrimAPI_MakeBox(gp_Pnt(9, 0, 0), 3, 3, 3)}),
                 "bracket");
  const StepFile file = readBytes(author.bytes());
  ASSERT_EQ(file.parts.size(), 3u);
  EXPECT_EQ(file.parts[0].name, "bracket");
  EXPECT_EQ(file.parts[2].name, "bracket 3");
  EXPECT_NEAR(examine(file.bodies[file.parts[2].body].mesh).volumeMm3, 27, 1e-9);
  ASSERT_EQ(file.notes.size(), 1u);
  EXPECT_EQ(toText(file.notes[0]), "bracket: holds 3 bodies: each became a part of its own");
}

// MANIFOLD_SOLID_BREP has a name of its own: there many programs write the body's.
TEST(StepProducts, BodiesThatHaveNamesKeepThem) {
  StepAuthor author;
  author.product(together({BRepPrimAPI_MakeBox(1, 1, 1), BRepPrimAPI_MakeBox(gp_Pnt(5, 0, 0), 2, 2, 2)}),
                 "bracket");
  std::string bytes = author.bytes();
  for (const char* name : {"upper half", "lower half"}) {
    const std::size_t at = bytes.find("MANIFOLD_SOLID_BREP(''");
    ASSERT_NE(at, std::string::npos);
    bytes.insert(at + 21, name);
  }
  const StepFile file = readBytes(bytes);
  ASSERT_EQ(file.parts.size(), 2u);
  EXPECT_NEAR(examine(file.bodies[partNamed(file, "upper half").body].mesh).volumeMm3, 1, 1e-9);
  EXPECT_NEAR(examine(file.bodies[partNamed(file, "lower half").body].mesh).volumeMm3, 8, 1e-9);
}

TEST(StepProducts, UnitsOfTheFileBecomeMillimetres) {
  for (const auto& [occt, word] : {std::pair("MM", "mm"), {"INCH", "inch"}, {"M", "m"}, {"CM", "cm"}}) {
    StepAuthor author;
    const TDF_Label figure = author.assembly("figure");
    author.place(figure, author.product(BRepPrimAPI_MakeCylinder(3, 20), "pin"),
                 turnedAndMoved(0.4, 10, 20, 30));
    const StepFile file = readBytes(author.bytes(occt));
    EXPECT_EQ(file.unit, word);
    ASSERT_EQ(file.bodies.size(), 1u);
    ASSERT_EQ(file.bodies[0].features.cylinders.size(), 1u);
    EXPECT_NEAR(file.bodies[0].features.cylinders[0].radiusMm, 3, 1e-9);
    EXPECT_NEAR(file.bodies[0].features.cylinders[0].toMm, 20, 1e-9);
    expectPose(file.parts[0].X_WB, turnedAndMoved(0.4, 10, 20, 30));
  }
}

// The same numbers under another unit, the file changed by hand.
TEST(StepProducts, NumbersAreTakenInTheUnitThatTheFileSays) {
  const std::string mm = stepOf(BRepPrimAPI_MakeBox(1, 2, 3));
  const StepFile file = readBytes(replacedIn(mm, "SI_UNIT(.MILLI.,.METRE.)", "SI_UNIT($,.METRE.)"));
  EXPECT_EQ(file.unit, "m");
  EXPECT_NEAR(boundsOf(file.bodies[0].mesh).sizes().z(), 3000, 1e-6);
}

TEST(StepProducts, ColoursOfProductsUsesBodiesAndFaces) {
  StepAuthor author;
  const TDF_Label figure = author.assembly("figure");
  const TDF_Label pin = author.product(BRepPrimAPI_MakeCylinder(2, 10), "pin", "#D55E00");
  author.place(figure, pin, turnedAndMoved(0, 0, 0, 0));
  author.place(figure, pin, turnedAndMoved(0, 9, 0, 0), "blue pin", "#0072B2");
  const TopoDS_Shape box = BRepPrimAPI_MakeBox(1, 2, 3);
  const TDF_Label painted = author.product(box, "painted");
  for (TopExp_Explorer face(box, TopAbs_FACE); face.More(); face.Next()) {
    author.paint(painted, face.Current(), "#009E73");
  }
  author.place(figure, painted, turnedAndMoved(0, 0, 9, 0));
  const TopoDS_Shape other = BRepPrimAPI_MakeBox(3, 2, 3);
  const TDF_Label dotted = author.product(other, "one face only");
  author.paint(dotted, TopExp_Explorer(other, TopAbs_FACE).Current(), "#009E73");
  author.place(figure, dotted, turnedAndMoved(0, 0, 19, 0));
  const StepFile file = readBytes(author.bytes());
  EXPECT_EQ(partNamed(file, "pin").colour, "#D55E00");
  EXPECT_EQ(partNamed(file, "blue pin").colour, "#0072B2");
  EXPECT_EQ(partNamed(file, "painted").colour, "#009E73");
  EXPECT_FALSE(partNamed(file, "one face only").colour);
}

// The number in the file is what a maker sees: 0.8 of 255 is CC, 0.2 is 33, 0.4 is 66.
TEST(StepProducts, ColourIsWhatTheFileWrites) {
  StepAuthor author;
  author.product(BRepPrimAPI_MakeBox(1, 2, 3), "lid", "#FFFFFF");
  std::string bytes = author.bytes();
  const std::size_t at = bytes.find("DRAUGHTING_PRE_DEFINED_COLOUR('white')");
  ASSERT_NE(at, std::string::npos) << bytes.substr(bytes.find("COLOUR") - 100, 300);
  bytes.replace(at, 38, "COLOUR_RGB('',0.8,0.2,0.4)");
  EXPECT_EQ(readBytes(bytes).parts[0].colour, "#CC3366");
}

TEST(StepProducts, LooseSurfaceIsAPartThatIsSaidToBeNoSolid) {
  StepAuthor author;
  author.product(BRepBuilderAPI_MakeFace(gp_Pln(), 0, 4, 0, 5), "sail");
  const StepFile file = readBytes(author.bytes());
  ASSERT_EQ(file.parts.size(), 1u);
  EXPECT_FALSE(file.bodies[0].solid);
  EXPECT_FALSE(examine(file.bodies[0].mesh).closed());
  ASSERT_EQ(file.notes.size(), 1u);
  EXPECT_EQ(toText(file.notes[0]), "sail: is a surface, not a solid: it has no inside");
}

}  // namespace
}  // namespace swingroom::step_tests
