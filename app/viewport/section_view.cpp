#include "app/viewport/section_view.h"

#include <algorithm>

namespace swingroom {

void SectionView::begin(const ViewStage& stage) {
  // Near ones count as neighbours too.
  const Vector3d near = Vector3d::Constant(0.02 * stage.bounds().radiusMm);
  std::vector<Eigen::AlignedBox3d> boxes;
  for (std::size_t i = 0; i < stage.scene().parts.size(); ++i) {
    const Eigen::AlignedBox3d box = stage.boxOf(i);
    boxes.push_back(box.isEmpty() ? box : Eigen::AlignedBox3d(box.min() - near, box.max() + near));
  }
  hatchings_ = hatchingsFor(boxes);
  cuts_.clear();
}

void SectionView::place(std::size_t part, const ViewStage& stage, DrawnPart& drawn) {
  const auto& surface = stage.scene().parts[part].surface;
  if (!stage.section() || !surface || surface->tree.empty()) return;
  const ViewSection& section = *stage.section();
  drawn.side = sideOf(surface->tree.root(), drawn.X_WP, section);
  drawn.hatching = part < hatchings_.size() ? hatchings_[part] : 0;
  if (drawn.side != SectionSide::cut) return;
  Kept& kept = cuts_[part];
  const bool same = kept.cut && kept.surface == surface.get() && kept.section == section &&
                    kept.X_WP.matrix() == drawn.X_WP.matrix();
  if (!same) {
    kept = {surface.get(), drawn.X_WP, section,
            std::make_shared<const SectionCut>(sectionCut(surface->tree, drawn.X_WP, section))};
  }
  drawn.cut = kept.cut;
}

std::vector<Vector3d> SectionView::frameOf(const ViewStage& stage) {
  if (!stage.section()) return {};
  const ViewSection& section = *stage.section();
  const Vector3d u = section.across_W, v = section.along_W();
  Eigen::AlignedBox2d extent;
  for (const Vector3d& p_W : stage.boxCorners())
    extent.extend(Eigen::Vector2d(u.dot(p_W), v.dot(p_W)));
  if (extent.isEmpty()) return {};
  const Eigen::Vector2d margin = Eigen::Vector2d::Constant(0.04 * extent.diagonal().norm());
  const Eigen::Vector2d low = extent.min() - margin, high = extent.max() + margin;
  std::vector<Vector3d> corners_W;
  for (const auto& [x, y] : {std::pair(low.x(), low.y()), std::pair(high.x(), low.y()),
                             std::pair(high.x(), high.y()), std::pair(low.x(), high.y())})
    corners_W.push_back(x * u + y * v + section.placeMm * section.normal_W);
  return corners_W;
}

std::optional<SectionHandle> SectionView::handleOf(const std::vector<Vector3d>& frame_W,
                                                   const ViewSection& section,
                                                   const ViewProjection& projection) {
  constexpr double kRoom =
      0.06;  // Of the picture: nearer to its rim the knob would be hard to grab.
  const ViewSize& size = projection.size();
  const Eigen::Vector2d room = Eigen::Vector2d::Constant(kRoom * size.smaller());
  const Eigen::AlignedBox2d seen(room, Eigen::Vector2d(size.width, size.height) - room);
  std::optional<Vector3d> highest_W;
  bool highestIsSeen = false;
  for (std::size_t i = 0; i < frame_W.size(); ++i) {
    const Vector3d middle_W = 0.5 * (frame_W[i] + frame_W[(i + 1) % frame_W.size()]);
    if (!projection.isBefore(middle_W)) continue;
    const bool isSeen = seen.contains(projection.pixel(middle_W));
    const bool higher =
        !highest_W || projection.pixel(middle_W).y() < projection.pixel(*highest_W).y() - 1e-6;
    if (isSeen == highestIsSeen ? higher : isSeen) highest_W = middle_W, highestIsSeen = isSeen;
  }
  if (!highest_W) return std::nullopt;
  SectionHandle handle;
  const Eigen::Vector2d place = projection.pixel(*highest_W);
  const double mmPerPixel = projection.mmPerPixel(projection.depthMm(*highest_W));
  const Vector3d on_W = *highest_W + mmPerPixel * section.normal_W;
  const Eigen::Vector2d step = projection.pixel(on_W) - place;
  handle.place = place.cwiseMax(seen.min()).cwiseMin(seen.max());
  // Seen along the normal it would not move: then up is towards the eye.
  const bool endOn = step.norm() < 0.2;
  const double towardsEye = section.normal_W.dot(projection.camera().towards_W()) < 0 ? 1 : -1;
  handle.way = endOn ? Eigen::Vector2d(0, -towardsEye) : Eigen::Vector2d(step.normalized());
  handle.mmPerPixel = endOn ? mmPerPixel : mmPerPixel / step.norm();
  return handle;
}

}  // namespace swingroom
