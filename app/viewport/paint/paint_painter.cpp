#include "app/viewport/paint/paint_painter.h"

#include <array>
#include <cstddef>

#include "app/viewport/painters/plastic_light.h"

namespace swingroom {
namespace {

constexpr int kColours = 1024;  ///< Of the scale as it is sent.

constexpr const char* kVertexHead = R"(#version 330 core
layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec2 figureAndState;
uniform mat4 clipFromPart;
uniform mat3 viewFromPart;
uniform vec4 section;
out vec2 rootLight;
out vec3 place;
out float figure;
out float state;
)";
constexpr const char* kVertexMain = R"(
void main() {
  gl_Position = clipFromPart * vec4(position, 1.0);
  gl_ClipDistance[0] = dot(section, vec4(position, 1.0));
  rootLight = rootLightOfSides(viewFromPart * normal);
  place = position;
  figure = figureAndState.x;
  state = figureAndState.y;
}
)";

// A level's line is as wide everywhere: its distance in pixels is what the figure lacks, over how
// fast the figure changes. Where it hardly changes along the surface there is no line but an area,
// which would all be line: there it fades out.
constexpr const char* kFragment = R"(#version 330 core
in vec2 rootLight;
in vec3 place;
in float figure;
in float state;
uniform sampler2D colours;
uniform vec2 range;  // First figure of the scale, and one over how far it goes.
uniform float levels[16];
uniform int levelCount;
uniform bool stepped;
uniform vec3 lineColour;
uniform vec3 leftOutColour;
uniform vec3 brokenColour;
uniform float pixelRatio;
out vec4 colour;

vec3 colourOf(float mm) {
  return texture(colours, vec2(clamp((mm - range.x) * range.y, 0.0, 1.0), 0.5)).rgb;
}
float bandMiddle(float mm) {
  float low = range.x, high = range.x + 1.0 / range.y;
  for (int i = 0; i < levelCount; ++i) {
    if (levels[i] <= mm) low = max(low, levels[i]); else high = min(high, levels[i]);
  }
  return low < high ? 0.5 * (low + high) : low;
}
float lineShare(float slope, float run) {
  float steep = smoothstep(0.015, 0.05, slope / max(run, 1e-12));
  vec2 cell = floor(gl_FragCoord.xy / (3.5 * pixelRatio));
  bool broken = mod(cell.x + cell.y, 2.0) > 0.5;
  float share = 0.0;
  for (int i = 0; i < levelCount; ++i) {
    float far = abs(figure - levels[i]) / max(slope, 1e-12);
    float half_ = (abs(levels[i]) < 1e-6 ? 1.0 : 0.55) * pixelRatio;
    float line = 1.0 - smoothstep(half_ - 0.5, half_ + 0.5, far);
    if (levels[i] < -1e-6 && broken) line = 0.0;
    share = max(share, line);
  }
  return share * steep;
}
float dotShare() {
  float side = 6.0 * pixelRatio;
  vec2 cell = gl_FragCoord.xy / side;
  cell.x += 0.5 * mod(floor(cell.y), 2.0);
  float far = length(fract(cell) - 0.5) * side;
  return 1.0 - smoothstep(1.0 * pixelRatio - 0.5, 1.0 * pixelRatio + 0.5, far);
}
float hatchShare() {
  float side = 7.0 * pixelRatio;
  float far = abs(mod(gl_FragCoord.x - gl_FragCoord.y, side) - 0.5 * side) * 0.7071;
  return 1.0 - smoothstep(0.6 * pixelRatio - 0.5, 0.6 * pixelRatio + 0.5, far);
}
void main() {
  float slope = length(vec2(dFdx(figure), dFdy(figure)));
  float run = max(length(dFdx(place)), length(dFdy(place)));
  vec3 seen;
  if (state > 1.5) {
    seen = mix(brokenColour, lineColour, 0.55 * hatchShare());
  } else if (state > 0.5) {
    seen = mix(leftOutColour, lineColour, 0.45 * dotShare());
  } else if (stepped) {
    seen = colourOf(bandMiddle(figure));
  } else {
    seen = mix(colourOf(figure), lineColour, 0.6 * lineShare(slope, run));
  }
  float light = gl_FrontFacing ? rootLight.x : rootLight.y;
  colour = vec4(min(seen * mix(1.0, light, 0.7), 1.0), 1.0);
}
)";

}  // namespace

PaintPainter::PaintPainter(Gl& gl)
    : gl_(gl),
      program_(buildProgram((std::string(kVertexHead) + kPlasticLight + kVertexMain).c_str(),
                            kFragment)) {}

PaintPainter::~PaintPainter() {
  if (colours_ != 0) gl_.glDeleteTextures(1, &colours_);
}

