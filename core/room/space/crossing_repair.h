#pragma once

#include <cstddef>

#include "core/base/work_monitor.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// What a mesh has of them.
struct Crossings {
  std::size_t pairs = 0;  ///< Of triangles with area that meet beyond what they share.
  std::size_t flats = 0;  ///< Triangles without area.
  bool none() const { return pairs == 0 && flats == 0; }
};

/// Settled exactly, for corners as files carry them. After a cancel the numbers mean nothing.
Crossings crossingsIn(const TriangleMesh& mesh, unsigned threads, const WorkMonitor& monitor);

/// Makes a closed, manifold mesh whose corners are as files carry them (`inFilePrecision`) one that
/// does not cross itself and has no triangle without area: where rounding has folded slivers, it
/// turns an edge, joins the ends of one, or shifts a corner by a few steps of that precision,
/// whatever leaves fewer of both there. All is settled exactly. Nothing moves by more than
/// `withinMm`; tries with little of it first. The same result whatever the number of threads. After
/// a cancel what is returned means nothing.
/// @returns What could not be mended.
Crossings repairCrossings(TriangleMesh& mesh, double withinMm, unsigned threads,
                          const WorkMonitor& monitor);

/// As files carry a corner: in single precision (STL) and in steps of a millionth of a mm (3MF), so
/// that what is read back from either is the same.
Eigen::Vector3d inFilePrecision(const Eigen::Vector3d& p);

}  // namespace swingroom
