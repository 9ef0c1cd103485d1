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

/// Where the eye is. What is shown is fitted into the picture.
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
  std::vector<PictureShape> shapes;
  PictureView view;
  int width = 640, height = 480;  ///< Pixels.
  bool floor = false;             ///< The print bed's grid under the lowest point.
  /// Indices of two shapes whose common volume is hatched and outlined, drawn over everything.
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
/// the edge.
struct Picture {
  Image image;
  std::vector<PlacedDimension> dimensions;
  std::vector<PlacedLabel> labels;
};

/// Matt shading, ambient occlusion, outlines and crease lines, without a display. The same bytes
/// for any number of threads, on every x86-64 machine.
/// @throws std::invalid_argument for no shapes, a null mesh, a size below 16 or above 8192,
/// `towards` along `up`.
Picture paint(const PictureRequest& request);

/// PNG (ISO/IEC 15948). The same image, the same bytes.
std::string toPng(const Image& image);

/// A complete <svg> element: the PNG inside it as data, lines and words over it as vectors. Its
/// text is escaped; `title` is what a screen reader says.
std::string toSvg(const Picture& picture, const std::string& title);

}  // namespace swingroom
