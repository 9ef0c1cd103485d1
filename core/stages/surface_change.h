#pragma once

#include <optional>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/stages/stage_surface.h"

namespace swingroom {

/// How far one place of a surface is from another stage's surface. mm, in the part's frame.
struct PlaceChange {
  double mm = 0;  ///< Outside the other stage's solid +, inside -.
  Eigen::Vector3d at = Eigen::Vector3d::Zero();
  Eigen::Vector3d nearest = Eigen::Vector3d::Zero();  ///< On the other stage.
};

/// The greatest change of one sign.
struct LargestChange {
  PlaceChange place;   ///< Reached there.
  double upperMm = 0;  ///< No place is farther, in size: true greatest is in [|place.mm|, upperMm].
};

/// A flat piece of the surface.
struct ChangePiece {
  std::array<Eigen::Vector3d, 3> corners;
  Eigen::Vector3d normal;      ///< Unit, out of the material.
  std::uint32_t triangle = 0;  ///< Of the mesh that it is a piece of.
  double mm = 0;               ///< At its middle.
  double upperMm = 0;          ///< No place of it is farther off, in size.
};

struct ChangeSettings {
  double fineMm = 0.25;      ///< Pieces are split no further than to this, from middle to corner.
  double coarseMm = 1;       ///< Larger ones are always split, if the surface is not too large.
  double spreadMm = 0.03;    ///< Pieces that differ less from their middle are not split.
  double accuracyMm = 0.005; ///< Of the largest changes.
  double changedMm = 0.05;   ///< From here on a place counts as changed.
  unsigned threads = 1;
  WorkMonitor* monitor = nullptr;  ///< May be null. Once it is cancelled, the result is worthless.
};

/// Where a part's surface moved between two stages, as seen from the places of one of them.
///
/// A place's figure is its distance from the nearest place of the other stage's surface. Where that
/// nearest one is the other side of a wall (or of a slot) that is thinner than the change, the
/// nearest one that does not face the other way is taken in its stead. Sides are told by closed
/// shells; without any, by the nearest triangle's normal.
struct SurfaceChange {
  std::vector<ChangePiece> pieces;  ///< By triangle, rising; all of the surface that is seen.
  std::optional<LargestChange> outward, inward;
  double areaMm2 = 0, changedMm2 = 0;

  double changedShare() const { return areaMm2 > 0 ? changedMm2 / areaMm2 : 0; }
};

/// One place of `on`, with the unit normal there, held against `other`.
/// @param nearTriangle  Of `other.tree()`, probably near; it is set to the one that was found.
PlaceChange changeAt(const StageSurface& other, const StageSurface& on, const Eigen::Vector3d& p,
                     const Eigen::Vector3d& normal, std::optional<std::uint32_t>& nearTriangle);

/// All places of `on`. The same bytes whatever the number of threads.
/// Cost: about 5 us a piece and core. Accuracy: tests/core/stages and tests/judge.
SurfaceChange changeOf(const StageSurface& other, const StageSurface& on,
                       const ChangeSettings& settings = {});

}  // namespace swingroom
