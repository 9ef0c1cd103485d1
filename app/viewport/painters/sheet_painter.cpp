#include "app/viewport/painters/sheet_painter.h"

namespace swingroom {
namespace {

constexpr const char* kSheetVertex = R"(#version 330 core
uniform vec4 rectangle;  // Left, top, right, bottom in device coordinates.
out vec2 place;
void main() {
  vec2 corner = vec2(gl_VertexID % 2, gl_VertexID / 2);
  place = corner;
  gl_Position = vec4(mix(rectangle.xy, rectangle.zw, corner), -1.0, 1.0);
}
)";

constexpr const char* kImageFragment = R"(#version 330 core
in vec2 place;
uniform sampler2D image;
out vec4 colour;
void main() { colour = texture(image, place); }
)";

constexpr const char* kHatchFragment = R"(#version 330 core
in vec2 place;
uniform sampler2D image;
uniform float reach, ratio;
uniform vec3 ink, paper;
out vec4 colour;
void main() {
  float inside = (texture(image, place).r * 255.0 - 128.0) / 127.0 * reach / ratio;
  float rim = clamp(inside + 2.0, 0.0, 1.0);
  if (rim <= 0.0) discard;
  float body = clamp(inside + 0.5, 0.0, 1.0), edge = 1.0 - clamp(inside - 1.2, 0.0, 1.0);
  float along = (gl_FragCoord.x + gl_FragCoord.y) / ratio;
  float off = abs(mod(along, 9.0) - 4.5) * 0.7071;
  float stroke = clamp(1.35 - off, 0.0, 1.0);
  float inked = body * max(edge, stroke);
  float veil = rim * (1.0 - body) * 0.85 + body * 0.72;
  float opacity = inked + (1.0 - inked) * veil;
  colour = vec4((ink * inked + paper * (1.0 - inked) * veil) / opacity, opacity);
}
)";

QVector3D paintOn(const QColor& colour) {
  return {static_cast<float>(colour.redF()), static_cast<float>(colour.greenF()),
          static_cast<float>(colour.blueF())};
}

}  // namespace

SheetPainter::SheetPainter(Gl& gl)
    : gl_(gl),
      hatch_(buildProgram(kSheetVertex, kHatchFragment)),
      image_(buildProgram(kSheetVertex, kImageFragment)) {
  layout_.create();
  texture_ = makeSmoothTexture(gl_);
}

SheetPainter::~SheetPainter() {
  gl_.glDeleteTextures(1, &texture_);
}

void SheetPainter::place(QOpenGLShaderProgram& program, const QRectF& rectangle,
                         const ViewSize& size) {
  const auto x = [&](double pixel) { return static_cast<float>(2 * pixel / size.width - 1); };
  const auto y = [&](double pixel) { return static_cast<float>(1 - 2 * pixel / size.height); };
  program.setUniformValue("rectangle", x(rectangle.left()), y(rectangle.top()),
                          x(rectangle.right()), y(rectangle.bottom()));
  program.setUniformValue("image", 0);
  layout_.bind();
  gl_.glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
  layout_.release();
  program.release();
}

void SheetPainter::drawHatch(const OverlapMask& mask, const ViewSize& size, const QColor& ink,
                             const QColor& paper, double pixelRatio) {
  gl_.glBindTexture(GL_TEXTURE_2D, texture_);
  gl_.glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  gl_.glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, mask.columns, mask.rows, 0, GL_RED, GL_UNSIGNED_BYTE,
                   mask.edge.data());
  hatch_->bind();
  hatch_->setUniformValue("reach", static_cast<float>(OverlapMask::kReachPixels));
  hatch_->setUniformValue("ratio", static_cast<float>(pixelRatio));
  hatch_->setUniformValue("ink", paintOn(ink));
  hatch_->setUniformValue("paper", paintOn(paper));
  place(*hatch_,
        QRectF(mask.left, mask.top, mask.columns * mask.pixelsASample,
               mask.rows * mask.pixelsASample),
        size);
}

void SheetPainter::drawImage(const QImage& image, const QPoint& topLeft, const ViewSize& size) {
  const QImage pixels = image.convertToFormat(QImage::Format_RGBA8888);
  gl_.glBindTexture(GL_TEXTURE_2D, texture_);
  gl_.glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
  gl_.glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, pixels.width(), pixels.height(), 0, GL_RGBA,
                   GL_UNSIGNED_BYTE, pixels.constBits());
  image_->bind();
  place(*image_, QRectF(topLeft, QSizeF(pixels.size())), size);
}

}  // namespace swingroom
