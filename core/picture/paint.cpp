#include <algorithm>
#include <optional>
#include <stdexcept>

#include "core/base/parallel.h"
#include "core/picture/ambient.h"
#include "core/picture/lines.h"
#include "core/picture/overlap.h"
#include "core/picture/words.h"

namespace swingroom {
namespace {

constexpr int kPerPixel = 3;   ///< Samples along each side of a pixel.
constexpr int kBandRows = 16;  ///< Pixels.
constexpr int kHaloRows =
    2;  ///< Lines and outlines look this far beyond the rows that are painted.

void checkShapes(const PictureRequest& request) {
  if (request.shapes.empty()) throw std::invalid_argument("PictureRequest: no shapes");
  for (const PictureShape& shape : request.shapes) {
    if (shape.mesh == nullptr) throw std::invalid_argument("PictureRequest: a shape has no mesh");
    const std::size_t count = shape.mesh->vertices.size();
    for (const Triangle& triangle : shape.mesh->triangles) {
      if (*std::max_element(triangle.begin(), triangle.end()) >= count) {
        throw std::invalid_argument("PictureRequest: a triangle names a vertex that is not there");
      }
    }
  }
}

void checkRequest(const PictureRequest& request) {
  checkShapes(request);
  for (const int size : {request.width, request.height}) {
    if (size < 16 || size > 8192) {
      throw std::invalid_argument("PictureRequest: size " + std::to_string(size) +
                                  " is not between 16 and 8192");
    }
  }
  if (!request.overlap) return;
  const auto [a, b] = *request.overlap;
  if (a >= request.shapes.size() || b >= request.shapes.size() || a == b) {
    throw std::invalid_argument("PictureRequest: overlap must name two of the shapes");
  }
}

/// Some rows of the picture at full sampling.
class Band {
 public:
  Band(const Stage& stage, const Ambient& ambient, int firstRow, int endRow)
      : stage_(stage), ambient_(ambient), shapes_(stage.request.shapes) {
    rows_.width = stage.request.width * kPerPixel;
    rows_.first = (firstRow - kHaloRows) * kPerPixel;
    rows_.count = (endRow - firstRow + 2 * kHaloRows) * kPerPixel;
    rows_.perPixel = kPerPixel;
    const double scale = stage.camera.pixelsPerMm;
    solid_ = nearestLayer(stage.surface, shapes_, false, rows_, scale);
    solidLines_ = lineStrengths(solid_, stage.surface, shapes_, rows_, scale);
    if (std::any_of(shapes_.begin(), shapes_.end(),
                    [](const PictureShape& shape) { return shape.clear; })) {
      clear_ = nearestLayer(stage.surface, shapes_, true, rows_, scale);
      clearLines_ = lineStrengths(clear_, stage.surface, shapes_, rows_, scale);
    }
    if (const auto& pair = stage.request.overlap) {
      overlap_.emplace(stage.surface, (*pair)[0], (*pair)[1], rows_);
    }
  }

  /// `row` counted from the band's first painted row.
  Rgb pixelAt(int row, int column) const {
    const int top = (row + kHaloRows) * kPerPixel, left = column * kPerPixel;
    if (isEven(top, left)) return toRgb(sampleAt(top + kPerPixel / 2, left + kPerPixel / 2));
    Paint sum = Paint::Zero();
    for (int i = 0; i < kPerPixel; ++i) {
      for (int j = 0; j < kPerPixel; ++j) sum += sampleAt(top + i, left + j);
    }
    return toRgb(sum / (kPerPixel * kPerPixel));
  }

