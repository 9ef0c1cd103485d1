#pragma once

#include <Eigen/Geometry>
#include <optional>

#include "core/room/space/lattice_surface.h"

namespace swingroom {

/// Corners of a surface are shifted by at most this when its flats are thinned, mm.
constexpr double kThinnedMm = 0.004;
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

/// The mesh as files carry it: in single precision, no two corners in one place, no edge of no length.
/// @returns Nothing if it is not closed and manifold then.
std::optional<TriangleMesh> readyForFiles(TriangleMesh mesh);

}  // namespace swingroom
