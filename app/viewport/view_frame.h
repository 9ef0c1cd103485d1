#pragma once

#include <QFont>
#include <optional>
#include <utility>

#include "app/viewport/paint/paint_mesh.h"
#include "app/viewport/painters/floor_frame.h"
#include "app/viewport/section_cut.h"
#include "app/viewport/tools/snap_point.h"
#include "app/viewport/view_handle.h"
#include "app/viewport/view_mesh.h"
#include "app/viewport/view_scene.h"

namespace swingroom {

/// A knob on the section's plane, pixels.
struct SectionHandle {
  Eigen::Vector2d place = Eigen::Vector2d::Zero();
  Eigen::Vector2d way = Eigen::Vector2d::Zero();  ///< Unit: where the plane goes as it is dragged.
  double mmPerPixel = 0;                          ///< How far, along the normal.
};

/// A part as one picture shows it.
struct DrawnPart {
  std::shared_ptr<const ViewMesh> mesh;
  std::shared_ptr<const PaintMesh> paint;  ///< Its surface in colours; null: plain.
  Pose X_WP = Pose::Identity();
  Rgb colour;
  bool pale = false, clear = false;
  SectionSide side = SectionSide::kept;
  std::shared_ptr<const SectionCut> cut;  ///< Where `side` is cut.
  int hatching = 0;                       ///< Of its cut face, see hatchingsFor.
};

/// Everything that one picture of the view is made from. Pixels are the display's own.
struct ViewFrame {
  std::vector<DrawnPart> parts;
  FloorFrame floor;
  ViewBounds bounds;  ///< Of the floor's fading; may be larger than what is shown just now.
  ViewProjection projection{ViewCamera(), ViewSize()};
  DepthRange range;
  ViewColours colours;
  PaintScale paintScale;
  double pixelRatio = 1;    ///< The display's pixels a pixel of the layout.
  bool fine = false;        ///< Smooth edges everywhere, at the cost of a few frames.
  bool seeThrough = false;  ///< No floor, and nothing where there is no part.
  std::optional<std::pair<std::size_t, std::size_t>> overlap;  ///< Indices into `parts`.
  std::optional<ViewDimension> dimension;
  QFont font;
  std::vector<ViewAxis> axes;
  std::vector<ViewZone> zones;
  std::vector<DrawnHandle> handles;
  std::vector<ViewDrawing> drawings;
  std::vector<SnapPoint> marks;  ///< Of what is measured.
  std::optional<ViewSection> section;
  std::vector<Vector3d> sectionFrame_W;  ///< Corners of the plane as it is drawn.
  std::optional<SectionHandle> handle;   ///< Where the plane is dragged.
};

}  // namespace swingroom