 private:
  /// Whether the whole pixel shows one smooth face, or the floor, or nothing: its middle stands
  /// for it.
  bool isEven(int top, int left) const {
    if (overlap_ && !overlap_->isFarFrom(top, left, kPerPixel)) return false;
    const std::uint32_t first = faceAt(rows_.index(top, left));
    for (int i = 0; i < kPerPixel; ++i) {
      for (int j = 0; j < kPerPixel; ++j) {
        const std::size_t sample = rows_.index(top + i, left + j);
        if (solidLines_[sample] > 0 || faceAt(sample) != first) return false;
        if (!clear_.triangles.empty() && clear_.triangles[sample] != Layer::kNothing) return false;
      }
    }
    return true;
  }

  std::uint32_t faceAt(std::size_t sample) const {
    const std::uint32_t number = solid_.triangles[sample];
    return number == Layer::kNothing ? number : stage_.surface.triangles[number].face;
  }

  Paint sampleAt(int row, int column) const {
    const std::size_t sample = rows_.index(row, column);
    const double x = rows_.x(column), y = rows_.y(row);
    Paint paint = solidAt(sample, x, y);
    paint = mix(paint, toPaint(kInk), solidLines_[sample]);
    if (!clear_.triangles.empty()) paint = behindClear(paint, sample, x, y);
    if (overlap_) paint = overlap_->over(paint, row, column);
    return paint;
  }

  Paint solidAt(std::size_t sample, double x, double y) const {
    const std::uint32_t number = solid_.triangles[sample];
    const double depth = solid_.depths[sample];
    if (number != Layer::kNothing) {
      const DrawnTriangle& triangle = stage_.surface.triangles[number];
      return stage_.shading.seen(shapes_[triangle.shape], stage_.shading.normalAt(triangle, x, y),
                                 ambient_.opennessAt(x, y, number, depth));
    }
    const auto floorDepth = stage_.floor.depthAt(x, y);
    if (!floorDepth) return toPaint(kGround);
    return stage_.floor.paintAt(x, y, ambient_.opennessAt(x, y, Ambient::kFloor, *floorDepth));
  }

  Paint behindClear(const Paint& behind, std::size_t sample, double x, double y) const {
    const std::uint32_t number = clear_.triangles[sample];
    if (!(clear_.depths[sample] < solid_.depths[sample])) return behind;
    const DrawnTriangle& triangle = stage_.surface.triangles[number];
    const Eigen::Vector3f normal_W = stage_.shading.normalAt(triangle, x, y);
    const Paint tint = stage_.shading.seen(shapes_[triangle.shape], normal_W, 1);
    // Glass seen on edge shows more of itself.
    const float slant = 1 - stage_.shading.facing(normal_W);
    const Paint seen = mix(behind, tint, 0.20F + 0.45F * slant * slant * slant);
    return mix(seen, toPaint(kInk), 0.6F * clearLines_[sample]);
  }

  const Stage& stage_;
  const Ambient& ambient_;
  const std::vector<PictureShape>& shapes_;
  SampleRows rows_;
  Layer solid_, clear_;
  std::vector<float> solidLines_, clearLines_;
  std::optional<SeenOverlap> overlap_;
};

Image paintImage(const Stage& stage, const Ambient& ambient) {
  const int width = stage.request.width, height = stage.request.height;
  Image image{width, height, {}};
  image.pixels.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  const auto bands = static_cast<std::size_t>((height + kBandRows - 1) / kBandRows);
  parallelFor(bands, stage.request.threads, [&](std::size_t number) {
    const int first = static_cast<int>(number) * kBandRows;
    const int end = std::min(height, first + kBandRows);
    const Band band(stage, ambient, first, end);
    for (int y = first; y < end; ++y) {
      for (int x = 0; x < width; ++x) {
        image.pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                     static_cast<std::size_t>(x)] = band.pixelAt(y - first, x);
      }
    }
  });
  return image;
}

}  // namespace

Picture paint(const PictureRequest& request) {
  checkRequest(request);
  const Stage stage(request);
  const Ambient ambient(stage);
  Picture picture;
  picture.image = paintImage(stage, ambient);
  placeWords(stage, ambient, picture);
  return picture;
}

}  // namespace swingroom