void PaintPainter::sendScale(const PaintScale& scale) {
  if (colours_ != 0 && scale == scale_) return gl_.glBindTexture(GL_TEXTURE_2D, colours_);
  scale_ = scale;
  if (colours_ == 0) colours_ = makeSmoothTexture(gl_);
  gl_.glBindTexture(GL_TEXTURE_2D, colours_);
  std::array<std::uint8_t, 4 * kColours> bytes{};
  for (std::size_t i = 0; i < kColours && !scale.stops.empty(); ++i) {
    const double share = static_cast<double>(i) / (kColours - 1);
    const double low = scale.stops.front().mm, high = scale.stops.back().mm;
    const QColor colour = colourAt(scale, low + share * (high - low));
    bytes[4 * i] = static_cast<std::uint8_t>(colour.red());
    bytes[4 * i + 1] = static_cast<std::uint8_t>(colour.green());
    bytes[4 * i + 2] = static_cast<std::uint8_t>(colour.blue());
    bytes[4 * i + 3] = 255;
  }
  gl_.glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, kColours, 1, 0, GL_RGBA, GL_UNSIGNED_BYTE,
                   bytes.data());
}

void PaintPainter::begin(const ViewProjection& projection, const DepthRange& range,
                         const PaintScale& scale, double pixelRatio, bool cuts) {
  if (cuts) gl_.glEnable(GL_CLIP_DISTANCE0);
  clipFromWorld_ = projection.clipFromWorld(range);
  viewFromWorld_ = projection.viewFromWorld();
  gl_.glActiveTexture(GL_TEXTURE0);
  sendScale(scale);
  program_->bind();
  setPlasticLight(*program_, projection);
  const double low = scale.stops.empty() ? 0 : scale.stops.front().mm;
  const double high = scale.stops.empty() ? 1 : scale.stops.back().mm;
  program_->setUniformValue("colours", 0);
  program_->setUniformValue("range", static_cast<float>(low),
                            static_cast<float>(1 / std::max(high - low, 1e-9)));
  std::vector<float> levels(scale.levelsMm.begin(), scale.levelsMm.end());
  levels.resize(std::min(levels.size(), kMostLevels));
  program_->setUniformValueArray("levels", levels.data(), static_cast<int>(levels.size()), 1);
  program_->setUniformValue("levelCount", static_cast<int>(levels.size()));
  const auto paint = [](const QColor& c) { return QVector3D(c.redF(), c.greenF(), c.blueF()); };
  program_->setUniformValue("lineColour", paint(scale.line));
  program_->setUniformValue("leftOutColour", paint(scale.leftOut));
  program_->setUniformValue("brokenColour", paint(scale.broken));
  program_->setUniformValue("pixelRatio", static_cast<float>(pixelRatio));
}

PaintPainter::Sent& PaintPainter::sentOf(const std::shared_ptr<const PaintMesh>& mesh) {
  auto& slot = known_[mesh.get()];
  if (slot) return *slot;
  slot = std::make_unique<Sent>();
  slot->mesh = mesh;
  slot->layout.create();
  slot->layout.bind();
  const auto fill = [](QOpenGLBuffer& buffer, const void* data, std::size_t bytes) {
    buffer.create();
    buffer.bind();
    buffer.allocate(data, static_cast<int>(bytes));
  };
  fill(slot->vertices, mesh->vertices.data(), mesh->vertices.size() * sizeof(PaintVertex));
  fill(slot->indices, mesh->indices.data(), mesh->indices.size() * sizeof(std::uint32_t));
  slot->count = static_cast<int>(mesh->indices.size());
  const std::array<std::pair<int, std::size_t>, 3> fields{{{3, offsetof(PaintVertex, position)},
                                                           {3, offsetof(PaintVertex, normal)},
                                                           {2, offsetof(PaintVertex, figureMm)}}};
  for (GLuint i = 0; i < fields.size(); ++i) {
    gl_.glEnableVertexAttribArray(i);
    gl_.glVertexAttribPointer(i, fields[i].first, GL_FLOAT, GL_FALSE, sizeof(PaintVertex),
                              reinterpret_cast<const void*>(fields[i].second));
  }
  slot->layout.release();
  return *slot;
}

void PaintPainter::draw(const std::shared_ptr<const PaintMesh>& mesh, const Pose& X_WP,
                        const std::optional<ViewSection>& section) {
  Sent& sent = sentOf(mesh);
  const Pose X_WM = X_WP * translation(mesh->middle);
  setMatrix(gl_, program_->uniformLocation("clipFromPart"),
            Eigen::Matrix4f((clipFromWorld_ * X_WM.matrix()).cast<float>()));
  setMatrix(gl_, program_->uniformLocation("viewFromPart"),
            Eigen::Matrix3f((viewFromWorld_.linear() * X_WM.linear()).cast<float>()));
  program_->setUniformValue("stepped", mesh->surface->blend == PaintBlend::steps);
  const Eigen::Vector4f plane = section ? sectionIn(*section, X_WM) : Eigen::Vector4f(0, 0, 0, 1);
  program_->setUniformValue("section", plane.x(), plane.y(), plane.z(), plane.w());
  sent.layout.bind();
  gl_.glDrawElements(GL_TRIANGLES, sent.count, GL_UNSIGNED_INT, nullptr);
  sent.layout.release();
}

void PaintPainter::end() {
  gl_.glDisable(GL_CLIP_DISTANCE0);
  gl_.glBindTexture(GL_TEXTURE_2D, 0);
  program_->release();
}

void PaintPainter::dropUnused() {
  std::erase_if(known_, [](const auto& entry) { return entry.second->mesh.use_count() == 1; });
}

}  // namespace swingroom
