#include "app/viewport/view_stage.h"

#include <array>
#include <set>
#include <utility>

#include "app/viewport/section_cut.h"
#include "core/base/parallel.h"
#include "core/tree/point_query.h"
#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

bool samePoses(const std::vector<Pose>& a, const std::vector<Pose>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const Pose& x, const Pose& y) { return x.matrix() == y.matrix(); });
}

/// Up to so many triangles are made ready while the window waits: a hundredth of a second or two.
constexpr std::size_t kAtOnceTriangles = 40'000;

/// Of a part's box; the root of its tree is not turned.
std::array<Vector3d, 8> cornersOf(const BoundingTree::Node& box, const Pose& X_WP) {
  std::array<Vector3d, 8> corners_W;
  for (std::size_t c = 0; c < 8; ++c) {
    const Vector3d side(c & 1 ? 1 : -1, c & 2 ? 1 : -1, c & 4 ? 1 : -1);
    corners_W[c] = X_WP * (box.centre + side.cwiseProduct(box.half));
  }
  return corners_W;
}

ViewBounds ballRound(const Eigen::AlignedBox3d& box) {
  if (box.isEmpty()) return {};
  return {box.center(), std::max(0.5 * box.diagonal().norm(), 1e-3)};
}

}  // namespace

bool ViewStage::setScene(const ViewScene& scene) {
  if (scene == scene_) return false;
  scene_ = scene;
  floor_ = floorOf(scene);
  takeMeshes();
  const auto wanting = missing();
  std::size_t triangles = 0;
  for (const auto& mesh : wanting) triangles += mesh->triangles.size();
  if (triangles <= kAtOnceTriangles) {
    std::vector<std::shared_ptr<const ViewMesh>> made(wanting.size());
    parallelFor(wanting.size(), defaultThreads(), [&](std::size_t i) {
      made[i] = std::make_shared<const ViewMesh>(makeViewMesh(*wanting[i]));
    });
    for (std::size_t i = 0; i < wanting.size(); ++i) putMesh(wanting[i].get(), made[i]);
  }
  widest_.setEmpty();
  widen();
  return true;
}

/// Those of the scene that are ready; the others are forgotten. A part whose surface was changed is
/// shown as it was until the new one is ready.
void ViewStage::takeMeshes() {
  std::map<const TriangleMesh*, std::shared_ptr<const ViewMesh>> kept;
  if (meshes_.size() != scene_.parts.size()) meshes_.assign(scene_.parts.size(), nullptr);
  for (std::size_t i = 0; i < meshes_.size(); ++i) {
    const auto& surface = scene_.parts[i].surface;
    const auto found = surface ? ready_.find(surface->mesh.get()) : ready_.end();
    if (!surface) meshes_[i] = nullptr;
    if (found == ready_.end()) continue;
    meshes_[i] = found->second;
    kept.insert(*found);
  }
  ready_ = std::move(kept);
}

std::vector<std::shared_ptr<const TriangleMesh>> ViewStage::missing() const {
  std::vector<std::shared_ptr<const TriangleMesh>> wanting;
  std::set<const TriangleMesh*> seen;
  for (std::size_t i = 0; i < meshes_.size(); ++i) {
    const auto& surface = scene_.parts[i].surface;
    if (surface && surface->mesh && !ready_.contains(surface->mesh.get()) &&
        seen.insert(surface->mesh.get()).second)
      wanting.push_back(surface->mesh);
  }
  return wanting;
}

void ViewStage::putMesh(const TriangleMesh* source, const std::shared_ptr<const ViewMesh>& mesh) {
  for (std::size_t i = 0; i < meshes_.size(); ++i) {
    const auto& surface = scene_.parts[i].surface;
    if (!surface || surface->mesh.get() != source) continue;
    meshes_[i] = mesh;
    ready_[source] = mesh;
  }
}

bool ViewStage::setPoses(const std::vector<Pose>& X_WPs) {
  if (samePoses(X_WPs, X_WPs_)) return false;
  X_WPs_ = X_WPs;
  widen();
  return true;
}

bool ViewStage::setSection(const std::optional<ViewSection>& section) {
  return std::exchange(section_, section) != section;
}

bool ViewStage::isShown(std::size_t part) const {
  return part < meshes_.size() && meshes_[part] && !meshes_[part]->indices.empty() &&
         scene_.parts[part].visible;
}

Pose ViewStage::pose(std::size_t part) const {
  return part < X_WPs_.size() ? X_WPs_[part] : Pose::Identity();
}

std::size_t ViewStage::triangles() const {
  std::size_t sum = 0;
  for (std::size_t i = 0; i < meshes_.size(); ++i) {
    if (isShown(i)) sum += meshes_[i]->triangles.size();
  }
  return sum;
}

/// Whether it takes up room in the view; known before its mesh is ready.
bool ViewStage::hasPlace(std::size_t part) const {
  const ViewPart& shown = scene_.parts[part];
  if (!shown.visible || !shown.surface || shown.surface->tree.empty()) return false;
  const auto& root = shown.surface->tree.root();  // Of a damaged mesh it may be nowhere.
  return root.centre.cwiseAbs().maxCoeff() < 1e9 && root.radius < 1e9;
}

ViewBounds ViewStage::bounds() const {
  Eigen::AlignedBox3d box;
  for (std::size_t i = 0; i < meshes_.size(); ++i) {
    if (!hasPlace(i)) continue;
    const auto& root = scene_.parts[i].surface->tree.root();
    const Vector3d middle = pose(i) * root.centre, half = Vector3d::Constant(root.radius);
    box.extend(Eigen::AlignedBox3d(middle - half, middle + half));
  }
  return ballRound(box);
}

