#include "core/mesh/feature_finder.h"

#include "core/mesh/found_features.h"

namespace swingroom {

FeatureFinder::FeatureFinder(const TriangleMesh& mesh)
    : found_(std::make_unique<const Found>(mesh)) {}
FeatureFinder::~FeatureFinder() = default;
FeatureFinder::FeatureFinder(FeatureFinder&&) noexcept = default;
FeatureFinder& FeatureFinder::operator=(FeatureFinder&&) noexcept = default;

const Features& FeatureFinder::all() const {
  return found_->features;
}

std::optional<CylinderFeature> FeatureFinder::cylinderAt(std::size_t triangle) const {
  found_->checkIndex(triangle);
  const std::uint32_t region = found_->cylinderOf[triangle];
  if (region != Found::kNoRegion) return found_->features.cylinders[region];
  return found_->smallCylinderAt(static_cast<std::uint32_t>(triangle));
}

std::optional<BallFeature> FeatureFinder::ballAt(std::size_t triangle) const {
  found_->checkIndex(triangle);
  const std::uint32_t region = found_->ballOf[triangle];
  if (region != Found::kNoRegion) return found_->features.balls[region];
  return std::nullopt;
}

std::optional<PlaneFeature> FeatureFinder::planeAt(std::size_t triangle) const {
  found_->checkIndex(triangle);
  return planeOf(found_->mesh, found_->topology,
                 flatRegion(found_->mesh, found_->topology, static_cast<std::uint32_t>(triangle)));
}

std::optional<EdgeFeature> FeatureFinder::edgeAt(std::size_t triangle, const Eigen::Vector3d& point,
                                                 double withinMm) const {
  found_->checkIndex(triangle);
  return found_->edges().straightNear(point, withinMm);
}

std::vector<std::uint32_t> FeatureFinder::regionAt(std::size_t triangle) const {
  found_->checkIndex(triangle);
  const std::uint32_t cylinder = found_->cylinderOf[triangle], ball = found_->ballOf[triangle];
  if (cylinder != Found::kNoRegion) return found_->cylinders[cylinder].triangles;
  if (ball != Found::kNoRegion) return found_->balls[ball].triangles;
  return flatRegion(found_->mesh, found_->topology, static_cast<std::uint32_t>(triangle));
}

std::optional<CylinderFeature> cylinderAt(const TriangleMesh& mesh, std::size_t triangle) {
  return FeatureFinder(mesh).cylinderAt(triangle);
}

std::optional<BallFeature> ballAt(const TriangleMesh& mesh, std::size_t triangle) {
  return FeatureFinder(mesh).ballAt(triangle);
}

Features featuresOf(const TriangleMesh& mesh) {
  return FeatureFinder(mesh).all();
}

}  // namespace swingroom
