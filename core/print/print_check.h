#pragma once

#include "core/base/work_monitor.h"
#include "core/print/cautions/cautions_check.h"
#include "core/print/finding.h"
#include "core/print/joints/fits.h"
#include "core/print/joints/grips.h"
#include "core/print/joints/joint_friction.h"
#include "core/print/joints/joint_play.h"
#include "core/print/joints/seams.h"
#include "core/print/printed/printed_gaps.h"
#include "core/print/printed/printer_window.h"
#include "core/print/set/first_layer.h"
#include "core/print/set/print_set.h"
#include "core/print/subject.h"
#include "core/print/walls/walls.h"
#include "core/print/weight/weight_check.h"

namespace swingroom {

/// All that the print checks found of one assembly.
struct PrintResult {
  WallsResult walls;
  FitsResult fits;
  std::vector<JointPlay> plays;          ///< By JointId.
  std::vector<JointFriction> frictions;  ///< By JointId.
  GripsResult grips;
  SeamsResult seams;
  WeightResult weight;
  PrintSet set;
  std::vector<FirstLayerFit> firstLayer;  ///< Fits that end on the bed.
  PrintedGaps printed;
  PrinterWindow printers;
  CautionsResult cautions;
  /// Findings first, then hints; each in the order of the checks and of the file.
  PrintFindings findings;

  std::size_t count(PrintGrade grade) const;
  /// There is no finding. It says nothing of what was not looked at.
  bool passes() const { return count(PrintGrade::finding) == 0; }

  bool operator==(const PrintResult&) const = default;
};

/// Every print check, one after the other; the same for any number of threads. After a cancel what
/// is returned means nothing.
PrintResult checkPrint(const PrintSubject& subject, WorkMonitor& monitor);

}  // namespace swingroom
