#include "app/viewport/painters/section_painter.h"

#include <cmath>

#include "app/viewport/view_colours.h"

namespace swingroom {
namespace {

// The stencil: the low six bits count how often the rims wind round a sample, bit 6 says that a
// part is cut there, bit 7 that two are.
constexpr GLuint kWinding = 0x3F, kOnePart = 0x40, kTwoParts = 0x80;

constexpr double kSpacingPixels = 9;

constexpr const char* kFanVertex = R"(#version 330 core
layout(location = 0) in vec3 position;
uniform mat4 clipFromCut;
void main() { gl_Position = clipFromCut * vec4(position, 1.0); }
)";

constexpr const char* kFanFragment = R"(#version 330 core
out vec4 colour;
void main() { colour = vec4(0.0); }
)";

constexpr const char* kFaceVertex = R"(#version 330 core
uniform mat4 clipFromPlane;
uniform vec4 extent;
out vec2 place;
void main() {
  place = vec2(gl_VertexID % 2 == 0 ? extent.x : extent.z, gl_VertexID / 2 == 0 ? extent.y : extent.w);
  gl_Position = clipFromPlane * vec4(place, 0.0, 1.0);
}
)";

constexpr const char* kFaceFragment = R"(#version 330 core
in vec2 place;
uniform vec3 body, ink;
uniform vec2 hatch;
uniform float width;
out vec4 colour;
void main() {
  float along = dot(place, hatch);
  float pixel = max(fwidth(along), 1e-6);
  float off = abs(fract(along) - 0.5) / pixel;
  float line = clamp(0.5 * width + 0.5 - off, 0.0, 1.0) * clamp(3.0 - 8.0 * pixel, 0.0, 1.0);
  colour = vec4(mix(body, ink, line), 1.0);
}
)";

constexpr const char* kOverlapFragment = R"(#version 330 core
in vec2 place;
uniform vec3 paper, ink;
uniform float ratio;
out vec4 colour;
void main() {
  float off = abs(mod((gl_FragCoord.x + gl_FragCoord.y) / ratio, 9.0) - 4.5) * 0.7071;
  colour = vec4(mix(paper, ink, clamp(1.6 - off, 0.0, 1.0)), 1.0);
}
)";

double lightnessOf(const Eigen::Vector3f& paint) {
  return static_cast<double>(paint.dot(Eigen::Vector3f(0.30F, 0.59F, 0.11F)));
}

}  // namespace

Eigen::Vector2d hatchOf(int hatching, double spacingMm) {
  constexpr double kFactors[] = {1.0, 1.5, 0.75};
  const double across = hatching % 2 == 0 ? -1 : 1;
  const double perMm = std::sqrt(0.5) / (spacingMm * kFactors[hatching / 2 % 3]);
  return perMm * Eigen::Vector2d(across, 1);
}

double hatchSpacingMm(double mmPerPixel) {
  const double wanted = std::max(kSpacingPixels * mmPerPixel, 1e-6);
  return std::pow(2, 0.5 * std::ceil(2 * std::log2(wanted)));
}

SectionPainter::SectionPainter(Gl& gl)
    : gl_(gl),
      fan_(buildProgram(kFanVertex, kFanFragment)),
      face_(buildProgram(kFaceVertex, kFaceFragment)),
      overlap_(buildProgram(kFaceVertex, kOverlapFragment)) {
  empty_.create();
  layout_.create();
  layout_.bind();
  corners_.create();
  corners_.setUsagePattern(QOpenGLBuffer::StreamDraw);
  corners_.bind();
  gl_.glEnableVertexAttribArray(0);
  gl_.glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, 0, nullptr);
  layout_.release();
}

/// A triangle from one point of the plane to each line of the rim: a sample inside is covered as
/// often one way round more than the other as the rim winds round it.
void SectionPainter::fan(const SectionCut& cut, const ViewFrame& frame) {
  const Vector3d pivot_W = cut.lines_W.front()[0];
  std::vector<Eigen::Vector3f> corners;
  corners.reserve(3 * cut.lines_W.size());
  for (const auto& line : cut.lines_W) {
    corners.push_back(Eigen::Vector3f::Zero());
    for (const Vector3d& end : line) corners.push_back((end - pivot_W).cast<float>());
  }
  const Eigen::Matrix4f clipFromCut =
      (frame.projection.clipFromWorld(frame.range) * translation(pivot_W).matrix()).cast<float>();
  layout_.bind();
  corners_.bind();
  corners_.allocate(corners.data(), static_cast<int>(corners.size() * sizeof(Eigen::Vector3f)));
  fan_->bind();
  gl_.glUniformMatrix4fv(fan_->uniformLocation("clipFromCut"), 1, GL_FALSE, clipFromCut.data());
  gl_.glDrawArrays(GL_TRIANGLES, 0, static_cast<int>(corners.size()));
  layout_.release();
}

