#pragma once

#include <filesystem>

#include "core/files/loading/load_assembly.h"

/// The six-axis arm of Debian's package `dart-doc`: seven meshes that were made to be looked at and
/// a description of its joints.
namespace swingroom::real {

/// Where the package put the arm's meshes; the description stands one folder above.
/// @throws std::runtime_error that says what to install if they are not there.
std::filesystem::path armMeshFolder();

/// six_axis_arm.swing.json with those meshes.
/// @throws std::runtime_error with the loader's words if it does not load.
LoadedAssembly loadArm();

}  // namespace swingroom::real
