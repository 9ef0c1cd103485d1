#pragma once

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "tests/support/shapes.h"

namespace swingroom::judge {

struct NamedMesh {
  std::string name;
  TriangleMesh mesh;
};

/// Solids of 12 to 600 triangles, up to some 30 mm large; all closed, welded and manifold.
inline std::vector<NamedMesh> solids() {
  return {{"box", shapes::box({-9, -4, -6}, {9, 4, 6})},
          {"sphere 80", shapes::sphere(10, 1)},
          {"sphere 320", shapes::sphere(12, 2)},
          {"torus", shapes::torus(14, 4, 20, 12)},
          {"capsule", shapes::capsule(4, 18, 16)},
          {"cylinder", shapes::cylinder(6, -8, 8, 48)},
          {"tube", shapes::tube(11, 8, -5, 5, 40)},
          {"ell", shapes::prism({{0, 0}, {20, 0}, {20, 5}, {5, 5}, {5, 16}, {0, 16}}, -3, 3)}};
}

/// Two solids in a random pose, of which some cross and most are near.
struct PlacedPair {
  NamedMesh a, b;
  Pose X_AB = Pose::Identity();
  std::string name;
};

inline std::vector<PlacedPair> randomPairs(unsigned seed, int count) {
  const std::vector<NamedMesh> all = solids();
  std::mt19937_64 random(seed);
  std::uniform_int_distribution<std::size_t> which(0, all.size() - 1);
  std::vector<PlacedPair> pairs;
  for (int i = 0; i < count; ++i) {
    const NamedMesh &a = all[which(random)], &b = all[which(random)];
    const std::string name = a.name + " and " + b.name + ", seed " + std::to_string(seed) +
                             ", pair " + std::to_string(i);
    pairs.push_back({a, b, shapes::randomPose(random, 20), name});
  }
  return pairs;
}

}  // namespace swingroom::judge
