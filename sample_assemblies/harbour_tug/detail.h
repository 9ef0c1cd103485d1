#pragma once

#include "core/mesh/triangle_mesh.h"
#include "sample_assemblies/harbour_tug/tug_sizes.h"

/// The tug's detail stage: each block part with its surface sculpted. Frame and holes are the
/// block's; reliefs go inward, or outward where there is room.
namespace swingroom::samples::tug {

// Hull and legs (port).
TriangleMesh detailedThigh();
TriangleMesh detailedShin();
TriangleMesh detailedFoot();
TriangleMesh detailedFender();

// Body.
TriangleMesh detailedTorso();
TriangleMesh detailedFunnel();
TriangleMesh detailedSternBoard();

// Arms and what they hold (port).
TriangleMesh detailedUpperArm();
TriangleMesh detailedForearm();
TriangleMesh detailedBoathook();

// Heads.
TriangleMesh detailedHead();
TriangleMesh detailedWindow();
/// A skipper with a beard and a tall cap: it fits.
TriangleMesh skippersHead();
/// A sou'wester whose neck flap reaches `kFlapReach` aft of the wheelhouse: into the funnels.
TriangleMesh souwesterHead();
constexpr double kFlapReach = 2.8;
constexpr Span kFlapEdgeZ{26.5, 29};  ///< The flap's edge is a flat face of that height.

}  // namespace swingroom::samples::tug
