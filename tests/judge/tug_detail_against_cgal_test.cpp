// The tug's detail stage against its blocks, by CGAL: how far the sculpted surfaces stray, and that holes are left as
// they were. Reliefs are those that sample_assemblies/harbour_tug_detailed/README.md states.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "core/files/mesh_file.h"
#include "tests/judge/cgal_judge.h"

namespace swingroom {
namespace {

const std::filesystem::path kTug =
    std::filesystem::path(SWINGROOM_SOURCE) / "sample_assemblies/harbour_tug";

TriangleMesh meshOf(const std::string& file) {
  Outcome<MeshFile> read = MeshReader::besideThisProgram().read(kTug / file);
  if (!read) throw std::runtime_error(toText(read.problems().front()));
  return read->mesh;
}

struct Relief {
  const char* part;
  double outwardMm;  ///< As the README states.
};

const Relief kReliefs[] = {{"thigh", 0.65},     {"shin", 0.65},      {"foot", 1.2},
                           {"torso", 0.4},      {"stern_board", 0.95}, {"funnel", 0},
                           {"fender", 0},       {"upper_arm", 0.15}, {"forearm", 0.15},
                           {"boathook", 0.05},  {"head", 2.1},       {"window", 0.5}};

constexpr double kInwardMm = 1.2;   ///< The deepest of all: a fold at a sleeve's corner.
constexpr double kRoundingMm = 2e-3;  ///< Refinement keeps faces to that.
constexpr std::size_t kEach = 53;   ///< Every so many vertices are measured: CGAL is slow.

TEST(TugDetail, StaysWithinItsStatedRelief) {
  for (const auto& [part, outwardMm] : kReliefs) {
    const TriangleMesh block = meshOf(std::string("parts/") + part + ".stl");
    const TriangleMesh detail = meshOf(std::string("detail/") + part + ".stl");
    std::vector<Vector3d> points;
    for (std::size_t i = 0; i < detail.vertices.size(); i += kEach) {
      points.push_back(detail.vertices[i]);
    }
    const bool closed = std::string(part) != "boathook";  // Its claw touches itself in a point.
    const auto sides = closed ? judge::sidesOf(block, points)
                              : std::vector(points.size(), judge::Side::inside);
    double out = 0, in = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double distance = std::sqrt(judge::squaredDistance(block, points[i]));
      double& most = sides[i] == judge::Side::outside ? out : in;
      most = std::max(most, distance);
    }
    EXPECT_LE(out, outwardMm + kRoundingMm) << part;
    EXPECT_LE(in, kInwardMm) << part;
    EXPECT_GT(std::max(out, in), 0.1) << part << " is not sculpted";
  }
}

struct PinInDetail {
  const char* pin;
  Vector3d at;
  const char* part;
  double leastMm, mostMm;  ///< A side; as of the blocks, tug_against_cgal_test.cpp.
};

const PinInDetail kDetailPins[] = {
    {"pin", {0, 9.2, 13}, "thigh", 0.2, 0.245},       {"pin", {0, 9.2, 13}, "torso", 0, 0.05},
    {"pin", {22, 9.2, 4.5}, "thigh", 0, 0.05},        {"pin", {32, 9.2, 4.5}, "shin", 0.2, 0.245},
    {"pin", {50, 12, 7.5}, "foot", 0.2, 0.245},       {"pin", {50, 12, 7.5}, "shin", 0, 0.05},
    {"small_pin", {-15, 18.5, 9}, "forearm", 0.2, 0.245},
    {"small_pin", {-15, 18.5, 9}, "upper_arm", 0, 0.05},
    {"small_pin", {-12, 0, 10.6}, "head", 0.2, 0.245},
    {"small_pin", {-12, 0, 10.6}, "head_skipper", 0.2, 0.245},
    {"small_pin", {-12, 0, 10.6}, "head_souwester", 0.2, 0.245},
    {"small_pin", {-39.4, 0, 3.2}, "stern_board", 0.2, 0.245},
    {"small_pin", {-39.4, 0, 3.2}, "torso", 0, 0.05}};

/// The part's triangles that come within `reachMm` of a line along y through `at`.
TriangleMesh near(const TriangleMesh& mesh, const Vector3d& at, double reachMm) {
  TriangleMesh some{mesh.vertices, {}};
  for (const Triangle& triangle : mesh.triangles) {
    for (const std::uint32_t corner : triangle) {
      const Vector3d off = mesh.vertices[corner] - at;
      if (std::hypot(off.x(), off.z()) > reachMm) continue;
      some.triangles.push_back(triangle);
      break;
    }
  }
  return some;
}

TEST(TugDetail, PinsTurnAndHoldAsInTheBlocks) {
  for (const auto& [pin, at, part, leastMm, mostMm] : kDetailPins) {
    TriangleMesh placed = meshOf(std::string("parts/") + pin + ".stl");
    for (Vector3d& vertex : placed.vertices) vertex += at;
    const TriangleMesh hole = near(meshOf(std::string("detail/") + part + ".stl"), at, 4);
    const double gapMm = std::sqrt(judge::squaredDistance(placed, hole));
    EXPECT_GE(gapMm, leastMm - 1e-5) << pin << " in " << part;
    EXPECT_LE(gapMm, mostMm) << pin << " in " << part;
  }
}

TEST(TugDetail, HolesHaveTheVerySameCornersAsInTheBlock) {
  const auto less = [](const Vector3d& a, const Vector3d& b) {
    return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end());
  };
  for (const PinInDetail& hole : kDetailPins) {
    if (std::string(hole.part).starts_with("head_")) continue;  // They have no block of their own.
    const bool large = std::string(hole.pin) == "pin";
    const double radiusMm = large ? 2.3 : 1.8;  // Beyond any of them, and along the pin.
    const double halfMm = large ? 4.75 : 3.6;
    const auto cornersOf = [&](const std::string& file) {
      std::set<Vector3d, decltype(less)> corners(less);
      for (const Vector3d& vertex : meshOf(file).vertices) {
        const Vector3d off = vertex - hole.at;
        const bool alongPin = std::abs(off.y()) <= halfMm;
        if (alongPin && std::hypot(off.x(), off.z()) <= radiusMm) corners.insert(vertex);
      }
      return corners;
    };
    const auto block = cornersOf(std::string("parts/") + hole.part + ".stl");
    EXPECT_GT(block.size(), 12u) << hole.part;
    EXPECT_EQ(cornersOf(std::string("detail/") + hole.part + ".stl"), block) << hole.part;
  }
}

}  // namespace
}  // namespace swingroom
