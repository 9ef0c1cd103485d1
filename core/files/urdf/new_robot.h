#pragma once

#include "core/files/sources/new_assembly.h"

namespace swingroom {

/// Makes an assembly from a URDF file. Each link is a part (further shapes of it parts of their
/// own, fixed to it), each joint a joint, with limits as ranges and mimics as followers; the root
/// stands on the ground. Modes: see `robotModes`. Meshes stay where they are; boxes, cylinders and
/// spheres become mesh files, which are to be written first (`NewAssembly::files`).
/// @param wish  The URDF is its `source`; unit, ground and the other mode do not count.
/// @returns Problems if the file is no sound URDF or meshes are missing or cannot be read; all in
/// one go.
Outcome<NewAssembly> newRobot(const NewAssemblyWish& wish, const MeshReader& reader);

}  // namespace swingroom
