#pragma once

#include <QString>
#include <optional>

#include "app/viewport/tools/pick_spot.h"
#include "core/assembly/joint.h"
#include "core/mesh/feature_finder.h"

namespace swingroom {

/// What a place on a part says of a joint's axis.
struct AxisAt {
  Vector3d through = Vector3d::Zero(), along = Vector3d::UnitZ();  ///< In the world as it stands.
  double fromMm = 0, toMm = 0;  ///< Of the feature, along the axis.
  double radiusMm = 0;          ///< 0: it is not round.
  bool isBall = false;
  QString words;  ///< "hole 4.40 mm, 12.0 long, within 0.003 mm".
};

/// By what the joint's type needs: a hinge takes round faces, else edges, else the normal of a flat
/// face; a slide edges, then round faces, then normals; a ball spheres only.
/// @param X_WP  Where the part stands.
/// @returns None: nothing there says anything of such a joint.
std::optional<AxisAt> axisAt(const FeatureFinder& features, JointType type, const PickSpot& spot,
                             const Pose& X_WP);

/// Why there is none, in words.
QString noAxisWords(JointType type);

}  // namespace swingroom
