#include "app/viewport/painters/part_painter.h"

#include <string>

#include "app/viewport/painters/plastic_light.h"

namespace swingroom {
namespace {

constexpr const char* kPartHead = R"(#version 330 core
layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;
uniform mat4 clipFromPart;
uniform mat3 viewFromPart;
uniform vec4 section;  // Where its product with a point is negative, nothing is drawn.
out vec2 rootLight;  // Of the front and of the back.
out float slant;
)";
constexpr const char* kPartMain = R"(
void main() {
  gl_Position = clipFromPart * vec4(position, 1.0);
  gl_ClipDistance[0] = dot(section, vec4(position, 1.0));
  vec3 n = viewFromPart * normal;
  rootLight = rootLightOfSides(n);
  slant = 1.0 - abs(n.z);
}
)";

constexpr const char* kPartFragment = R"(#version 330 core
in vec2 rootLight;
in float slant;
uniform vec3 rootBody;
uniform vec3 ground;
uniform float paleness;
uniform bool seenThrough;
out vec4 colour;
void main() {
  float light = gl_FrontFacing ? rootLight.x : rootLight.y;
  vec3 seen = mix(min(rootBody * light, 1.0), ground, paleness);
  colour = vec4(seen, seenThrough ? 0.22 + 0.45 * slant * slant * slant : 1.0);
}
)";

}  // namespace

PartPainter::PartPainter(Gl& gl)
    : gl_(gl),
      program_(buildProgram((std::string(kPartHead) + kPlasticLight + kPartMain).c_str(),
                            kPartFragment)) {}

void PartPainter::begin(const ViewProjection& projection, const DepthRange& range, bool cuts) {
  if (cuts) gl_.glEnable(GL_CLIP_DISTANCE0);
  clipFromWorld_ = projection.clipFromWorld(range);
  viewFromWorld_ = projection.viewFromWorld();
  program_->bind();
  setPlasticLight(*program_, projection);
}

PartPainter::Sent& PartPainter::sentOf(const std::shared_ptr<const ViewMesh>& mesh, bool coarse) {
  Known& known = known_[mesh.get()];
  known.mesh = mesh;
  auto& slot = coarse ? known.coarse : known.full;
  if (slot) return *slot;
  slot = std::make_unique<Sent>();
  slot->layout.create();
  slot->layout.bind();
  const auto& vertices = coarse ? mesh->coarse.vertices : mesh->vertices;
  const auto& indices = coarse ? mesh->coarse.indices : mesh->indices;
  const auto fill = [](QOpenGLBuffer& buffer, const void* data, std::size_t bytes) {
    buffer.create();
    buffer.bind();
    buffer.allocate(data, static_cast<int>(bytes));
  };
  fill(slot->vertices, vertices.data(), vertices.size() * sizeof(ViewVertex));
  fill(slot->indices, indices.data(), indices.size() * sizeof(std::uint32_t));
  slot->count = static_cast<int>(indices.size());
  constexpr int kStride = sizeof(ViewVertex);
  gl_.glEnableVertexAttribArray(0);
  gl_.glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, kStride, nullptr);
  gl_.glEnableVertexAttribArray(1);
  gl_.glVertexAttribPointer(1, 3, GL_FLOAT, GL_FALSE, kStride,
                            reinterpret_cast<const void*>(sizeof(Eigen::Vector3f)));
  slot->layout.release();
  return *slot;
}

void PartPainter::draw(const std::shared_ptr<const ViewMesh>& mesh, const Pose& X_WP,
                       const SurfaceStyle& style) {
  Sent& sent = sentOf(mesh, style.coarse && !mesh->coarse.indices.empty());
  const Pose X_WM = X_WP * translation(mesh->middle);
  setMatrix(gl_, program_->uniformLocation("clipFromPart"),
            Eigen::Matrix4f((clipFromWorld_ * X_WM.matrix()).cast<float>()));
  setMatrix(gl_, program_->uniformLocation("viewFromPart"),
            Eigen::Matrix3f((viewFromWorld_.linear() * X_WM.linear()).cast<float>()));
  // Black plastic still shows its form.
  const Eigen::Vector3f body =
      style.colour.cwiseProduct(style.colour) * 0.96F + Eigen::Vector3f::Constant(0.02F);
  program_->setUniformValue("rootBody", toQt(Eigen::Vector3f(body.cwiseSqrt())));
  program_->setUniformValue("ground", toQt(style.ground));
  program_->setUniformValue("paleness", style.paleness);
  program_->setUniformValue("seenThrough", style.clear);
  const bool cut = style.section.has_value();
  setSection(cut ? sectionIn(*style.section, X_WM) : Eigen::Vector4f(0, 0, 0, 1));
  if ((mesh->sealed && !cut) || style.clear) {
    gl_.glEnable(GL_CULL_FACE);
  } else {
    gl_.glDisable(GL_CULL_FACE);
  }
  sent.layout.bind();
  gl_.glDrawElements(GL_TRIANGLES, sent.count, GL_UNSIGNED_INT, nullptr);
  sent.layout.release();
}

/// Also for what is whole: software drivers have been seen to cut by the last plane though cutting
/// was switched off.
void PartPainter::setSection(const Eigen::Vector4f& plane) {
  program_->setUniformValue("section", plane.x(), plane.y(), plane.z(), plane.w());
}

void PartPainter::end() {
  gl_.glDisable(GL_CLIP_DISTANCE0);
  gl_.glDisable(GL_CULL_FACE);
  program_->release();
}

void PartPainter::dropUnused() {
  std::erase_if(known_, [](const auto& entry) { return entry.second.mesh.use_count() == 1; });
}

}  // namespace swingroom