void SectionPainter::bindFace(const ViewFrame& frame, const Eigen::AlignedBox2d& extent) {
  const ViewSection& section = *frame.section;
  // Coordinates from the face's corner: single precision serves.
  Eigen::Affine3d X_WG;
  X_WG.linear() << section.across_W, section.along_W(), section.normal_W;
  X_WG.translation() = section.placeMm * section.normal_W;
  X_WG.makeAffine();
  const Eigen::Matrix4f M =
      (frame.projection.clipFromWorld(frame.range) * X_WG.matrix()).cast<float>();
  const Eigen::Vector2d grown = Eigen::Vector2d::Constant(1e-3 * extent.diagonal().norm());
  const Eigen::Vector2d low = extent.min() - grown, high = extent.max() + grown;
  for (QOpenGLShaderProgram* program : {face_.get(), overlap_.get()}) {
    program->bind();
    gl_.glUniformMatrix4fv(program->uniformLocation("clipFromPlane"), 1, GL_FALSE, M.data());
    program->setUniformValue("extent", static_cast<float>(low.x()), static_cast<float>(low.y()),
                             static_cast<float>(high.x()), static_cast<float>(high.y()));
  }
  face_->bind();
}

void SectionPainter::drawFace() {
  empty_.bind();
  gl_.glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
  empty_.release();
}

void SectionPainter::drawPart(const DrawnPart& part, const ViewFrame& frame) {
  gl_.glDisable(GL_DEPTH_TEST);
  gl_.glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
  gl_.glStencilMask(kWinding);
  gl_.glStencilFunc(GL_ALWAYS, 0, 0xFF);
  gl_.glStencilOpSeparate(GL_FRONT, GL_KEEP, GL_KEEP, GL_INCR_WRAP);
  gl_.glStencilOpSeparate(GL_BACK, GL_KEEP, GL_KEEP, GL_DECR_WRAP);
  fan(*part.cut, frame);
  bindFace(frame, part.cut->extent);
  gl_.glEnable(GL_DEPTH_TEST);
  // Inside of this part where another was cut already.
  gl_.glDepthMask(GL_FALSE);
  gl_.glStencilMask(kTwoParts);
  gl_.glStencilFunc(GL_LESS, kTwoParts | kOnePart, kOnePart | kWinding);
  gl_.glStencilOp(GL_KEEP, GL_KEEP, GL_REPLACE);
  drawFace();
  gl_.glDepthMask(GL_TRUE);
  gl_.glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
  gl_.glStencilMask(kOnePart);
  gl_.glStencilFunc(GL_NOTEQUAL, kOnePart, kWinding);
  const SurfaceStyle style = surfaceStyle(part, frame.colours);
  const Eigen::Vector3f body = style.colour + style.paleness * (style.ground - style.colour);
  const bool dark = lightnessOf(body) < 0.36;
  const Eigen::Vector3f ink = dark ? Eigen::Vector3f::Constant(1) : Eigen::Vector3f::Zero();
  const double mmPerPixel =
      frame.pixelRatio * frame.projection.mmPerPixel(frame.projection.camera().distanceMm());
  face_->setUniformValue("body", toQt(body));
  face_->setUniformValue("ink", toQt(Eigen::Vector3f(body + (dark ? 0.42F : 0.5F) * (ink - body))));
  face_->setUniformValue("hatch", toQt(hatchOf(part.hatching, hatchSpacingMm(mmPerPixel))));
  face_->setUniformValue("width", static_cast<float>(frame.pixelRatio));
  drawFace();
  gl_.glDisable(GL_DEPTH_TEST);
  gl_.glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
  gl_.glStencilMask(kWinding);
  gl_.glStencilFunc(GL_ALWAYS, 0, 0xFF);
  gl_.glStencilOp(GL_ZERO, GL_ZERO, GL_ZERO);
  drawFace();
  gl_.glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
}

void SectionPainter::drawOverlaps(const ViewFrame& frame, const Eigen::AlignedBox2d& extent) {
  bindFace(frame, extent);
  gl_.glEnable(GL_DEPTH_TEST);
  gl_.glDepthMask(GL_FALSE);
  gl_.glStencilMask(0);
  gl_.glStencilFunc(GL_EQUAL, kTwoParts, kTwoParts);
  gl_.glStencilOp(GL_KEEP, GL_KEEP, GL_KEEP);
  overlap_->bind();
  overlap_->setUniformValue("paper", toQt(paintOf(frame.colours.ground)));
  overlap_->setUniformValue("ink", toQt(paintOf(frame.colours.clash)));
  overlap_->setUniformValue("ratio", static_cast<float>(frame.pixelRatio));
  drawFace();
  gl_.glDepthMask(GL_TRUE);
}

void SectionPainter::draw(const ViewFrame& frame) {
  if (!frame.section) return;
  gl_.glEnable(GL_STENCIL_TEST);
  Eigen::AlignedBox2d all;
  for (const DrawnPart& part : frame.parts) {
    if (!part.cut || !part.cut->closed) continue;
    drawPart(part, frame);
    all.extend(part.cut->extent);
  }
  if (!all.isEmpty()) drawOverlaps(frame, all);
  gl_.glEnable(GL_DEPTH_TEST);
  gl_.glStencilMask(0xFF);
  gl_.glDisable(GL_STENCIL_TEST);
  face_->release();
}

}  // namespace swingroom
