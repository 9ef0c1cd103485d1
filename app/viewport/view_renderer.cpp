#include "app/viewport/view_renderer.h"

#include <algorithm>

#include "app/viewport/painters/floor_grid.h"
#include "app/viewport/tools/handle_geometry.h"
#include "app/viewport/tools/handle_paint.h"
#include "app/viewport/view_colours.h"
#include "app/viewport/view_edges.h"

namespace swingroom {
namespace {

constexpr int kSamplesAPixel = 4;
constexpr float kHidden = 0.3F;  ///< Opacity of axes behind parts.

/// Nearest first: what they hide need not be shaded.
std::vector<const DrawnPart*> nearestFirst(const ViewFrame& frame) {
  std::vector<std::pair<double, const DrawnPart*>> order;
  for (const DrawnPart& part : frame.parts) {
    if (part.side == SectionSide::gone) continue;
    const double depth = frame.projection.depthMm(part.X_WP * part.mesh->middle);
    order.emplace_back(depth - part.mesh->radiusMm, &part);
  }
  std::sort(order.begin(), order.end());
  std::vector<const DrawnPart*> parts;
  for (const auto& entry : order) parts.push_back(entry.second);
  return parts;
}

ShadowGrid shadowOf(const ViewFrame& frame) {
  std::vector<PlacedMesh> meshes;
  for (const DrawnPart& part : frame.parts) {
    if (!part.clear) meshes.push_back({part.mesh.get(), part.X_WP});
  }
  return contactShadow(meshes, frame.floor, frame.bounds);
}

/// Triangles of a picture while something moves.
constexpr std::size_t kMostInSoftware = 300'000, kMostOnCard = 6'000'000;

bool isSoftware(Gl& gl) {
  const auto* name = reinterpret_cast<const char*>(gl.glGetString(GL_RENDERER));
  const QString renderer = QString::fromLatin1(name).toLower();
  for (const char* word : {"llvmpipe", "softpipe", "swrast", "software", "swiftshader", "warp"}) {
    if (renderer.contains(QLatin1String(word))) return true;
  }
  return false;
}

std::size_t trianglesOf(const ViewFrame& frame) {
  std::size_t triangles = 0;
  for (const DrawnPart& part : frame.parts)
    triangles += part.paint ? part.paint->indices.size() / 3 : part.mesh->triangles.size();
  return triangles;
}

}  // namespace

ViewRenderer::ViewRenderer(Gl& gl)
    : gl_(gl),
      parts_(gl),
      paints_(gl),
      shadow_(gl),
      strokes_(gl),
      sheets_(gl),
      section_(gl),
      drawings_(gl),
      software_(isSoftware(gl)),
      mostTriangles_(software_ ? kMostInSoftware : kMostOnCard) {}

QOpenGLFramebufferObject& ViewRenderer::smoothTarget(const QSize& size) {
  if (!smooth_ || smooth_->size() != size) {
    QOpenGLFramebufferObjectFormat format;
    format.setSamples(kSamplesAPixel);
    format.setAttachment(QOpenGLFramebufferObject::CombinedDepthStencil);
    smooth_ = std::make_unique<QOpenGLFramebufferObject>(size, format);
  }
  return *smooth_;
}

void ViewRenderer::drawSolids(const ViewFrame& frame) {
  parts_.begin(frame.projection, frame.range, frame.section.has_value());
  for (const DrawnPart* part : nearestFirst(frame)) {
    if (!part->clear && !part->paint) parts_.draw(part->mesh, part->X_WP, styleOf(*part, frame));
  }
  parts_.end();
}

void ViewRenderer::drawPainted(const ViewFrame& frame) {
  const bool any = std::any_of(frame.parts.begin(), frame.parts.end(),
                               [](const DrawnPart& part) { return part.paint != nullptr; });
  if (!any) return;
  paints_.begin(frame.projection, frame.range, frame.paintScale, frame.pixelRatio,
                frame.section.has_value());
  for (const DrawnPart* part : nearestFirst(frame)) {
    if (part->paint)
      paints_.draw(part->paint, part->X_WP,
                   part->side == SectionSide::cut ? frame.section : std::nullopt);
  }
  paints_.end();
}

void ViewRenderer::drawEdges(const ViewFrame& frame) {
  StrokeBatch batch(frame.projection, frame.range);
  for (const DrawnPart& part : frame.parts) {
    if (part.side == SectionSide::gone) continue;
    // Lines of the mesh itself would not lie on a coarse one.
    const bool coarse = coarse_ && !part.mesh->coarse.indices.empty();
    const StrokeStyle outline = outlineStyle(part, frame.colours, frame.pixelRatio);
    if (!coarse)
      addEdges(*part.mesh, part.X_WP, creaseStyle(part, frame.colours, frame.pixelRatio), outline,
               part.side == SectionSide::cut ? &*frame.section : nullptr, batch);
    if (!part.cut) continue;
    StrokeStyle rim = outline;  // Wide, as a drawing has it.
    rim.widthPixels *= 1.5;
    for (const auto& line : part.cut->lines_W) batch.line(line[0], line[1], rim);
  }
  strokes_.draw(batch);
}

SurfaceStyle ViewRenderer::styleOf(const DrawnPart& part, const ViewFrame& frame) const {
  SurfaceStyle style = surfaceStyle(part, frame.colours);
  if (part.side == SectionSide::cut) style.section = frame.section;
  style.coarse = coarse_;
  return style;
}

void ViewRenderer::drawClear(const ViewFrame& frame) {
  parts_.begin(frame.projection, frame.range, frame.section.has_value());
  for (const DrawnPart& part : frame.parts) {
    if (part.clear && !part.paint && part.side != SectionSide::gone)
      parts_.draw(part.mesh, part.X_WP, styleOf(part, frame));
  }
  parts_.end();
}

void ViewRenderer::drawAxesAndZones(const ViewFrame& frame) {
  StrokeBatch batch(frame.projection, frame.range);
  for (const ViewZone& zone : frame.zones) addZone(zone, frame, batch);
  for (const ViewAxis& axis : frame.axes) addAxis(axis, frame, batch);
  addSectionFrame(frame, batch);
  strokes_.draw(batch);
  gl_.glDisable(GL_DEPTH_TEST);  // What lies in a part shows through, faintly.
  strokes_.draw(batch, kHidden);
  gl_.glEnable(GL_DEPTH_TEST);
}

void ViewRenderer::drawDrawings(const ViewFrame& frame) {
  if (frame.drawings.empty()) return drawings_.dropUnused({});
  StrokeBatch batch(frame.projection, frame.range);
  for (const ViewDrawing& drawing : frame.drawings) {
    const bool faced = isFaced(drawing, frame.projection.camera());
    if (!faced) gl_.glEnable(GL_DEPTH_TEST);
    drawings_.draw(drawing, frame);
    gl_.glDisable(GL_DEPTH_TEST);
    if (faced) addOutlines(drawing, frame, batch);
  }
  drawings_.dropUnused(frame.drawings);
  strokes_.draw(batch);
  gl_.glEnable(GL_DEPTH_TEST);
}

void ViewRenderer::drawOverlap(const ViewFrame& frame) {
  if (!frame.overlap || frame.section) return;  // Cut open it is seen where it is.
  const DrawnPart &a = frame.parts[frame.overlap->first], &b = frame.parts[frame.overlap->second];
  const OverlapMask mask =
      overlapMask(*a.mesh, a.X_WP, *b.mesh, b.X_WP, frame.projection, frame.fine ? 1 : 2);
  if (mask.empty()) return;
  sheets_.drawHatch(mask, frame.projection.size(), frame.colours.clash, frame.colours.ground,
                    frame.pixelRatio);
}

void ViewRenderer::drawHandles(const ViewFrame& frame) {
  if (frame.handles.empty() && frame.marks.empty()) return;
  StrokeBatch batch(frame.projection, frame.range);
  for (const DrawnHandle& drawn : frame.handles) addHandle(drawn, frame, batch);
  for (const SnapPoint& mark : frame.marks) addMark(mark, frame, batch);
  strokes_.draw(batch);
  for (const DrawnHandle& drawn : frame.handles) {
    if (!drawn.held || drawn.handle.text.isEmpty()) continue;
    const Vector3d knob_W = knobOf(drawn.handle, frame.projection, frame.pixelRatio);
    if (!frame.projection.isBefore(knob_W)) continue;
    const ViewSize& size = frame.projection.size();
    const QImage& card =
        handleCard_.of(drawn.handle.text, frame.colours, frame.font, frame.pixelRatio);
    const Eigen::Vector2d knob = frame.projection.pixel(knob_W);
    sheets_.drawImage(card, besideHandle(knob, card.size(), size, frame.pixelRatio), size);
  }
}

void ViewRenderer::drawDimension(const ViewFrame& frame) {
  const auto& dimension = frame.dimension;
  if (!dimension || !frame.projection.isBefore(dimension->ends_W[0]) ||
      !frame.projection.isBefore(dimension->ends_W[1]))
    return cardOffset_.reset();
  const std::array ends{frame.projection.pixel(dimension->ends_W[0]),
                        frame.projection.pixel(dimension->ends_W[1])};
  const ViewSize& size = frame.projection.size();
  const QImage& card = card_.of(dimension->text, frame.colours, frame.font, frame.pixelRatio);
  const DimensionPlace place =
      placeDimension(ends, card.size(), size, frame.pixelRatio, cardOffset_);
  cardOffset_ = Eigen::Vector2d(place.card.center().x(), place.card.center().y()) - place.middle;
  StrokeBatch batch(frame.projection, frame.range);
  addDimension(ends, place, frame, batch);
  strokes_.draw(batch);
  sheets_.drawImage(card, place.card.topLeft().toPoint(), size);
}

void ViewRenderer::drawHandle(const ViewFrame& frame) {
  if (!frame.handle) return;
  const QImage& knob = knob_.of(frame.handle->way, frame.colours, frame.pixelRatio);
  const Eigen::Vector2d corner =
      frame.handle->place - 0.5 * Eigen::Vector2d(knob.width(), knob.height());
  sheets_.drawImage(knob, QPointF(corner.x(), corner.y()).toPoint(), frame.projection.size());
}

void ViewRenderer::drawFloor(const ViewFrame& frame) {
  StrokeBatch grid(frame.projection, frame.range);
  addFloorGrid(frame.floor, frame.bounds, frame.colours.line, frame.pixelRatio, grid);
  if (grid.vertices().empty()) return;  // Seen from below.
  strokes_.draw(grid);
  shadow_.draw(shadowOf(frame), frame.floor, frame.projection.clipFromWorld(frame.range),
               darkestShadow(frame.colours));
}

void ViewRenderer::clear(const ViewFrame& frame) {
  const QColor& ground = frame.colours.ground;
  gl_.glViewport(0, 0, static_cast<int>(frame.projection.size().width),
                 static_cast<int>(frame.projection.size().height));
  if (frame.seeThrough) {
    gl_.glClearColor(0, 0, 0, 0);
  } else {
    gl_.glClearColor(ground.redF(), ground.greenF(), ground.blueF(), 1);
  }
  gl_.glDepthMask(GL_TRUE);
  gl_.glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT | GL_STENCIL_BUFFER_BIT);
  gl_.glEnable(GL_DEPTH_CLAMP);
  gl_.glDepthFunc(GL_LEQUAL);
}

