#pragma once

#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/subject.h"

namespace swingroom {

enum class MassModel {
  unknown,  ///< No mesh, or no closed shell.
  solid,    ///< Bought or soft parts, and what is printed solid.
  skinned,  ///< A solid skin, and infill in all that is deeper.
};

/// One part's mass as modelled: density x (skin + infill x the rest). Density, infill and skin are
/// indicative. Top and bottom layers are taken as thick as the walls.
struct PartMass {
  MassModel model = MassModel::unknown;
  double volumeMm3 = 0;  ///< Of the closed shells.
  /// Shells of the mesh overlap: what they count twice is taken off as far as it was seen.
  bool shellsOverlap = false;
  double skinMm3 = 0;  ///< Volume of the skin; the whole for a solid.
  /// Of that model; lower and upper as good as the search for the skin's volume says of itself.
  double lowerG = 0, massG = 0, upperG = 0;
  double leastG = 0, mostG = 0;          ///< Proven of the mesh, unless shells overlap; wider.
  Vector3d centre_P = Vector3d::Zero();  ///< Of mass.
  double centreOffMm = 0;                ///< It is as good as this.

  bool known() const { return model != MassModel::unknown; }
  bool operator==(const PartMass&) const = default;
};

/// By PartId. Parts that share a mesh and are printed alike are worked out once.
std::vector<PartMass> partMasses(const PrintSubject& subject, WorkMonitor& monitor);

}  // namespace swingroom
