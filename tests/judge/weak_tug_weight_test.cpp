// Weights of the weak tug that have no short closed form, by CGAL: points at random in a fine grid, each weighed as the
// default process prints it there. What sample_assemblies/harbour_tug_weak/README.md says of faults 5 and 6.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <random>
#include <set>

#include "core/files/loading/load_assembly.h"
#include "tests/judge/cgal_judge.h"

namespace swingroom {
namespace {

const LoadedAssembly& weakTug() {
  static const Outcome<LoadedAssembly> loaded =
      loadAssembly(std::filesystem::path(SWINGROOM_SOURCE) / "sample_assemblies/harbour_tug_weak/harbour_tug_weak.swing.json",
                   MeshReader::besideThisProgram(), 2);
  return loaded.value();
}

/// Corners that two fans of triangles share become one for each: the boathook's claw touches itself in a point, and CGAL
/// wants a manifold.
TriangleMesh fansApart(const TriangleMesh& mesh) {
  std::vector<std::vector<std::size_t>> around(mesh.vertices.size());
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    for (const auto v : mesh.triangles[t]) around[v].push_back(t);
  }
  TriangleMesh apart = mesh;
  for (std::uint32_t v = 0; v < mesh.vertices.size(); ++v) {
    std::set<std::size_t> left(around[v].begin(), around[v].end());
    for (bool first = true; !left.empty(); first = false) {
      std::vector<std::size_t> fan{left.extract(left.begin()).value()};
      for (std::size_t i = 0; i < fan.size(); ++i) {
        std::erase_if(left, [&](std::size_t other) {
          int shared = 0;
          for (const auto w : mesh.triangles[fan[i]]) {
            const Triangle& theirs = mesh.triangles[other];
            shared += std::find(theirs.begin(), theirs.end(), w) != theirs.end();
          }
          if (shared >= 2) fan.push_back(other);
          return shared >= 2;
        });
      }
      if (first) continue;
      const auto copy = static_cast<std::uint32_t>(apart.vertices.size());
      apart.vertices.push_back(mesh.vertices[v]);
      for (const std::size_t t : fan) std::replace(apart.triangles[t].begin(), apart.triangles[t].end(), v, copy);
    }
  }
  return apart;
}

struct Weighed {
  double massG = 0;
  Vector3d moment = Vector3d::Zero();  ///< g mm, in the part's frame.
};

// PLA 1.24, PETG 1.27 and TPU 1.21 g/cm3; a skin of three lines of 0.4 mm, 15 % of what is deeper; soft parts are solid.
Weighed weighed(const Part& part, const std::string& material) {
  constexpr double kCellMm = 0.6, kSkinMm = 1.2, kInfill = 0.15;
  const double gPerMm3 = (material == "PETG" ? 1.27 : material == "TPU" ? 1.21 : 1.24) / 1000;
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> in(0, kCellMm);
  const Eigen::AlignedBox3d box = boundsOf(*part.mesh);
  std::vector<Vector3d> points;
  for (double x = box.min().x(); x < box.max().x(); x += kCellMm) {
    for (double y = box.min().y(); y < box.max().y(); y += kCellMm) {
      for (double z = box.min().z(); z < box.max().z(); z += kCellMm) {
        points.emplace_back(x + in(random), y + in(random), z + in(random));
      }
    }
  }
  const TriangleMesh mesh = fansApart(*part.mesh);
  const std::vector<judge::Side> sides = judge::sidesOf(mesh, points);
  const std::vector<double> distances = judge::distancesTo(mesh, points);
  Weighed sum;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (sides[i] == judge::Side::outside) continue;
    const bool solid = material == "TPU" || distances[i] <= kSkinMm;
    const double massG = gPerMm3 * kCellMm * kCellMm * kCellMm * (solid ? 1 : kInfill);
    sum.massG += massG;
    sum.moment += massG * points[i];
  }
  return sum;
}

/// Of `names` (all but the quay if empty) as the deckhand stands: mass and middle.
std::pair<double, Vector3d> weighedAsDeckhand(const std::set<std::string>& names) {
  const LoadedAssembly& tug = weakTug();
  const std::vector<Pose> X_WPs = posesOf(tug.assembly, tug.modes.at(1).configuration);
  double massG = 0;
  Vector3d moment = Vector3d::Zero();
  for (std::size_t i = 0; i < tug.assembly.parts().size(); ++i) {
    const Part& part = tug.assembly.parts()[i];
    if (names.empty() ? part.name == "quay" : !names.contains(part.name)) continue;
    const std::string material = part.kind == PartKind::soft ? "TPU" : part.name.find("window") != std::string::npos ? "PETG" : "PLA";
    const Weighed one = weighed(part, material);
    massG += one.massG;
    moment += X_WPs[i] * Vector3d(one.moment / one.massG) * one.massG;
  }
  return {massG, moment / massG};
}

// Drawn: the sole begins 57 along the hull, 7 before the ankle, whose axis is 7.5 above it: 7 + 7.5 = 14.5 before the
// torso's axis.
TEST(WeakTugAgainstCgal, DeckhandSWeightIsBehindItsSoles) {
  const auto [massG, middle] = weighedAsDeckhand({});
  RecordProperty("massG", std::to_string(massG));
  EXPECT_NEAR(middle.x() - 14.5, -4.46, 0.05) << massG << " g";
}

// The elbow's axis stands 9 before the torso's (the arm's height in the hull).
TEST(WeakTugAgainstCgal, ForearmAndBoathookTurnTheElbow) {
  const auto [massG, middle] = weighedAsDeckhand({"forearm_port", "boathook"});
  const double newton = massG * 9.80665 / 1000;
  EXPECT_NEAR(newton * (middle.x() - 9), 0.110, 0.001) << massG << " g at " << middle.x() - 9;
  // A loose pin of 3 bears the weight; friction of 0.5 on its radius.
  EXPECT_NEAR(newton * 0.5 * 1.5, 0.0095, 0.0002) << massG << " g";
}

}  // namespace
}  // namespace swingroom
