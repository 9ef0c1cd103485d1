#pragma once

#include <vector>

#include "core/print/joints/fits.h"
#include "core/print/set/print_set.h"

namespace swingroom {

/// A joint whose pin or hole ends on the bed, standing as the set suggests: the first layer spreads
/// there.
struct FirstLayerFit {
  JointId joint;
  PartId onBed;                      ///< The part whose pin or hole it is.
  Vector3d at_P = Vector3d::Zero();  ///< Where the fit ends on the bed, in that part's frame.
  double takenMm = 0;                ///< What the first layer takes more, on the diameter.
  FitSpan leftMm;  ///< Of the clearance as printed, on the diameter; below 0: it binds there.

  bool operator==(const FirstLayerFit&) const = default;
};

/// By joint; of joints that turn on a pin, with clearance as printed. Parts that fit no bed or are
/// bought are left out, and so are pins and holes that lie or stop short of the bed by a layer, as
/// with a chamfer.
std::vector<FirstLayerFit> firstLayerFits(const PrintSubject& subject, const FitsResult& fits,
                                          const PrintSet& set);

/// Hints (`tightFit`): fits of which the first layer leaves nothing.
void addFirstLayerFindings(const std::vector<FirstLayerFit>& fits, PrintFindings& findings);

}  // namespace swingroom
