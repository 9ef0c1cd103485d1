#pragma once

#include <QColor>
#include <QImage>
#include <QString>
#include <array>
#include <memory>
#include <vector>

#include "core/base/id.h"
#include "core/picture/picture.h"
#include "core/sweep/part_geometry.h"

/// What the 3D view shows, as whole values. World frame, mm.
namespace swingroom {

struct ViewPart {
  std::shared_ptr<const Surface> surface;  ///< In the part's frame; null: not drawn.
  Rgb colour;
  bool visible = true;
  bool clear = false;  ///< Seen through, as a window.
  bool ghost = false;  ///< Pale, and not to be picked.

  bool operator==(const ViewPart&) const = default;
};

struct ViewScene {
  std::vector<ViewPart> parts;  ///< By PartId.
  Vector3d up = Vector3d::UnitZ(), front = Vector3d::UnitX();
  double floorMm = 0;  ///< Height of the bed along `up`.

  bool operator==(const ViewScene&) const = default;
};

/// Which parts the view is about.
struct ViewEmphasis {
  std::vector<PartId> parts;  ///< In full colour, the others stand back; empty: all in full colour.
  bool overlap = false;       ///< Hatch the common volume of the first two.

  bool operator==(const ViewEmphasis&) const = default;
};

/// A plane that cuts the view open: what lies beyond it, where the normal points, is taken away.
struct ViewSection {
  Vector3d normal_W = Vector3d::UnitX();  ///< Unit.
  Vector3d across_W = Vector3d::UnitY();  ///< Unit, in the plane: hatching is at 45 degrees to it.
  double placeMm = 0;                     ///< Of the plane along the normal, from the origin.

  Vector3d along_W() const { return normal_W.cross(across_W); }
  double beyondMm(const Vector3d& p_W) const { return normal_W.dot(p_W) - placeMm; }
  bool operator==(const ViewSection&) const = default;
};

/// A line between two points with its figure.
struct ViewDimension {
  std::array<Vector3d, 2> ends_W{Vector3d::Zero(), Vector3d::Zero()};
  QString text;

  bool operator==(const ViewDimension&) const = default;
};

/// A joint's axis between two places on it.
struct ViewAxis {
  Vector3d point_W = Vector3d::Zero(), direction_W = Vector3d::UnitZ();
  double fromMm = 0, toMm = 0;  ///< Along `direction_W` from `point_W`.
  bool strong = false;
  bool turns = true;   ///< A hinge: an arc with an arrow; else a slide: a straight arrow.
  bool plain = false;  ///< No arrow: a handle shows which way.

  bool operator==(const ViewAxis&) const = default;
};

/// A joint zone: a cylinder, or a ball.
struct ViewZone {
  Vector3d centre_W = Vector3d::Zero(), axis_W = Vector3d::UnitZ();
  double radiusMm = 0;
  double halfLengthMm = 0;  ///< 0: a ball.

  bool operator==(const ViewZone&) const = default;
};

/// What is pointed out for a moment: axes and rims, and parts in full colour while the others stand
/// back (none: as the emphasis has it).
struct ViewGuides {
  std::vector<ViewAxis> axes;
  std::vector<ViewZone> zones;
  std::vector<PartId> parts;

  bool operator==(const ViewGuides&) const = default;
};

/// A picture that lies on a side of the scene. Seen from that side it lies over the parts; from
/// elsewhere it stands behind them, faint.
struct ViewDrawing {
  QImage image;
  Vector3d middle_W = Vector3d::Zero();  ///< In the plane through the origin.
  Vector3d right_W = Vector3d::UnitX(), up_W = Vector3d::UnitZ();  ///< Unit, as the picture lies.
  double widthMm = 1, heightMm = 1;
  double opacity = 0.5;
  /// Lines beside it that are drawn with it: its own shape's outline and the figure's.
  std::vector<std::array<Vector3d, 2>> drawn_W, figure_W;

  Vector3d away_W() const { return up_W.cross(right_W); }
  bool operator==(const ViewDrawing&) const = default;
};

/// The theme's colours; before they are set, those of the light theme.
struct ViewColours {
  QColor ground{0xF4, 0xF2, 0xEE}, line{0xDC, 0xD8, 0xD0}, ink{0x20, 0x24, 0x2A},
      soft{0x5C, 0x62, 0x6B}, panel{0xFF, 0xFF, 0xFF}, accent{0x00, 0x72, 0xB2},
      clash{0xD5, 0x5E, 0x00};

  bool operator==(const ViewColours&) const = default;
};

}  // namespace swingroom
