#pragma once

#include <QString>
#include <optional>

#include "app/viewport/tools/snap_point.h"
#include "app/viewport/view_stage.h"

namespace swingroom {

/// What the pixel points at: a corner of the part there within a few pixels, else an edge, else its
/// face. Corners and edges are those that are drawn.
std::optional<SnapPoint> snapAt(const ViewStage& stage, const ViewProjection& view,
                                const Eigen::Vector2d& pixel);

/// What lies between two points.
struct Measured {
  double distanceMm = 0;
  double sidewaysMm = 0, frontMm = 0,
         upMm = 0;  ///< Shares along the assembly's axes, not negative.
  std::optional<double>
      angleRad;  ///< Between two faces' normals, 0 to pi; none unless both are faces.
  std::optional<double> facesMm;  ///< Between two parallel faces, square to them.

  /// A thickness or a gap is square to its faces, wherever they were clicked.
  double lengthMm() const { return facesMm.value_or(distanceMm); }
};
Measured measured(const SnapPoint& from, const SnapPoint& to, const Vector3d& up,
                  const Vector3d& front);

/// "12.40 mm (sideways 4.00, front 0.00, up 11.74)"; with an angle, where two faces meet at one.
QString measuredText(const Measured& measured);

}  // namespace swingroom
