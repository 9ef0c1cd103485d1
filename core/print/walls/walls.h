#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/mesh/features.h"
#include "core/mesh/triangle_mesh.h"
#include "core/print/finding.h"
#include "core/print/subject.h"
#include "core/print/walls/wall_figures.h"

namespace swingroom {

struct ThicknessSettings {
  /// Longest edge of a piece that is not equally thick all over, mm; 0: a
  /// sixtieth of the part's size, not under 0.5.
  double pieceMm = 0;
  double mostMm = 6;    ///< Thicker is not told apart.
  double provenMm = 3;  ///< Lower bounds are not sought above it.
  unsigned threads = defaultThreads();
};

/// Thickness over the surface of one part. The same bytes whatever the number of threads.
/// @param mesh   Welded. Not judged, which is said, if it is open or inside-out.
/// @param exact  Pins that the part's file gives exactly; null: they are found.
/// Of several shells that reach into each other only what can be seen from outside counts, to
/// 0.1 mm about where they cross.
WallMap wallsOf(const TriangleMesh& mesh, const ThicknessSettings& settings, WorkMonitor& monitor,
                const Features* exact = nullptr);

/// Of all printed parts.
struct WallsResult {
  /// By PartId; null: not looked at (bought, without a mesh, or the work was cancelled). Parts that
  /// share a mesh share it.
  std::vector<std::shared_ptr<const WallMap>> maps;

  bool operator==(const WallsResult& other) const;
};

WallsResult checkWalls(const PrintSubject& subject, WorkMonitor& monitor);

/// Walls, necks and pins below what the part's process prints; blade edges as hints. Thinnest
/// first, by part.
void addWallFindings(const PrintSubject& subject, const WallsResult& result,
                     PrintFindings& findings);

}  // namespace swingroom