void ViewRenderer::blend(bool on) {
  if (!on) return gl_.glDisable(GL_BLEND);
  gl_.glEnable(GL_BLEND);
  gl_.glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
}

/// Several samples a pixel cost memory in a large picture, and seconds for millions of triangles in
/// software; lines smooth the edges anyway.
bool ViewRenderer::isSmooth(const ViewFrame& frame) const {
  constexpr double kMostPixels = 9e6;
  const ViewSize& size = frame.projection.size();
  const bool tooMuch = software_ && trianglesOf(frame) > mostTriangles_;
  return frame.fine && !tooMuch && size.width * size.height < kMostPixels;
}

void ViewRenderer::draw(const ViewFrame& frame, GLuint target) {
  const QSize size(static_cast<int>(frame.projection.size().width),
                   static_cast<int>(frame.projection.size().height));
  coarse_ = !frame.fine && trianglesOf(frame) > mostTriangles_;
  parts_.dropUnused();
  paints_.dropUnused();
  const bool smooth = isSmooth(frame);
  const GLuint canvas = smooth ? smoothTarget(size).handle() : target;
  gl_.glBindFramebuffer(GL_FRAMEBUFFER, canvas);
  clear(frame);
  gl_.glDisable(GL_DEPTH_TEST);
  blend(true);
  if (!frame.seeThrough) drawFloor(frame);
  blend(false);
  gl_.glEnable(GL_DEPTH_TEST);
  drawSolids(frame);
  drawPainted(frame);
  section_.draw(frame);
  gl_.glDepthMask(GL_FALSE);
  blend(true);
  drawEdges(frame);
  drawClear(frame);
  drawDrawings(frame);
  drawAxesAndZones(frame);
  if (smooth) {
    gl_.glBindFramebuffer(GL_READ_FRAMEBUFFER, canvas);
    gl_.glBindFramebuffer(GL_DRAW_FRAMEBUFFER, target);
    gl_.glBlitFramebuffer(0, 0, size.width(), size.height(), 0, 0, size.width(), size.height(),
                          GL_COLOR_BUFFER_BIT, GL_NEAREST);
    gl_.glBindFramebuffer(GL_FRAMEBUFFER, target);
  }
  gl_.glDisable(GL_DEPTH_TEST);
  drawOverlap(frame);
  drawHandles(frame);
  drawDimension(frame);
  drawHandle(frame);
  blend(false);
  gl_.glDepthMask(GL_TRUE);
  gl_.glDisable(GL_DEPTH_CLAMP);
}

}  // namespace swingroom
