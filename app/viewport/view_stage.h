#pragma once

#include <map>
#include <optional>

#include "app/viewport/view_frame.h"

namespace swingroom {

/// What a ray meets.
struct ViewPick {
  PartId part;
  Vector3d p_W;
};

/// The scene with its meshes made ready and everything placed: what the view knows without a
/// display.
class ViewStage {
 public:
  /// Each setter says whether anything changed. A scene's few and small meshes are made ready at
  /// once; else they are `missing`, and their parts are not drawn before they are put.
  bool setScene(const ViewScene& scene);
  std::vector<std::shared_ptr<const TriangleMesh>> missing() const;
  void putMesh(const TriangleMesh* source, const std::shared_ptr<const ViewMesh>& mesh);
  bool setPoses(const std::vector<Pose>& X_WPs);
  bool setSection(const std::optional<ViewSection>& section);

  const ViewScene& scene() const { return scene_; }
  const std::optional<ViewSection>& section() const { return section_; }
  const FloorFrame& floor() const { return floor_; }
  /// Visible, and something of it is there to be drawn.
  bool isShown(std::size_t part) const;
  bool canBePicked(std::size_t part) const { return isShown(part) && !scene_.parts[part].ghost; }
  /// Null for a part without a surface.
  const std::shared_ptr<const ViewMesh>& mesh(std::size_t part) const { return meshes_[part]; }
  Pose pose(std::size_t part) const;
  /// Of all that is shown.
  std::size_t triangles() const;

  /// Of the visible parts where they stand now.
  ViewBounds bounds() const;
  /// Of all places where they stood since the scene was set: does not jump about while scrubbing.
  ViewBounds widestBounds() const;
  /// Corners of the visible parts, or of one: what `fit` has to show.
  std::vector<Vector3d> outlinePoints(std::optional<PartId> only = std::nullopt) const;
  /// Corners of the visible parts' boxes, or of some: quick, and never inside of the outline.
  std::vector<Vector3d> boxCorners(const std::vector<PartId>& only = {}) const;
  /// A part's box along the world's axes, visible or not; empty without a surface.
  Eigen::AlignedBox3d boxOf(std::size_t part) const;
  /// The nearest visible part along the ray that is no ghost; `parallel` rays come from infinitely
  /// far. What the section takes away is not met; its cut faces are.
  std::optional<ViewPick> pick(const ViewRay& ray, bool parallel) const;
  /// The parts that can be picked and are seen wholly within a rectangle of the picture, hidden by
  /// others or not.
  std::vector<PartId> partsWithin(const Eigen::AlignedBox2d& pixels,
                                  const ViewProjection& projection) const;

 private:
  void takeMeshes();
  bool hasPlace(std::size_t part) const;
  void widen();
  struct Reach {
    double fromMm = 0, toMm = 0;
    bool throughCut = false;  ///< It begins at the section's plane.
  };
  std::optional<Reach> reachOf(const Vector3d& origin_W, const Vector3d& direction_W) const;
  bool isCutAt(std::size_t part, const Vector3d& p_W) const;

  ViewScene scene_;
  FloorFrame floor_ = floorOf(ViewScene());
  std::vector<Pose> X_WPs_;
  std::optional<ViewSection> section_;
  std::map<const TriangleMesh*, std::shared_ptr<const ViewMesh>> ready_;
  std::vector<std::shared_ptr<const ViewMesh>> meshes_;  ///< By PartId.
  Eigen::AlignedBox3d widest_;
};

}  // namespace swingroom
