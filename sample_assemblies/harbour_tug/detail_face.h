#pragma once

#include "sample_assemblies/harbour_tug/detail.h"
#include "sample_assemblies/sculpt/sculpt.h"

/// Reliefs of the wheelhouse's walls, which are a face and its sides.
namespace swingroom::samples::tug {

/// Heights on the front wall, mm; `p` in the tug's frame. Nothing stands over the panes.
double moustachedFace(const Eigen::Vector3d& p);
double beardedFace(const Eigen::Vector3d& p);

/// The front wall with such a face, and what stands before it.
Push frontWall(std::function<double(const Eigen::Vector3d&)> face);

/// Both sides with boards, window frames and ears, and the back with boards.
std::vector<Push> otherWalls();

/// What must keep its shape in each head: neck, and the places of the panes.
Sculpture headWith(std::vector<Push> pushes);

}  // namespace swingroom::samples::tug
