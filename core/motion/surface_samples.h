#pragma once

#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

struct SurfaceSample {
  Vector3d point;
  Vector3d normal;     ///< Unit.
  double areaMm2 = 0;  ///< That it stands for.
};

/// About `count` points spread evenly over the surface; the same ones at each call.
std::vector<SurfaceSample> sampledByArea(const TriangleMesh& mesh, std::size_t count);

}  // namespace swingroom
