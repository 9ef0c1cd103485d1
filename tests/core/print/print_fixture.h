#pragma once

#include <vector>

#include "core/print/joints/joint_play.h"
#include "core/print/process/process.h"
#include "core/print/subject.h"
#include "tests/support/mechanism.h"

/// A small mechanism made ready for print checks: every part printed by one process in one
/// material.
namespace swingroom {

struct PrintFixture {
  explicit PrintFixture(const Mechanism& mechanism)
      : assembly(mechanism.assembly()),
        modes(mechanism.modes()),
        ways{mechanism.sequence()},
        geometry(prepareGeometry(assembly, 1)) {
    PartPrint print;
    print.process = builtInProcesses().front();
    print.material = *findMaterial(builtInMaterials(), "PLA");
    prints.assign(assembly.parts().size(), print);
    for (std::size_t j = 0; j < assembly.joints().size(); ++j) {
      JointPlay play;
      play.joint = JointId{j};
      plays.push_back(play);
    }
  }

  /// Growth of every printed part, mm a side.
  void growBy(double mm) {
    for (PartPrint& print : prints) {
      print.process.growthOutsideMm.value = mm;
      print.process.growthInsideMm.value = mm;
    }
  }

  /// Runs the gap check first.
  void check() {
    WorkMonitor monitor;
    SweepSettings settings;
    settings.threads = 1;
    results = {sweep(assembly, modes, ways.front(), geometry, settings, monitor)};
  }

  PrintSubject subject() const {
    PrintSubject subject;
    subject.assembly = &assembly;
    subject.modes = &modes;
    subject.ways = &ways;
    subject.geometry = &geometry;
    if (!results.empty()) subject.results = &results;
    subject.parts = prints;
    subject.play.assign(assembly.joints().size(), std::numeric_limits<double>::quiet_NaN());
    subject.threads = 1;
    return subject;
  }

  Assembly assembly;
  std::vector<Mode> modes;
  std::vector<Sequence> ways;
  AssemblyGeometry geometry;
  std::vector<PartPrint> prints;
  std::vector<JointPlay> plays;
  std::vector<SequenceResult> results;
};

}  // namespace swingroom
