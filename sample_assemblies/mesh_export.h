#pragma once

#include <filesystem>

#include "core/mesh/triangle_mesh.h"
#include "sample_assemblies/solids.h"

namespace swingroom::samples {

/// How far a mesh may stray from a round face, and turn between neighbouring facets of it.
constexpr double kDeviationMm = 0.02;
constexpr double kTurnRad = 0.4;

/// The solid's surface as a closed mesh whose coordinates are float32 numbers, so that it is, bit
/// for bit, what a reader of its STL gets.
/// @throws std::runtime_error if the result is not closed: an edge without exactly one partner.
TriangleMesh meshed(const Solid& solid, double deviationMm = kDeviationMm);

/// The mesh with every coordinate rounded to float32.
TriangleMesh roundedToFloat(TriangleMesh mesh);

/// Writes a binary STL. Same mesh, same bytes.
/// @throws std::runtime_error if the file cannot be written.
void writeStl(const TriangleMesh& mesh, const std::filesystem::path& file);

}  // namespace swingroom::samples
