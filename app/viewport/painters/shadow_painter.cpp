#include "app/viewport/painters/shadow_painter.h"

#include <algorithm>

namespace swingroom {
namespace {

constexpr const char* kShadowVertex = R"(#version 330 core
uniform mat4 clipFromGrid;
uniform vec4 used;
out vec2 place;
void main() {
  place = vec2(gl_VertexID % 2 == 0 ? used.x : used.z, gl_VertexID / 2 == 0 ? used.y : used.w);
  gl_Position = clipFromGrid * vec4(place, 0.0, 1.0);
}
)";

constexpr const char* kShadowFragment = R"(#version 330 core
in vec2 place;
uniform sampler2D darkness;
uniform vec3 darkest;
out vec4 colour;
void main() {
  colour = vec4(mix(vec3(1.0), darkest, texture(darkness, place).r), 1.0);
}
)";

/// Shares of the square outside of which nothing is dark: left, top, right, bottom.
Eigen::Vector4f usedPart(const ShadowGrid& shadow) {
  constexpr int kCells = ShadowGrid::kCells;
  int left = kCells, top = kCells, right = -1, bottom = -1;
  for (int row = 0; row < kCells; ++row) {
    for (int column = 0; column < kCells; ++column) {
      if (shadow.darkness[static_cast<std::size_t>(row * kCells + column)] == 0) continue;
      left = std::min(left, column), right = std::max(right, column);
      top = std::min(top, row), bottom = std::max(bottom, row);
    }
  }
  const Eigen::Vector4f cells(static_cast<float>(left - 1), static_cast<float>(top - 1),
                              static_cast<float>(right + 2), static_cast<float>(bottom + 2));
  return (cells / kCells).cwiseMax(0.0F).cwiseMin(1.0F);
}

}  // namespace

ShadowPainter::ShadowPainter(Gl& gl)
    : gl_(gl), program_(buildProgram(kShadowVertex, kShadowFragment)) {
  layout_.create();
  texture_ = makeSmoothTexture(gl_);
}

ShadowPainter::~ShadowPainter() {
  gl_.glDeleteTextures(1, &texture_);
}

void ShadowPainter::draw(const ShadowGrid& shadow, const FloorFrame& floor,
                         const Eigen::Matrix4d& clipFromWorld, const Eigen::Vector3f& darkest) {
  if (shadow.darkness.empty()) return;
  const Eigen::Vector4f used = usedPart(shadow);
  if (!(used.x() < used.z())) return;
  Eigen::Affine3d X_WG;
  X_WG.linear() << shadow.sideMm * floor.along_W, shadow.sideMm * floor.across_W, floor.up_W;
  X_WG.translation() = shadow.corner.x() * floor.along_W + shadow.corner.y() * floor.across_W +
                       floor.heightMm * floor.up_W;
  X_WG.makeAffine();
  const Eigen::Matrix4f clipFromGrid = (clipFromWorld * X_WG.matrix()).cast<float>();
  gl_.glBindTexture(GL_TEXTURE_2D, texture_);
  gl_.glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  gl_.glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, ShadowGrid::kCells, ShadowGrid::kCells, 0, GL_RED,
                   GL_UNSIGNED_BYTE, shadow.darkness.data());
  program_->bind();
  gl_.glUniformMatrix4fv(program_->uniformLocation("clipFromGrid"), 1, GL_FALSE,
                         clipFromGrid.data());
  program_->setUniformValue("used", used.x(), used.y(), used.z(), used.w());
  program_->setUniformValue("darkest", toQt(darkest));
  program_->setUniformValue("darkness", 0);
  gl_.glBlendFunc(GL_ZERO, GL_SRC_COLOR);
  layout_.bind();
  gl_.glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
  layout_.release();
  program_->release();
}

}  // namespace swingroom
