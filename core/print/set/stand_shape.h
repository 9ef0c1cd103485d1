#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "core/mesh/features.h"
#include "core/print/subject.h"

namespace swingroom {

/// What of a part bears a load whose way across the layers matters. Points in the part's frame.
struct LoadedShape {
  enum class Kind { pin, tab };
  Kind kind = Kind::pin;
  Vector3d middle = Vector3d::Zero();
  Vector3d along = Vector3d::UnitZ();  ///< Unit.
  double acrossMm = 0;                 ///< Diameter.
  double lengthMm = 0;

  bool operator==(const LoadedShape&) const = default;
};

/// A part's surface made ready for asking how it stands on the bed; in its frame.
struct StandShape {
  static constexpr std::uint32_t kNone = 0xffffffff;

  std::shared_ptr<const TriangleMesh> mesh;
  std::vector<Vector3d> normals;  ///< By triangle; zero: it has no area.
  std::vector<double> areas;      ///< mm2.
  /// By triangle: the one across the edge from corner i to the next; `kNone`: none, or more than
  /// one.
  std::vector<std::array<std::uint32_t, 3>> neighbours;
  std::vector<bool> bearing;        ///< By triangle: a pin or hole turns on it.
  std::vector<LoadedShape> loaded;  ///< Pins on joint axes, tabs of grips and snaps.
};

/// @param parts  Parts of one mesh: what any of them bears counts. Not empty; with a mesh.
StandShape standShapeOf(const PrintSubject& subject, const std::vector<PartId>& parts);

/// A mesh that bears nothing.
StandShape standShapeOf(std::shared_ptr<const TriangleMesh> mesh);

}  // namespace swingroom