void ViewStage::widen() {
  const ViewBounds now = bounds();
  if (!(now.radiusMm > 0)) return;
  const Vector3d half = Vector3d::Constant(now.radiusMm / std::sqrt(3.0));
  widest_.extend(Eigen::AlignedBox3d(now.centre_W - half, now.centre_W + half));
}

ViewBounds ViewStage::widestBounds() const {
  return ballRound(widest_);
}

std::vector<Vector3d> ViewStage::outlinePoints(std::optional<PartId> only) const {
  std::vector<Vector3d> points;
  for (std::size_t i = 0; i < meshes_.size(); ++i) {
    if (!hasPlace(i) || (only && only->index != i)) continue;
    if (!meshes_[i]) {
      const std::vector<Vector3d> corners_W = boxCorners({PartId{i}});
      points.insert(points.end(), corners_W.begin(), corners_W.end());
      continue;
    }
    const Pose X_WM = pose(i) * translation(meshes_[i]->middle);
    for (const Eigen::Vector3f& p : meshes_[i]->outline) points.push_back(X_WM * p.cast<double>());
  }
  return points;
}

std::vector<Vector3d> ViewStage::boxCorners(const std::vector<PartId>& only) const {
  std::vector<Vector3d> corners_W;
  for (std::size_t i = 0; i < meshes_.size(); ++i) {
    if (!hasPlace(i)) continue;
    if (!only.empty() && std::find(only.begin(), only.end(), PartId{i}) == only.end()) continue;
    const auto corners = cornersOf(scene_.parts[i].surface->tree.root(), pose(i));
    corners_W.insert(corners_W.end(), corners.begin(), corners.end());
  }
  return corners_W;
}

Eigen::AlignedBox3d ViewStage::boxOf(std::size_t part) const {
  Eigen::AlignedBox3d box;
  const auto& surface = scene_.parts[part].surface;
  if (!surface || surface->tree.empty()) return box;
  for (const Vector3d& corner_W : cornersOf(surface->tree.root(), pose(part))) box.extend(corner_W);
  return box;
}

/// The stretch of a ray that the section leaves; none: nothing of it.
std::optional<ViewStage::Reach> ViewStage::reachOf(const Vector3d& origin_W,
                                                   const Vector3d& direction_W) const {
  Reach reach{0, std::numeric_limits<double>::infinity()};
  if (!section_) return reach;
  const double start = section_->beyondMm(origin_W), rate = section_->normal_W.dot(direction_W);
  if (start > 0) {
    if (!(rate < 0)) return std::nullopt;
    reach.fromMm = -start / rate;
    reach.throughCut = true;
  } else if (rate > 0) {
    reach.toMm = -start / rate;
  }
  return reach;
}

/// Whether the section's plane is inside of the part there, so that its cut face is seen.
bool ViewStage::isCutAt(std::size_t part, const Vector3d& p_W) const {
  return meshes_[part]->sealed &&
         windingNumber(scene_.parts[part].surface->tree, pose(part).inverse() * p_W) != 0;
}

std::optional<ViewPick> ViewStage::pick(const ViewRay& ray, bool parallel) const {
  Vector3d origin = ray.origin_W;
  if (parallel) {
    const ViewBounds all = bounds();
    const double back = (origin - all.centre_W).norm() + 2 * all.radiusMm;
    origin -= back * ray.direction_W;
  }
  const auto reach = reachOf(origin, ray.direction_W);
  if (!reach) return std::nullopt;
  origin += reach->fromMm * ray.direction_W;
  std::optional<ViewPick> best;
  double nearestMm = reach->toMm - reach->fromMm;
  for (std::size_t i = 0; i < meshes_.size(); ++i) {
    if (!canBePicked(i)) continue;
    if (reach->throughCut && isCutAt(i, origin)) return ViewPick{PartId{i}, origin};
    const Pose X_PW = pose(i).inverse();
    const auto hit = firstHit(scene_.parts[i].surface->tree, X_PW * origin,
                              X_PW.linear() * ray.direction_W, nearestMm);
    if (!hit) continue;
    nearestMm = hit->distanceMm;
    best = ViewPick{PartId{i}, origin + nearestMm * ray.direction_W};
  }
  return best;
}

std::vector<PartId> ViewStage::partsWithin(const Eigen::AlignedBox2d& pixels,
                                           const ViewProjection& projection) const {
  const auto seenWithin = [&](const Vector3d& p_W) {
    return projection.isBefore(p_W) && pixels.contains(projection.pixel(p_W));
  };
  const auto cutIsWithin = [&](std::size_t part) {
    if (!section_) return true;
    const auto cut = sectionCut(scene_.parts[part].surface->tree, pose(part), *section_);
    return std::all_of(cut.lines_W.begin(), cut.lines_W.end(), [&](const auto& line) {
      return seenWithin(line[0]) && seenWithin(line[1]);
    });
  };
  std::vector<PartId> parts;
  for (std::size_t i = 0; i < meshes_.size(); ++i) {
    if (!canBePicked(i)) continue;
    const Pose X_WM = pose(i) * translation(meshes_[i]->middle);
    bool any = false;
    const auto& vertices = meshes_[i]->vertices;
    const bool within = std::all_of(vertices.begin(), vertices.end(), [&](const auto& vertex) {
      const Vector3d p_W = X_WM * vertex.position.template cast<double>();
      if (section_ && section_->beyondMm(p_W) > 0) return true;  // Taken away.
      any = true;
      return seenWithin(p_W);
    });
    if (within && any && cutIsWithin(i)) parts.push_back(PartId{i});
  }
  return parts;
}

}  // namespace swingroom
