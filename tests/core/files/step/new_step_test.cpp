// From a STEP file to an assembly: what the file of the assembly says, what is loaded of it, and
// the joint that its exact cylinders suggest.
#include <gtest/gtest.h>

#include <BRepAlgoAPI_Cut.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>

#include "core/files/document/write_document.h"
#include "core/files/loading/load_assembly.h"
#include "core/files/sources/new_assembly.h"
#include "core/mesh/health.h"
#include "core/rigging/rig_suggestion.h"
#include "tests/core/files/step/step_author.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

namespace swingroom::step_tests {
namespace {

gp_Trsf movedBy(double x, double y, double z) {
  gp_Trsf X;
  X.SetTranslation(gp_Vec(x, y, z));
  return X;
}

/// A block of 40 x 10 x 10 with a hole of radius 2.2 along z through (10, 5), and a peg of radius 2
/// and a head that stands in it.
std::string blockAndPeg() {
  StepAuthor author;
  const TDF_Label figure = author.assembly("figure");
  const TopoDS_Shape block = BRepAlgoAPI_Cut(
      BRepPrimAPI_MakeBox(40, 10, 10),
      BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(10, 5, -1), gp_Dir(0, 0, 1)), 2.2, 12));
  author.place(figure, author.product(block, "block", "#D55E00"), movedBy(0, 0, 0));
  author.place(figure, author.product(BRepPrimAPI_MakeCylinder(2, 12), "peg"), movedBy(10, 5, -1));
  return author.bytes();
}

NewAssembly made(const TempFolder& folder, double deviationMm = kUsualDeviationMm) {
  NewAssemblyWish wish;
  wish.source = folder.write("figure.step", blockAndPeg());
  wish.file = folder.path() / "figure.swing.json";
  wish.deviationMm = deviationMm;
  Outcome<NewAssembly> outcome = newAssembly(wish, MeshReader::besideThisProgram());
  if (!outcome) throw std::runtime_error(toText(outcome.problems().front()));
  return *std::move(outcome);
}

LoadedAssembly loaded(const AssemblyDocument& document, const TempFolder& folder) {
  const MeshReader reader = MeshReader::besideThisProgram();
  Outcome<LoadedAssembly> outcome =
      loadAssembly(document, folder.path() / "figure.swing.json", {&reader});
  if (!outcome) throw std::runtime_error(toText(outcome.problems().front()));
  return *std::move(outcome);
}

bool anyHas(const Problems& notes, const std::string& words) {
  return std::any_of(notes.begin(), notes.end(), [&](const Problem& note) {
    return toText(note).find(words) != std::string::npos;
  });
}

/// Corners on the rim at z = 0.
int sidesOf(const TriangleMesh& peg) {
  return static_cast<int>(
      std::count_if(peg.vertices.begin(), peg.vertices.end(), [](const Vector3d& v) {
        return std::abs(v.z()) < 1e-9 && std::abs(v.head<2>().norm() - 2) < 1e-9;
      }));
}

TEST(NewFromStep, PartsHaveTheirNamesColoursPlacesAndDeviation) {
  const TempFolder folder;
  const NewAssembly assembly = made(folder, 0.02);
  ASSERT_EQ(assembly.document.parts.size(), 2u);
  const DocumentPart& block = assembly.document.parts[0];
  const DocumentPart& peg = assembly.document.parts[1];
  EXPECT_EQ(block.name, "block");
  EXPECT_EQ(block.colour, "#D55E00");
  EXPECT_EQ(block.stages.at("block"), "figure.step#block");
  EXPECT_FALSE(block.placement);
  EXPECT_EQ(block.deviation, 0.02);
  ASSERT_TRUE(peg.placement);
  EXPECT_EQ(peg.placement->at, (ThreeNumbers{10, 5, -1}));
  EXPECT_EQ(peg.placement->turn, (FourNumbers{1, 0, 0, 0}));
  EXPECT_NE(writeDocument(assembly.document).find("\"deviation\": 0.02"), std::string::npos);
}

