#include "core/motion/registration.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>

#include "core/motion/surface_fit.h"
#include "core/motion/surface_search.h"
#include "core/motion/vertex_match.h"

namespace swingroom {
namespace {

/// Every corner of every triangle, up to `most` of them, evenly taken.
Eigen::Matrix3Xd cornersOf(const TriangleMesh& mesh, std::size_t most) {
  const std::size_t stride = 3 * mesh.triangles.size() / most + 1;
  Eigen::Matrix3Xd corners(3, (3 * mesh.triangles.size() + stride - 1) / stride);
  Eigen::Index column = 0;
  for (std::size_t i = 0; i < 3 * mesh.triangles.size(); i += stride) {
    corners.col(column++) = mesh.corner(i / 3, static_cast<int>(i % 3));
  }
  return corners;
}

/// The fit that takes corner i of `a` to corner i of `b`, however bad.
std::optional<Registration> fitInOrder(const TriangleMesh& a, const TriangleMesh& b) {
  constexpr std::size_t kMostCorners = 300'000;
  if (a.triangles.size() != b.triangles.size()) return std::nullopt;
  Registration fit;
  fit.D = fittedDisplacement(cornersOf(a, kMostCorners), cornersOf(b, kMostCorners));
  for (std::size_t t = 0; t < a.triangles.size(); ++t) {
    for (int i = 0; i < 3; ++i) {
      fit.residualMm = std::max(fit.residualMm, (fit.D * a.corner(t, i) - b.corner(t, i)).norm());
    }
  }
  return fit;
}

std::optional<Registration> fitByVertices(const TriangleMesh& a, const TriangleMesh& b) {
  // As files round them; else as far off as is let pass.
  constexpr double kRoundingMm = 0.0005;
  std::vector<Pose> matches = matchVertices(a, b, kRoundingMm);
  if (matches.empty()) matches = matchVertices(a, b, kSamePartMm);
  if (matches.empty()) return std::nullopt;
  Registration fit;
  fit.inFileOrder = false;
  fit.D = matches.front();
  fit.residualMm = largestMisfit(a, b, fit.D);
  fit.alternatives.assign(matches.begin() + 1, matches.end());
  return fit;
}

/// A fit of matching corners or vertices within `kSamePartMm`.
std::optional<Registration> closeFit(const TriangleMesh& a, const TriangleMesh& b) {
  const auto inOrder = fitInOrder(a, b);
  if (inOrder && inOrder->residualMm <= kSamePartMm) return inOrder;
  const auto byVertices = fitByVertices(a, b);
  if (byVertices && byVertices->residualMm <= kSamePartMm) return byVertices;
  return std::nullopt;
}

TriangleMesh mirrored(const TriangleMesh& mesh) {
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  X.linear()(0, 0) = -1;
  // In place, corner for corner: turning the triangles round would lose the file order.
  TriangleMesh mirror = mesh;
  for (Vector3d& v : mirror.vertices) v = X * v;
  return mirror;
}

std::string inMm(double value) {
  char text[40];
  std::snprintf(text, sizeof text, "%.2g mm", value);
  return text;
}

}  // namespace

Outcome<Registration> registerPart(const std::string& where, const TriangleMesh& a,
                                   const TriangleMesh& b) {
  if (const auto fit = closeFit(a, b)) return *fit;
  const auto inOrder = fitInOrder(a, b);
  const SurfaceFit laid = laidOnEachOther(a, b, inOrder ? std::optional(inOrder->D) : std::nullopt);
  if (laid.residualMm <= kSamePartMm) return Registration{laid.D, laid.residualMm, false, {}};
  if (closeFit(mirrored(a), b)) {
    return Problem{where, "is mirrored in one of the two folders",
                   "no joint can turn a part into its mirror image: export the part itself again"};
  }
  return Problem{where, "differs in shape between the two folders by " + inMm(laid.residualMm),
                 "export the same part in both modes"};
}

}  // namespace swingroom
