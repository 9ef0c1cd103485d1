#pragma once

#include "core/print/joints/seam_edges.h"
#include "core/print/joints/seams.h"

namespace swingroom {

/// Edges of one panel that follow each other along a seam, in order.
using SeamChain = std::vector<SeamEdge>;

/// Edges that have a rim over against them, chained where they meet and their outer faces go on.
std::vector<SeamChain> seamChains(const std::vector<SeamEdge>& edges, const SeamRims& other);

/// Gap and step along one chain; the largest gap to 0.01 mm.
SeamLine seamLineOf(const SeamChain& chain, const SeamRims& other);

}  // namespace swingroom
