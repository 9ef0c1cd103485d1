#pragma once

#include <filesystem>

namespace swingroom {

/// Writes an assembly whose 780 pairs all matter: 40 cubes of 0.1 mm, 0.38 apart from middle to
/// middle in four rows of four, three high. Neighbours are 0.28 apart, the farthest two sqrt(1.04^2
/// + 1.04^2 + 0.66^2) = 1.61: less than 1.5 above the required gap of 0.2. In three steps every
/// third cube slides up by 0.05, then down by 0.1, then every fifth aside by 0.1, to 0.18 of its
/// neighbour.
/// @returns The assembly file.
std::filesystem::path writeNearCluster(const std::filesystem::path& folder);

}  // namespace swingroom
