#include "app/viewport/painters/stroke_painter.h"

namespace swingroom {
namespace {

constexpr const char* kStrokeVertex = R"(#version 330 core
layout(location = 0) in vec3 position;
layout(location = 1) in vec2 place;
layout(location = 2) in vec4 paint;
out float across;
flat out float half_;
out vec4 paint_;
void main() {
  gl_Position = vec4(position, 1.0);
  across = place.x;
  half_ = place.y;
  paint_ = paint;
}
)";

constexpr const char* kStrokeFragment = R"(#version 330 core
in float across;
flat in float half_;
in vec4 paint_;
uniform float opacity;
out vec4 colour;
void main() {
  float covered = clamp(half_ + 0.5 - abs(across), 0.0, min(1.0, 2.0 * half_));
  colour = vec4(paint_.rgb, paint_.a * covered * opacity);
}
)";

}  // namespace

StrokePainter::StrokePainter(Gl& gl)
    : gl_(gl), program_(buildProgram(kStrokeVertex, kStrokeFragment)) {
  layout_.create();
  layout_.bind();
  vertices_.create();
  vertices_.setUsagePattern(QOpenGLBuffer::StreamDraw);
  vertices_.bind();
  indices_.create();
  indices_.bind();
  constexpr int kStride = sizeof(StrokeBatch::Vertex);
  for (unsigned i = 0; i < 3; ++i) gl_.glEnableVertexAttribArray(i);
  const auto at = [](std::size_t bytes) { return reinterpret_cast<const void*>(bytes); };
  gl_.glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, kStride,
                            at(offsetof(StrokeBatch::Vertex, x)));
  gl_.glVertexAttribPointer(1, 2, GL_FLOAT, GL_FALSE, kStride,
                            at(offsetof(StrokeBatch::Vertex, across)));
  gl_.glVertexAttribPointer(2, 4, GL_UNSIGNED_BYTE, GL_TRUE, kStride,
                            at(offsetof(StrokeBatch::Vertex, red)));
  layout_.release();
}

void StrokePainter::reserveIndices(std::size_t lines) {
  if (lines <= indexedLines_) return;
  indexedLines_ = lines + lines / 2;
  std::vector<std::uint32_t> indices;
  indices.reserve(6 * indexedLines_);
  for (std::uint32_t first = 0; first < 4 * indexedLines_; first += 4) {
    for (const std::uint32_t corner : {0, 1, 2, 2, 1, 3}) indices.push_back(first + corner);
  }
  indices_.bind();
  indices_.allocate(indices.data(), static_cast<int>(indices.size() * sizeof(std::uint32_t)));
}

void StrokePainter::draw(const StrokeBatch& batch, float opacity) {
  const auto& vertices = batch.vertices();
  if (vertices.empty()) return;
  layout_.bind();
  vertices_.bind();
  vertices_.allocate(vertices.data(),
                     static_cast<int>(vertices.size() * sizeof(StrokeBatch::Vertex)));
  reserveIndices(vertices.size() / 4);
  program_->bind();
  program_->setUniformValue("opacity", opacity);
  gl_.glDrawElements(GL_TRIANGLES, static_cast<int>(vertices.size() / 4 * 6), GL_UNSIGNED_INT,
                     nullptr);
  program_->release();
  layout_.release();
}

}  // namespace swingroom
