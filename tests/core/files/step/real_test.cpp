// STEP files that nobody here made: those of Debian's package occt-misc, which OCCT's libraries bring along.
#include <gtest/gtest.h>

#include <filesystem>

#include "core/files/step/step_file.h"
#include "core/mesh/health.h"

namespace swingroom::step_tests {
namespace {

const std::filesystem::path kFolder = "/usr/share/opencascade/data/step";

StepFile readSample(const char* name, double deviationMm) {
  Outcome<StepFile> read = readStep(kFolder / name, deviationMm);
  if (!read) throw std::runtime_error(toText(read.problems().front()));
  return *std::move(read);
}

// Both files have one body with millimetres as their unit (their text says so).
TEST(RealStepFiles, AreClosedAndWithinTheirDeviation) {
  if (!std::filesystem::exists(kFolder)) GTEST_SKIP() << "occt-misc is not installed";
  for (const char* name : {"linkrods.step", "screw.step"}) {
    SCOPED_TRACE(name);
    const StepFile file = readSample(name, 0.02);
    ASSERT_EQ(file.bodies.size(), 1u);
    EXPECT_EQ(file.unit, "mm");
    EXPECT_TRUE(file.notes.empty()) << toText(file.notes.front());
    const MeshHealth health = examine(file.bodies[0].mesh);
    EXPECT_TRUE(health.closed());
    EXPECT_EQ(health.insideOutShells + health.repeatedTriangles + health.nonManifoldEdges, 0u);
    EXPECT_GT(health.volumeMm3, 0);
    EXPECT_LE(file.bodies[0].deviationMm, 0.02);
  }
}

// A finer mesh of the same body has a volume that differs by no more than area times deviation.
TEST(RealStepFiles, VolumesOfTwoDeviationsAgree) {
  if (!std::filesystem::exists(kFolder)) GTEST_SKIP() << "occt-misc is not installed";
  const TriangleMesh coarse = readSample("screw.step", 0.1).bodies[0].mesh;
  const TriangleMesh fine = readSample("screw.step", 0.005).bodies[0].mesh;
  double area = 0;
  for (std::size_t t = 0; t < fine.triangles.size(); ++t) {
    area += (fine.corner(t, 1) - fine.corner(t, 0)).cross(fine.corner(t, 2) - fine.corner(t, 0)).norm() / 2;
  }
  EXPECT_NEAR(examine(coarse).volumeMm3, examine(fine).volumeMm3, area * (0.1 + 0.005));
}

// The file's text: CYLINDRICAL_SURFACE records of this radius and place.
TEST(RealStepFiles, LinkrodHasItsFourRoundFaces) {
  if (!std::filesystem::exists(kFolder)) GTEST_SKIP() << "occt-misc is not installed";
  const Features features = readSample("linkrods.step", 0.02).bodies[0].features;
  for (const double radius : {0.395284707521, 0.75, 0.517234284238, 0.219923711459}) {
    const auto same = [&](const CylinderFeature& f) { return std::abs(f.radiusMm - radius) < 1e-9; };
    EXPECT_TRUE(std::any_of(features.cylinders.begin(), features.cylinders.end(), same)) << radius;
  }
}

}  // namespace
}  // namespace swingroom::step_tests
