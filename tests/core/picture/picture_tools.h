#pragma once

#include <cmath>

#include "core/picture/picture.h"
#include "tests/support/shapes.h"

/// What the picture's tests share. The view looks along +y with z up: x runs right, z up.
namespace swingroom::picture_tools {

constexpr Rgb kRed{0xC0, 0x30, 0x30}, kBlue{0x30, 0x50, 0xC0}, kGrey{0x90, 0x90, 0x90};
constexpr Rgb kPaper{0xF4, 0xF2, 0xEE};  // look.md's ground, which the whole report stands on.

/// 400 x 300 pixels, 10 a mm, `centre` in the middle: the header promises a margin of 7 % of the
/// smaller side (21 pixels), so a focus of radius 12.9 mm takes the other 258.
inline PictureRequest frontView(const Vector3d& centre = Vector3d::Zero()) {
  PictureRequest request;
  request.view.towards = Vector3d::UnitY();
  request.view.focus = {centre, 12.9};
  request.width = 400;
  request.height = 300;
  return request;
}

inline Rgb pixel(const Image& image, int x, int y) {
  return image.pixels.at(static_cast<std::size_t>(y * image.width + x));
}

inline int lightness(const Rgb& colour) {
  return colour.red + colour.green + colour.blue;
}

inline PictureShape shown(const TriangleMesh& mesh, const Rgb& colour,
                          const Pose& X_WP = Pose::Identity()) {
  PictureShape shape;
  shape.mesh = &mesh;
  shape.X_WP = X_WP;
  shape.colour = colour;
  return shape;
}

}  // namespace swingroom::picture_tools
