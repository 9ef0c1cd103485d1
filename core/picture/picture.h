#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

struct Rgb {
  std::uint8_t red = 0, green = 0, blue = 0;

  bool operator==(const Rgb&) const = default;
};

/// Rows from the top, left to right.
struct Image {
  int width = 0, height = 0;
  std::vector<Rgb> pixels;

  bool operator==(const Image&) const = default;
};

/// One placed mesh of a picture.
struct PictureShape {
  const TriangleMesh* mesh = nullptr;  ///< Not null; must outlive the call.
  Pose X_WP = Pose::Identity();
  Rgb colour;
  bool pale = false;   ///< Stands back: desaturated towards the ground, still solid.
  bool clear = false;  ///< Seen through, as a window.
};

/// Where the eye is: it looks along parallel rays, as a technical drawing does. What is shown is
/// fitted into the picture with a margin of 7 % of its smaller side all round.
struct PictureView {
  /// The way the eye looks, world frame; not along `up`.
  Vector3d towards = Vector3d(-1, 1, -0.6);
  Vector3d up = Vector3d::UnitZ();
  /// Centre and radius (mm) of what must be seen; none: all shapes.
  std::optional<std::pair<Vector3d, double>> focus;
};

/// A line between two points in the world with its figure, drawn over everything.
struct PictureDimension {
  std::array<Vector3d, 2> ends_W;
  std::string text;
};

struct PictureRequest {
  /// May be empty, open or damaged meshes: what is not finite, or farther than 1e9 mm, is not
  /// drawn.
  std::vector<PictureShape> shapes;
  PictureView view;
  int width = 640, height = 480;  ///< Pixels.
  /// The print bed's grid of 10 mm squares under the lowest point; from below it is not drawn.
  bool floor = false;
  /// Indices of two shapes whose common volume is hatched and outlined, drawn over everything: also
  /// what lies hidden in a body is seen. Only where both are closed along the ray; touch (1e-4 mm)
  /// is none.
  std::optional<std::array<std::size_t, 2>> overlap;
  std::vector<PictureDimension> dimensions;
  std::vector<std::pair<Vector3d, std::string>> labels;  ///< A point in the world and its words.
  unsigned threads = 1;
};

/// A line of an overlay in pixels from the top left.
struct PlacedDimension {
  std::array<Eigen::Vector2d, 2> ends;
  Eigen::Vector2d label;  ///< Middle of the words.
  std::string text;
};

struct PlacedLabel {
  Eigen::Vector2d point;
  Eigen::Vector2d label;  ///< Middle of the words.
  std::string text;
};

/// A picture, and what is written over it at its own place: words overlap neither one another nor
/// the edge. A label or dimension whose place is outside the picture, or that finds no room, is
/// left out.
struct Picture {
  Image image;
  std::vector<PlacedDimension> dimensions;
  std::vector<PlacedLabel> labels;
};

/// Matt shading, ambient occlusion, outlines and crease lines (where a surface turns by more than
/// 30 degrees), without a display. The same bytes for any number of threads, on every x86-64
/// machine. 640 x 480 with 40 000 triangles takes half a second on one core.
/// @throws std::invalid_argument for no shapes, a null mesh, a triangle without its vertices, a
/// size below 16 or above 8192, a view that is not finite or looks along `up`, a focus of no size,
/// an overlap of a shape that is not there or with itself.
Picture paint(const PictureRequest& request);

/// PNG (ISO/IEC 15948). The same image, the same bytes.
/// @throws std::invalid_argument if the pixels are not width times height, or none.
std::string toPng(const Image& image);

/// A complete <svg> element as wide as its place: the PNG inside it as data, lines and words (13
/// px) over it as vectors. Its text is escaped; `title` is what a screen reader says.
std::string toSvg(const Picture& picture, const std::string& title);

}  // namespace swingroom
