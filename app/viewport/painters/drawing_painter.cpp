#include "app/viewport/painters/drawing_painter.h"

#include <QMatrix4x4>
#include <algorithm>

namespace swingroom {
namespace {

constexpr double kFacedCosine = 0.99995;  // Within 0.57 degrees.
constexpr double kFaint = 0.35;           // Of its opacity, seen from elsewhere.
constexpr int kMostPixels = 4096;         // A side: what every driver takes.

constexpr const char* kVertex = R"(#version 330 core
uniform mat4 corners;  // Columns: the corners in clip coordinates.
out vec2 place;
void main() {
  place = vec2(gl_VertexID % 2, gl_VertexID / 2);
  gl_Position = corners[gl_VertexID];
}
)";

constexpr const char* kFragment = R"(#version 330 core
in vec2 place;
uniform sampler2D image;
uniform float opacity;
out vec4 colour;
void main() {
  vec4 paint = texture(image, place);
  colour = vec4(paint.rgb, paint.a * opacity);
}
)";

/// Moved along the view so that its middle is at `depthMm` from the plane through the origin.
Vector3d shift(const ViewDrawing& drawing, double depthMm) {
  return depthMm * drawing.away_W();
}

double depthMm(const ViewDrawing& drawing, const ViewFrame& frame) {
  const double middle = drawing.away_W().dot(frame.bounds.centre_W);
  return isFaced(drawing, frame.projection.camera()) ? middle
                                                     : middle + 1.05 * frame.bounds.radiusMm;
}

void addLines(const std::vector<std::array<Vector3d, 2>>& lines, const Vector3d& moved,
              const StrokeStyle& style, StrokeBatch& batch) {
  for (const auto& line : lines) batch.line(line[0] + moved, line[1] + moved, style);
}

}  // namespace

bool isFaced(const ViewDrawing& drawing, const ViewCamera& camera) {
  return camera.towards_W().dot(drawing.away_W()) > kFacedCosine &&
         camera.upward_W().dot(drawing.up_W) > kFacedCosine;
}

std::array<Vector3d, 4> cornersOf(const ViewDrawing& drawing, const ViewFrame& frame) {
  const Vector3d middle = drawing.middle_W + shift(drawing, depthMm(drawing, frame));
  const Vector3d right = 0.5 * drawing.widthMm * drawing.right_W;
  const Vector3d up = 0.5 * drawing.heightMm * drawing.up_W;
  return {middle - right + up, middle + right + up, middle - right - up, middle + right - up};
}

void addOutlines(const ViewDrawing& drawing, const ViewFrame& frame, StrokeBatch& batch) {
  const Vector3d moved = shift(drawing, depthMm(drawing, frame));
  const auto style = [&](QColor colour, double width, double alpha) {
    colour.setAlphaF(static_cast<float>(alpha));
    return StrokeStyle{colour, width * frame.pixelRatio, 1.5};
  };
  addLines(drawing.drawn_W, moved, style(frame.colours.ground, 4.4, 0.8), batch);
  addLines(drawing.drawn_W, moved, style(frame.colours.ink, 1.6, 1), batch);
  addLines(drawing.figure_W, moved, style(frame.colours.ground, 4.4, 0.8), batch);
  addLines(drawing.figure_W, moved, style(frame.colours.accent, 2, 1), batch);
}

DrawingPainter::DrawingPainter(Gl& gl) : gl_(gl), program_(buildProgram(kVertex, kFragment)) {
  layout_.create();
}

DrawingPainter::~DrawingPainter() {
  for (const auto& [key, texture] : textures_) gl_.glDeleteTextures(1, &texture);
}

GLuint DrawingPainter::textureOf(const QImage& image) {
  const auto known = textures_.find(image.cacheKey());
  if (known != textures_.end()) return known->second;
  QImage pixels = image.convertToFormat(QImage::Format_RGBA8888);
  if (std::max(pixels.width(), pixels.height()) > kMostPixels) {
    pixels = pixels.scaled(kMostPixels, kMostPixels, Qt::KeepAspectRatio, Qt::SmoothTransformation);
  }
  const GLuint texture = makeSmoothTexture(gl_);
  gl_.glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_LINEAR);
  gl_.glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
  gl_.glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, pixels.width(), pixels.height(), 0, GL_RGBA,
                   GL_UNSIGNED_BYTE, pixels.constBits());
  gl_.glGenerateMipmap(GL_TEXTURE_2D);
  textures_[image.cacheKey()] = texture;
  return texture;
}

void DrawingPainter::draw(const ViewDrawing& drawing, const ViewFrame& frame) {
  if (drawing.image.isNull()) return;
  const Eigen::Matrix4d clip = frame.projection.clipFromWorld(frame.range);
  QMatrix4x4 corners;
  const auto places = cornersOf(drawing, frame);
  for (int i = 0; i < 4; ++i) {
    const Eigen::Vector4d at = clip * places[static_cast<std::size_t>(i)].homogeneous();
    corners.setColumn(i, QVector4D(static_cast<float>(at.x()), static_cast<float>(at.y()),
                                   static_cast<float>(at.z()), static_cast<float>(at.w())));
  }
  const double share = isFaced(drawing, frame.projection.camera()) ? 1 : kFaint;
  gl_.glBindTexture(GL_TEXTURE_2D, textureOf(drawing.image));
  program_->bind();
  program_->setUniformValue("corners", corners);
  program_->setUniformValue("image", 0);
  program_->setUniformValue("opacity", static_cast<float>(share * drawing.opacity));
  layout_.bind();
  gl_.glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
  layout_.release();
  program_->release();
}

void DrawingPainter::dropUnused(const std::vector<ViewDrawing>& drawings) {
  std::erase_if(textures_, [&](const auto& entry) {
    const bool used = std::any_of(drawings.begin(), drawings.end(), [&](const ViewDrawing& one) {
      return one.image.cacheKey() == entry.first;
    });
    if (!used) gl_.glDeleteTextures(1, &entry.second);
    return !used;
  });
}

}  // namespace swingroom
