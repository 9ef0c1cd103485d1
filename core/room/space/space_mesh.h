#pragma once

#include <Eigen/Geometry>
#include <algorithm>
#include <optional>

#include "core/room/space/flat_thinning.h"
#include "core/room/space/lattice_surface.h"

namespace swingroom {

/// A space grows by at most this where its surface is thinned, mm.
constexpr double kThinnedMm = 0.003;
/// And where slivers are mended, mm.
constexpr double kRepairedMm = 0.001;
/// In all, mm.
constexpr double kShiftedMm = kThinnedMm + kRepairedMm;

/// How far a surface may be thinned: it may shrink by a little of the pitch.
inline ThinningBounds thinningAt(double pitchMm) { return {kThinnedMm, std::max(kThinnedMm, 0.04 * pitchMm)}; }
/// By how much less a space may be for that and for mending, mm.
inline double shrunkAt(double pitchMm) { return thinningAt(pitchMm).inMm + kRepairedMm; }
/// More grid points than this are refused.
constexpr double kMostGridNodes = 6e7;

/// What is wrong with a grid over that box; nothing: it can be had.
std::optional<Problem> gridProblem(const SpaceSubject& subject, const Eigen::AlignedBox3d& box, double pitchMm);

/// @throws std::invalid_argument for what the caller must not ask.
void requireAskable(const SpaceSubject& subject, const SpaceSettings& settings);

Problem spaceProblem(const SpaceSubject& subject, const std::string& what, const std::string& hint);
Problem stoppedProblem(const SpaceSubject& subject);

/// Its volume by region; 0 is not one.
std::vector<double> volumesOf(const LatticeSurface& surface, std::uint32_t regions);

struct MeshForFiles {
  TriangleMesh mesh;
  double volumeMm3 = 0;       ///< Before it was brought to the file's frame.
  std::size_t crossings = 0;  ///< Pairs of triangles that cross each other, and triangles without area.
};

/// The mesh as files carry it: in their precision, no two corners in one place, no edge of no length, and what
/// rounding has folded unfolded (`repairCrossings`).
/// @param X_FileSpace  From the mesh's frame to the file's, in which it is then.
/// @returns Nothing if it is not closed and manifold then, or after a cancel.
std::optional<MeshForFiles> readyForFiles(TriangleMesh mesh, const Eigen::Affine3d& X_FileSpace, unsigned threads,
                                          const WorkMonitor& monitor);

}  // namespace swingroom
