#pragma once

namespace swingroom {

/// What lies over the view keeps this far from its edges.
constexpr int kFromViewEdgePx = 12;

}  // namespace swingroom
