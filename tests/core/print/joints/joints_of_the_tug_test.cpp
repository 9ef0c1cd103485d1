#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <limits>

#include "core/files/loading/load_assembly.h"
#include "core/print/joints/fits.h"
#include "core/print/joints/grips.h"
#include "core/print/joints/seams.h"

namespace swingroom {
namespace {

const LoadedAssembly& printedTug() {
  static const Outcome<LoadedAssembly> loaded =
      loadAssembly(std::filesystem::path(SWINGROOM_SOURCE) /
                       "sample_assemblies/harbour_tug/harbour_tug.swing.json",
                   MeshReader::besideThisProgram(), 2);
  return loaded.value();
}

/// The default process and PLA, soft parts of TPU.
PrintSubject tugSubject(const AssemblyGeometry& geometry) {
  PrintSubject subject;
  const LoadedAssembly& tug = printedTug();
  subject.assembly = &tug.assembly;
  subject.modes = &tug.modes;
  subject.ways = &tug.sequences;
  subject.geometry = &geometry;
  for (const Part& part : tug.assembly.parts()) {
    PartPrint print;
    print.process = builtInProcesses().front();
    print.material = *findMaterial(builtInMaterials(), part.kind == PartKind::soft ? "TPU" : "PLA");
    subject.parts.push_back(print);
  }
  subject.play.assign(tug.assembly.joints().size(), std::numeric_limits<double>::quiet_NaN());
  subject.threads = 2;
  return subject;
}

struct WantedFit {
  const char* joint;
  const char* pin;
  const char* hole;
  double pinMm, holeMm, lengthMm;
};

// Sizes of the design, tug_sizes.h and the parts' sources: pins of 4 and 3 mm, holes that turn 0.4
// wider and holes that press 0.01, both by 2 x 0.04 more for facets; the funnel in its ring.
TEST(JointsOfTheTug, FitsAreThoseOfItsDesign) {
  const AssemblyGeometry geometry = prepareGeometry(printedTug().assembly, 2);
  const PrintSubject subject = tugSubject(geometry);
  WorkMonitor monitor;
  const FitsResult result = checkFits(subject, monitor);
  const WantedFit fits[] = {
      {"hip pin port", "hip_pin_port", "torso", 4, 4.09, 0},
      {"hip port", "hip_pin_port", "thigh_port", 4, 4.48, 3.4},
      {"upper knee starboard", "knee_pin_up_starboard", "knee_link_starboard", 4, 4.48, 3.4},
      {"lower knee pin port", "knee_pin_low_port", "knee_link_port", 4, 4.09, 3.4},
      {"ankle port", "ankle_pin_port", "foot_port", 4, 4.48, 3.4},
      {"neck", "neck_pin", "head", 3, 3.48, 2.4},
      {"stern hinge", "stern_pin", "stern_board", 3, 3.48, 0},
      {"elbow starboard", "elbow_pin_starboard", "forearm_starboard", 3, 3.48, 2.5},
      {"shoulder port", "torso", "upper_arm_port", 6.8, 6.88, 0},
  };
  for (const WantedFit& wanted : fits) {
    SCOPED_TRACE(wanted.joint);
    const FitFigure& fit = result.fits.at(printedTug().assembly.findJoint(wanted.joint)->index);
    ASSERT_NE(fit.shape, FitShape::none);
    EXPECT_EQ(subject.part(fit.pinPart).name, wanted.pin);
    EXPECT_EQ(subject.part(fit.holePart).name, wanted.hole);
    EXPECT_NEAR(fit.pinMm, wanted.pinMm, 1e-3);  // STL is in floats of about 1e-5.
    EXPECT_NEAR(fit.holeMm, wanted.holeMm, 1e-3);
    if (wanted.lengthMm > 0) {
      EXPECT_NEAR(fit.lengthMm, wanted.lengthMm, 1e-3);
    }
    // Facets take no more than the meshes' 0.04 a side off it.
    EXPECT_NEAR(fit.clearanceMm.mostMm, wanted.holeMm - wanted.pinMm, 1e-3);
    EXPECT_GT(fit.clearanceMm.leastMm, wanted.holeMm - wanted.pinMm - 0.1);
  }
}

// Its maker's word: it is to pass with the default process. Its sockets are cut out towards the
// head, so that their ring is only a bound.
TEST(JointsOfTheTug, NothingFailsTheDefaultProcess) {
  const AssemblyGeometry geometry = prepareGeometry(printedTug().assembly, 2);
  const PrintSubject subject = tugSubject(geometry);
  WorkMonitor monitor;
  PrintFindings findings;
  addFitFindings(subject, checkFits(subject, monitor), findings);
  addGripFindings(subject, checkGrips(subject, monitor), findings);
  addSeamFindings(subject, checkSeams(subject, monitor), findings);
  for (const PrintFinding& finding : findings) {
    EXPECT_EQ(finding.grade, PrintGrade::hint) << wordFor(finding.word) << ": " << finding.sentence;
    EXPECT_EQ(finding.word, PrintWord::strained) << finding.sentence;
  }
}

// kKeelGrip in tug_sizes.h: 0.1 mm a side, in each of the modes that its file names.
TEST(JointsOfTheTug, KeelGripsByATenth) {
  const AssemblyGeometry geometry = prepareGeometry(printedTug().assembly, 2);
  PrintSubject subject = tugSubject(geometry);
  WorkMonitor monitor;
  const GripsResult result = checkGrips(subject, monitor);
  ASSERT_EQ(result.grips.size(), 7u);  // 2 + 1 + 1 of the keel, 1 + 2 of the boathook.
  for (const GripFigure& grip : result.grips) {
    EXPECT_EQ(grip.gapMm, 0.0);
    EXPECT_LE(grip.overlapLowerMm, 0.1 + 1e-4);
    EXPECT_GE(grip.overlapUpperMm, 0.1 - 1e-4);
    EXPECT_GT(grip.lengthMm, 0.9);
  }
  subject.threads = 1;
  EXPECT_EQ(result, checkGrips(subject, monitor));
}

}  // namespace
}  // namespace swingroom
