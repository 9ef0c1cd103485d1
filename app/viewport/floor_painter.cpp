#include "app/viewport/floor_painter.h"

#include <cmath>

namespace swingroom {
namespace {

// One triangle over the whole picture, as far away as can be: seen only where nothing else is.
constexpr const char* kFloorVertex = R"(#version 330 core
out vec2 place;
void main() {
  place = vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0);
  gl_Position = vec4(place, 1.0, 1.0);
}
)";

// Rays in the floor's frame: z is the height above it.
constexpr const char* kFloorFragment = R"(#version 330 core
in vec2 place;
uniform vec3 from, fromRight, fromUp, along, alongRight, alongUp;
uniform vec3 ground, line, shadow;
uniform vec2 middle, gridShift, shadowCorner;
uniform float reach, shadowSide, square;
uniform sampler2D darkness;
out vec4 colour;

float gridLine(vec2 p, vec2 perPixel, float spacing, float width) {
  vec2 off = abs(p / spacing - round(p / spacing)) * spacing;
  vec2 lines = clamp(0.5 * width + 0.5 - off / perPixel, 0.0, min(1.0, width));
  vec2 thin = 1.0 - smoothstep(0.12, 0.35, perPixel / spacing);  // Rather nothing than grey mush.
  return max(lines.x * thin.x, lines.y * thin.y);
}

void main() {
  vec3 o = from + place.x * fromRight + place.y * fromUp;
  vec3 d = along + place.x * alongRight + place.y * alongUp;
  float steep = -d.z / length(d);
  vec2 p = o.xy - d.xy * (o.z / d.z);
  vec2 perPixel = max(abs(dFdx(p)) + abs(dFdy(p)), 1e-6);
  colour = vec4(ground, 1.0);
  if (steep < 0.005 || o.z < 0.0) return;
  float fade = (1.0 - smoothstep(1.0, 2.6, length(p - middle) / reach)) * smoothstep(0.005, 0.12, steep);
  float lines = max(0.62 * gridLine(p + gridShift, perPixel, square, 1.0),
                    gridLine(p + gridShift, perPixel, 5.0 * square, 1.5));
  vec3 seen = mix(ground, line, lines * fade);
  vec2 s = (p - shadowCorner) / shadowSide;
  float dark = texture(darkness, s).r * step(0.0, min(min(s.x, s.y), min(1.0 - s.x, 1.0 - s.y)));
  colour = vec4(seen * mix(vec3(1.0), shadow, dark * smoothstep(0.005, 0.12, steep)), 1.0);
}
)";

constexpr double kSquareMm = 10;

}  // namespace

FloorPainter::FloorPainter(Gl& gl) : gl_(gl), program_(buildProgram(kFloorVertex, kFloorFragment)) {
  layout_.create();
  gl_.glGenTextures(1, &texture_);
  gl_.glBindTexture(GL_TEXTURE_2D, texture_);
  gl_.glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  gl_.glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  gl_.glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  gl_.glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
}

FloorPainter::~FloorPainter() { gl_.glDeleteTextures(1, &texture_); }

void FloorPainter::setShadow(const ShadowGrid& shadow) {
  shadowCorner_ = shadow.corner;
  shadowSideMm_ = shadow.sideMm;
  if (shadow.darkness.empty()) return;
  gl_.glBindTexture(GL_TEXTURE_2D, texture_);
  gl_.glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  gl_.glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, ShadowGrid::kCells, ShadowGrid::kCells, 0, GL_RED,
                   GL_UNSIGNED_BYTE, shadow.darkness.data());
}

void FloorPainter::setRays(const ViewProjection& projection, const FloorFrame& floor,
                           const Eigen::Vector2d& origin) {
  const auto inFloor = [&](const Vector3d& d_W) {
    return Vector3d(floor.along_W.dot(d_W), floor.across_W.dot(d_W), floor.up_W.dot(d_W));
  };
  const auto point = [&](const Vector3d& p_W) {
    return Vector3d(inFloor(p_W) - Vector3d(origin.x(), origin.y(), floor.heightMm));
  };
  const ViewCamera& camera = projection.camera();
  const double depth = camera.distanceMm(), perPixel = projection.mmPerPixel(depth);
  const Vector3d right = inFloor(0.5 * projection.size().width * perPixel * camera.right_W());
  const Vector3d up = inFloor(0.5 * projection.size().height * perPixel * camera.upward_W());
  const Vector3d ahead = inFloor(depth * camera.towards_W());
  const bool fan = camera.perspective;
  const Vector3d none = Vector3d::Zero();
  const auto set = [&](const char* name, const Vector3d& v) { program_->setUniformValue(name, toQt(v)); };
  // Parallel rays start far behind the eye: in parallel view the eye may well be under the floor.
  set("from", fan ? point(camera.eye_W()) : Vector3d(point(camera.p_WTarget) - 20 * ahead));
  set("fromRight", fan ? none : right);
  set("fromUp", fan ? none : up);
  set("along", ahead);
  set("alongRight", fan ? right : none);
  set("alongUp", fan ? up : none);
}

void FloorPainter::draw(const ViewProjection& projection, const FloorFrame& floor, const ViewBounds& bounds,
                        const FloorStyle& style) {
  program_->bind();
  const Eigen::Vector2d middle = floor.place(bounds.centre_W);
  setRays(projection, floor, middle);
  const double period = 5 * kSquareMm;
  const Eigen::Vector2d shift(std::remainder(middle.x(), period), std::remainder(middle.y(), period));
  program_->setUniformValue("middle", QVector2D(0, 0));
  program_->setUniformValue("gridShift", toQt(shift));
  program_->setUniformValue("shadowCorner", toQt(Eigen::Vector2d(shadowCorner_ - middle)));
  program_->setUniformValue("shadowSide", static_cast<float>(shadowSideMm_ > 0 ? shadowSideMm_ : 1));
  program_->setUniformValue("reach", static_cast<float>(std::max(bounds.radiusMm, kSquareMm)));
  program_->setUniformValue("square", static_cast<float>(kSquareMm));
  program_->setUniformValue("ground", toQt(style.ground));
  program_->setUniformValue("line", toQt(style.line));
  program_->setUniformValue("shadow", toQt(style.shadow));
  program_->setUniformValue("darkness", 0);
  gl_.glActiveTexture(GL_TEXTURE0);
  gl_.glBindTexture(GL_TEXTURE_2D, texture_);
  layout_.bind();
  gl_.glDrawArrays(GL_TRIANGLES, 0, 3);
  layout_.release();
  program_->release();
}

}  // namespace swingroom