TEST(NewFromStep, LoadingSaysThatMeshesAreNotTheSurfaces) {
  const TempFolder folder;
  const LoadedAssembly assembly = loaded(made(folder).document, folder);
  EXPECT_TRUE(anyHas(assembly.notes,
                     "2 parts are meshed from STEP surfaces to within 0.01 mm: what is told is of "
                     "the meshes"));
  for (const Part& part : assembly.assembly.parts()) {
    EXPECT_TRUE(examine(*part.mesh).closed());
    ASSERT_TRUE(part.exactFeatures);
    EXPECT_EQ(part.exactFeatures->cylinders.size(), 1u);
  }
}

TEST(NewFromStep, DeviationDecidesHowFineAMeshIs) {
  const TempFolder folder;
  AssemblyDocument document = made(folder).document;
  document.parts[1].deviation = 0.0005;
  const LoadedAssembly fine = loaded(document, folder);
  document.parts[1].deviation = 0.5;
  const LoadedAssembly coarse = loaded(document, folder);
  // Sides of a circle of radius 2 within 0.0005: pi / acos(1 - 0.0005 / 2) = 141 at least; of 0.5
  // the limit of the turn from side to side, a 24th, decides; the mesher may make more.
  EXPECT_GE(sidesOf(*fine.assembly.parts()[1].mesh), 141);
  EXPECT_GE(sidesOf(*coarse.assembly.parts()[1].mesh), 24);
  EXPECT_LT(sidesOf(*coarse.assembly.parts()[1].mesh), 141);
  document.parts[1].deviation = 0;
  const MeshReader reader = MeshReader::besideThisProgram();
  const auto refused = loadAssembly(document, folder.path() / "figure.swing.json", {&reader});
  ASSERT_FALSE(refused.ok());
  EXPECT_NE(toText(refused.problems()[0]).find("/parts/1/deviation: must be from 0.0005 to 1 mm"),
            std::string::npos)
      << toText(refused.problems()[0]);
}

TEST(NewFromStep, PegInItsHoleSuggestsAHingeOnTheExactAxis) {
  const TempFolder folder;
  const LoadedAssembly assembly = loaded(made(folder).document, folder);
  RigQuestion question;
  question.parts = rigPartsOf(assembly.assembly, 1);
  ASSERT_EQ(question.parts.size(), 2u);
  for (const RigPart& part : question.parts) {
    ASSERT_EQ(part.shape->features.cylinders.size(), 1u);
    EXPECT_EQ(part.shape->features.cylinders[0].residualMm, 0);
  }
  const RigSuggestion suggestion = suggestRig(question);
  ASSERT_EQ(suggestion.joints.size(), 1u);
  const Joint& joint = suggestion.joints[0].best.joint;
  EXPECT_EQ(joint.type, JointType::hinge);
  EXPECT_LT(joint.along.cross(kZ).norm(), 1e-9);
  EXPECT_LT((joint.through - Vector3d(10, 5, 0)).cross(kZ).norm(), 1e-9);
}

// The reader alone, without its neighbour for STEP, as a build without OCCT has it.
TEST(NewFromStep, BuildWithoutOcctSaysSo) {
  const TempFolder folder;
  const auto here = std::filesystem::read_symlink("/proc/self/exe").parent_path();
  const auto alone = folder.path() / "swingroom-mesh-reader";
  std::filesystem::copy_file(here / "swingroom-mesh-reader", alone);
  const auto file = folder.write("figure.step", blockAndPeg());
  for (const Problems& problems :
       {MeshReader(alone).read(file).problems(), MeshReader(alone).readScene(file).problems()}) {
    ASSERT_EQ(problems.size(), 1u);
    EXPECT_EQ(problems[0].what, "this build reads no STEP files");
    EXPECT_NE(problems[0].hint.find("build with OCCT"), std::string::npos);
  }
}

}  // namespace
}  // namespace swingroom::step_tests
