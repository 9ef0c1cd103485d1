#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// The pieces into which two surfaces divide each other.
struct DividedSurfaces {
  struct Piece {
    bool ofB = false;
    bool inOther = false;           ///< It lies in the other solid.
    std::uint32_t triangle = 0;     ///< Of its own mesh.
    std::vector<Triangle> faces;    ///< Into `corners`.
  };
  std::vector<Eigen::Vector3d> corners;
  std::vector<Piece> pieces;
  std::vector<bool> crossedA;  ///< By triangle of a: whether b's surface crosses it.
};

/// What two solids make together. Which pieces of surface there are is settled in exact arithmetic; places of new
/// corners are rounded. For closed, manifold surfaces that do not cross themselves.
class SolidMerge {
 public:
  /// One of the two is shifted by up to this, so that nothing lies exactly on anything, mm.
  static constexpr double kShiftMm = 2e-5;

  /// None if a surface is not what is asked, as far as it shows where the two cross, or after a cancel.
  static std::optional<SolidMerge> of(const TriangleMesh& a, const TriangleMesh& b, const WorkMonitor& monitor);

  const std::vector<bool>& crossed() const { return divided_.crossedA; }

  /// All that is in a or in b. Closed and manifold again.
  /// @param kept  By triangle of a: shells that are not crossed may be left out.
  TriangleMesh united(const std::vector<bool>& kept) const { return collected(kept, false); }
  /// All that is in both.
  TriangleMesh common() const { return collected({}, true); }

 private:
  explicit SolidMerge(DividedSurfaces divided) : divided_(std::move(divided)) {}
  TriangleMesh collected(const std::vector<bool>& kept, bool inOther) const;

  DividedSurfaces divided_;
};

/// Ends of edges that are shorter than `shortMm` become one, where the surface stays manifold.
void joinShortEdges(TriangleMesh& mesh, double shortMm);

}  // namespace swingroom
