#pragma once

#include <Eigen/Geometry>
#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

#include "core/base/outcome.h"
#include "core/base/parallel.h"
#include "core/base/work_monitor.h"
#include "core/motion/sequence.h"
#include "core/sweep/part_geometry.h"

namespace swingroom {

/// What a space is asked of. All of it has to outlive the call.
struct SpaceSubject {
  const Assembly& assembly;
  const std::vector<Mode>& modes;
  const std::vector<Sequence>& ways;  ///< `waysToCheck`, or those of them that count.
  const AssemblyGeometry& geometry;
  PartId part;
};

/// Cut from the part grown by so much all round, mm.
struct WithinGrown {
  double byMm = 5;
};
/// Cut from a box in the part's own frame.
struct WithinBox {
  Eigen::AlignedBox3d box_P;
};

struct SpaceSettings {
  double pitchMm = 0.25;  ///< Of the grid that the space is looked at on.
  std::variant<WithinGrown, WithinBox> within = WithinGrown{};  ///< Of a room; unused for what is swept.
  unsigned threads = defaultThreads();
  /// To the frame of the file that the mesh is for, from the one it would be in: shifts, turns, mirrors and scales.
  /// The mesh is rounded there, so that it is written as it is.
  Eigen::Affine3d X_FileSpace = Eigen::Affine3d::Identity();
};

/// Another part with which the part as it is breaks its required gap, or is not proven to keep it.
struct SpaceObjection {
  PartId part;
  bool operator==(const SpaceObjection&) const = default;
};

/// A space as one closed, manifold surface that does not cross itself, unless the part's own does; its corners are
/// as STL and 3MF files carry them, so that what is read back from one is the same surface.
struct SpaceMesh {
  /// In the part's own mesh frame (a room), or in the frame that was asked for (what is swept), mm; then as
  /// `SpaceSettings::X_FileSpace` has it.
  TriangleMesh mesh;
  /// Pairs of triangles that cross each other, and triangles without area: 0 unless the part's own surface crosses
  /// itself. Settled exactly.
  std::size_t crossings = 0;
  double volumeMm3 = 0;
  double pitchMm = 0;
  /// So far the surface stays off the true one, mm: of a room inside it, of what is swept outside.
  /// Everywhere but in slots and dents about as narrow as the pitch, see `mostLossMm`.
  double lossMm = 0;
  /// Likewise along parts that may touch (fixed joints) and round joint zones. Rooms only.
  double lossAtTouchMm = 0;
  /// A point that is this far inside the true space (of a room; outside what is swept) is told so.
  double mostLossMm = 0;
  std::size_t pocketsLeftOut = 0;  ///< Spaces apart that do not touch the part.
  double pocketsMm3 = 0;           ///< Their volume.
  /// Parts with which the part as it is breaks a required gap or clashes: its own solid is then cut
  /// away there. Empty: the part's own solid is in the room as it is.
  std::vector<SpaceObjection> objections;
};

/// The space that the part may fill: where the mesh is used as the part, the check finds no gap below
/// the required one that the part itself has not.
/// * The rules of the pairs are the check's (`planPair`): allowed pairs are no obstacle, parts joined by
///   `fixed` may touch, elsewhere the required gap holds, in every way and at every instant.
/// * In the part's joint zones, and where a contact is intended, the room is the part's own solid:
///   the mesh hangs on its joints and touches where the part does. It does not offer to touch more.
/// * Only what hangs together with the part counts.
/// @returns A problem in words: no closed surface, no room, more grid points than memory should hold,
///     stopped by the monitor (heard within a tenth of a second).
/// @throws std::invalid_argument if the part has no mesh or a setting is not above 0.
/// The same bytes whatever the number of threads. Safe from several threads.
Outcome<SpaceMesh> roomSpace(const SpaceSubject& subject, const SpaceSettings& settings,
                             WorkMonitor& monitor);

/// The space that the part passes through in all the ways, seen from another part or from the ground:
/// every point that it ever takes is in the mesh.
/// @param in  The part whose frame it is; none: the ground's (the assembly's).
Outcome<SpaceMesh> sweptSpace(const SpaceSubject& subject, std::optional<PartId> in,
                              const SpaceSettings& settings, WorkMonitor& monitor);

}  // namespace swingroom
