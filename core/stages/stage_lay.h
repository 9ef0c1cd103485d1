#pragma once

#include <Eigen/Geometry>
#include <vector>

#include "core/motion/surface_samples.h"
#include "core/stages/stage_surface.h"

namespace swingroom {

/// Lays places of one surface on another: what `stageFitOf` tries its explanations with.
class StageLay {
 public:
  /// @param factor  The detail's places are multiplied by it.
  StageLay(const StageSurface& block, const StageSurface& detail, double factor);

  /// Mean distance of the two surfaces, each place's capped, if the detail's places are moved by
  /// `Y` (rigid, or with a reflection), mm.
  /// @param most  So many places of each are looked at.
  double apartMm(const Eigen::Affine3d& Y, std::size_t most) const;

  enum class By { turnsAndShifts, shifts };
  /// `Y` made better by small motions.
  Eigen::Affine3d laid(Eigen::Affine3d Y, int rounds, std::size_t most,
                       By by = By::turnsAndShifts) const;

  double sizeMm() const { return sizeMm_; }
  /// Middles of the two surfaces' boxes, the detail's multiplied.
  Eigen::Vector3d blockMiddle() const { return block_.bounds().center(); }
  Eigen::Vector3d detailMiddle() const { return factor_ * detail_.bounds().center(); }

 private:
  const StageSurface& block_;
  const StageSurface& detail_;
  double factor_, sizeMm_, capMm_;
  std::vector<SurfaceSample> ofBlock_, ofDetail_;  ///< The detail's are multiplied.
};

}  // namespace swingroom
