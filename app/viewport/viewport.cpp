#include "app/viewport/viewport.h"

#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "app/viewport/painters/floor_grid.h"
#include "app/viewport/tools/select_box.h"
#include "app/viewport/view_canvas.h"

namespace swingroom {
namespace {

constexpr int kMoveMs = 120, kCalmMs = 150, kArrivalsMs = 80;
constexpr double kThreeQuarterYawDeg = 42, kThreeQuarterPitchDeg = 26;

/// Yaw and pitch, degrees.
std::pair<double, double> anglesOf(Viewport::LookFrom side) {
  switch (side) {
    case Viewport::LookFrom::threeQuarter:
      break;
    case Viewport::LookFrom::front:
      return {0, 0};
    case Viewport::LookFrom::back:
      return {180, 0};
    case Viewport::LookFrom::left:
      return {-90, 0};
    case Viewport::LookFrom::right:
      return {90, 0};
    case Viewport::LookFrom::top:
      return {90, 90};
    case Viewport::LookFrom::below:
      return {90, -90};
  }
  return {kThreeQuarterYawDeg, kThreeQuarterPitchDeg};
}

ViewCamera turnedTo(ViewCamera camera, Viewport::LookFrom side) {
  const auto [yawDeg, pitchDeg] = anglesOf(side);
  camera.yawRad = radFromDeg(yawDeg), camera.pitchRad = radFromDeg(pitchDeg);
  return camera;
}

}  // namespace

Viewport::Viewport(QWidget* parent) : QWidget(parent) {
  setFocusPolicy(Qt::StrongFocus);
  setMinimumSize(160, 120);
  setAccessibleName(tr("3D view"));
  setAccessibleDescription(
      tr("The parts where they stand now. F fits, 1 to 6 look from the sides, P switches "
         "perspective."));
  move_.setStartValue(0.0);
  move_.setEndValue(1.0);
  move_.setDuration(kMoveMs);
  move_.setEasingCurve(QEasingCurve::OutCubic);
  connect(&move_, &QVariantAnimation::valueChanged, this,
          [this](const QVariant& part) { showNow(between(start_, goal_, part.toDouble())); });
  calm_.setSingleShot(true);
  calm_.setInterval(kCalmMs);
  connect(&calm_, &QTimer::timeout, this, [this] {
    fineDue_ = true;
    if (canvas_ != nullptr) canvas_->update();
  });
  // Several at a time: a picture for each would slow down their making.
  arrivals_.setSingleShot(true);
  arrivals_.setInterval(kArrivalsMs);
  connect(&arrivals_, &QTimer::timeout, this, [this] { takeMeshes(maker_.take()); });
  connect(&maker_, &MeshMaker::ready, this, [this] {
    if (!arrivals_.isActive()) arrivals_.start();
  });
  makeTools();
  makeCanvas();
  box_ = new SelectBox(this);
}

void Viewport::makeTools() {
  handles_ = new HandleLayer(*this, [this] { changed(); });
  const auto snap = [this](const QPointF& place) {
    return snapAt(stage_, projection(), {place.x(), place.y()});
  };
  measure_ = new MeasureTool(*this, snap, [this] { changed(); });
  const auto spot = [this](const QPointF& place) {
    return spotAt(stage_, projection(), {place.x(), place.y()});
  };
  pick_ = new PickTool(*this, spot, [this] { changed(); });
  paintTool_ = new PaintTool(*this, [this](const QPointF& place) {
    return measure_->isOn() || pick_->isOn() ? std::nullopt : pickPaint(place);
  });
  connect(&paint_, &PaintLayer::changed, this, [this] {
    changed();
    paintTool_->lookAgain();
  });
}

void Viewport::makeCanvas() {
  auto* layout = new QVBoxLayout(this);
  layout->setContentsMargins(0, 0, 0, 0);
  const QString reason = whyNoOpenGl();
  if (!reason.isEmpty()) return fail(reason);
  canvas_ = new ViewCanvas([this] { return makeFrame(); }, this);
  layout->addWidget(canvas_);
  canvas_->setMouseTracking(true);
  connect(canvas_, &ViewCanvas::drawn, this, &Viewport::onDrawn);
  // Later: a widget may not be taken away while it is being painted.
  connect(canvas_, &ViewCanvas::failed, this, &Viewport::fail, Qt::QueuedConnection);
}

void Viewport::changed() {
  fineDue_ = false;
  if (canvas_ != nullptr) canvas_->update();
}

void Viewport::setScene(const ViewScene& scene) {
  if (!stage_.setScene(scene)) return;
  maker_.make(stage_.missing());
  paint_.takeScene(stage_.scene());
  section_.begin(stage_);
  const ViewCamera upright = uprightCamera(scene.up, scene.front);
  for (ViewCamera* camera : {&camera_, &goal_, &start_}) {
    camera->up_W = upright.up_W, camera->front_W = upright.front_W;
  }
  if (scene.parts.empty()) placed_ = false;  // What comes next is another assembly.
  if (!placed_ && stage_.bounds().radiusMm > 0) {
    move_.stop();
    showNow(goal_ = fittedTo(turnedTo(goal_, LookFrom::threeQuarter)));
  }
  changed();
}

void Viewport::takeMeshes(const std::vector<MeshMaker::Made>& made) {
  if (made.empty()) return;
  for (const MeshMaker::Made& one : made) stage_.putMesh(one.source.get(), one.mesh);
  changed();
}

void Viewport::setPoses(const std::vector<Pose>& X_WPs) {
  if (!stage_.setPoses(X_WPs)) return;
  if (!placed_) {
    showNow(goal_ = fittedTo(goal_));
  } else if (wholeWanted_ && !handles_->isHolding()) {
    keepWholeInView();
  }
  changed();
}

void Viewport::setEmphasis(const ViewEmphasis& emphasis) {
  if (std::exchange(emphasis_, emphasis) != emphasis) changed();
}

void Viewport::setDimension(const std::optional<ViewDimension>& dimension) {
  if (std::exchange(dimension_, dimension) != dimension) changed();
}

void Viewport::setAxes(const std::vector<ViewAxis>& axes) {
  if (std::exchange(axes_, axes) != axes) changed();
}

void Viewport::setZones(const std::vector<ViewZone>& zones) {
  if (std::exchange(zones_, zones) != zones) changed();
}

void Viewport::setGuides(const ViewGuides& guides) {
  if (std::exchange(guides_, guides) != guides) changed();
}

void Viewport::setDrawings(const std::vector<ViewDrawing>& drawings) {
  if (drawings == drawings_) return;
  drawings_ = drawings;
  changed();
}

void Viewport::setColours(const ViewColours& colours) {
  if (std::exchange(colours_, colours) == colours) return;
  box_->setColour(colours.accent);
  changed();
}

void Viewport::setPaint(const ViewPaint& paint) {
  if (!paint_.set(paint, stage_.scene())) return;
  changed();
  paintTool_->lookAgain();
}

void Viewport::setSection(const std::optional<ViewSection>& section) {
  const bool begins = section && !stage_.section();
  if (!stage_.setSection(section)) return;
  if (begins) section_.begin(stage_);
  changed();
}

std::optional<std::pair<double, double>> Viewport::extentAlong(
    const Vector3d& direction_W, const std::vector<PartId>& only) const {
  std::optional<std::pair<double, double>> extent;
  for (const Vector3d& corner_W : stage_.boxCorners(only)) {
    const double mm = direction_W.dot(corner_W);
    if (!extent) extent.emplace(mm, mm);
    extent->first = std::min(extent->first, mm);
    extent->second = std::max(extent->second, mm);
  }
  return extent;
}

std::optional<SectionHandle> Viewport::sectionHandle() const {
  if (!stage_.section()) return std::nullopt;
  return SectionView::handleOf(SectionView::frameOf(stage_), *stage_.section(), projection());
}

ViewSize Viewport::layoutSize() const {
  return {static_cast<double>(std::max(width(), 1)), static_cast<double>(std::max(height(), 1))};
}

ViewProjection Viewport::projection() const {
  return {camera_, layoutSize()};
}

ViewCamera Viewport::fittedTo(const ViewCamera& camera) const {
  constexpr double kMargin = 0.1;  // The card in the corner must not cover a part.
  return fitted(camera, layoutSize(), stage_.outlinePoints(), kMargin);
}

void Viewport::keepWholeInView() {
  const ViewProjection view(goal_, layoutSize());
  const QRectF room(0, 0, width(), height());
  const std::vector<Vector3d> corners_W = stage_.boxCorners();
  const bool seen = std::all_of(corners_W.begin(), corners_W.end(), [&](const Vector3d& p_W) {
    const Eigen::Vector2d pixel = view.pixel(p_W);
    return view.isBefore(p_W) && room.contains(pixel.x(), pixel.y());
  });
  if (!seen) moveTo(fittedTo(goal_));
}

void Viewport::showNow(const ViewCamera& camera) {
  if (camera == camera_) return;
  camera_ = camera;
  changed();
  Q_EMIT lookChanged();
}

void Viewport::setCamera(const ViewCamera& camera) {
  move_.stop();
  placed_ = true;
  goal_ = camera;
  showNow(camera);
}

void Viewport::moveTo(const ViewCamera& camera) {
  if (reducedMotion_ || !isVisible()) return setCamera(camera);
  move_.stop();
  placed_ = true;
  start_ = camera_;
  goal_ = camera;
  move_.start();
}

void Viewport::lookFrom(LookFrom side) {
  wholeWanted_ = true;
  moveTo(fittedTo(turnedTo(goal_, side)));
}

void Viewport::fit() {
  wholeWanted_ = true;
  moveTo(fittedTo(goal_));
}

void Viewport::setPerspective(bool perspective) {
  if (goal_.perspective == perspective) return;
  ViewCamera camera = goal_;
  camera.perspective = perspective;
  setCamera(camera);
}

void Viewport::bring(const Vector3d& centre_W, double radiusMm, std::optional<Vector3d> towards_W) {
  wholeWanted_ = false;
  ViewCamera camera = goal_;
  if (towards_W && towards_W->allFinite() && towards_W->norm() > 0)
    camera = lookingAlong(camera, *towards_W);
  camera.p_WTarget = centre_W;
  camera.spanMm = std::max(2.3 * radiusMm, 0.02);
  moveTo(camera);
}

void Viewport::placeParts(ViewFrame& frame) {
  const std::vector<PartId> painted = paint_.parts();
  std::vector<PartId> chosen = guides_.parts.empty() ? emphasis_.parts : guides_.parts;
  if (guides_.parts.empty()) chosen.insert(chosen.end(), painted.begin(), painted.end());
  std::vector<std::optional<std::size_t>> places(stage_.scene().parts.size());
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (!stage_.isShown(i)) continue;
    places[i] = frame.parts.size();
    const ViewPart& part = stage_.scene().parts[i];
    const bool pale = part.ghost || (!chosen.empty() && std::find(chosen.begin(), chosen.end(),
                                                                  PartId{i}) == chosen.end());
    DrawnPart drawn;
    drawn.mesh = stage_.mesh(i), drawn.X_WP = stage_.pose(i);
    drawn.colour = part.colour, drawn.pale = pale, drawn.clear = part.clear;
    if (!part.ghost) drawn.paint = paint_.meshOf(i);
    section_.place(i, stage_, drawn);
    frame.parts.push_back(std::move(drawn));
  }
  if (!emphasis_.overlap || !guides_.parts.empty() || chosen.size() < 2) return;
  const std::size_t a = chosen[0].index, b = chosen[1].index;
  if (a == b || a >= places.size() || b >= places.size() || !places[a] || !places[b]) return;
  frame.overlap.emplace(*places[a], *places[b]);
}

ViewFrame Viewport::makeFrame() {
  ViewFrame frame;
  placeParts(frame);
  frame.floor = stage_.floor();
  frame.bounds = stage_.widestBounds();
  frame.pixelRatio = devicePixelRatioF();
  const ViewSize size = layoutSize();
  frame.projection = ViewProjection(camera_, {std::round(size.width * frame.pixelRatio),
                                              std::round(size.height * frame.pixelRatio)});
  const ViewBounds now = stage_.bounds();
  frame.range = frame.projection.rangeOf(now.centre_W, std::max(1.001 * now.radiusMm, 1e-3));
  frame.colours = colours_;
  frame.paintScale = paint_.paint().scale;
  frame.fine = fineDue_;
  frame.dimension = dimension_;
  frame.font = font();
  frame.axes = axes_;
  frame.zones = zones_;
  frame.axes.insert(frame.axes.end(), guides_.axes.begin(), guides_.axes.end());
  frame.zones.insert(frame.zones.end(), guides_.zones.begin(), guides_.zones.end());
  frame.drawings = drawings_;
  if (!measure_->isOn() && !pick_->isOn()) frame.handles = handles_->drawn();
  if (measure_->isOn()) frame.dimension = measure_->dimension();
  frame.marks = measure_->isOn() ? measure_->marks() : pick_->marks();
  frame.section = stage_.section();
  if (frame.section) {
    frame.sectionFrame_W = SectionView::frameOf(stage_);
    frame.handle = SectionView::handleOf(frame.sectionFrame_W, *frame.section, frame.projection);
  }
  return frame;
}

QImage Viewport::picture() {
  takeMeshes(maker_.finish());
  paint_.finish();
  if (canvas_ == nullptr || !canvas_->isValid()) return grab().toImage();
  calm_.stop();
  fineDue_ = true;
  return canvas_->grabFramebuffer();
}

QImage Viewport::pictureAt(double scale, bool seeThrough) {
  takeMeshes(maker_.finish());
  paint_.finish();
  if (canvas_ == nullptr || !canvas_->isValid()) return {};
  ViewFrame frame = makeFrame();
  const ViewSize size = layoutSize();
  frame.pixelRatio = scale;
  frame.projection =
      ViewProjection(camera_, {std::round(size.width * scale), std::round(size.height * scale)});
  frame.fine = true;
  frame.seeThrough = seeThrough;
  frame.sectionFrame_W.clear();
  frame.handle.reset();
  return canvas_->paint(frame);
}

std::optional<double> Viewport::gridSpacingMm() const {
  if (!(stage_.bounds().radiusMm > 0)) return std::nullopt;
  return seenGridSpacingMm(stage_.floor(), stage_.widestBounds(), projection());
}

void Viewport::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  fineDue_ = false;
  // Until it was seen once, the view fits whatever size the window gives it.
  if (!placed_ && stage_.bounds().radiusMm > 0) showNow(goal_ = fittedTo(goal_));
}

void Viewport::onDrawn(bool fine) {
  placed_ = placed_ || stage_.bounds().radiusMm > 0;
  ++framesDrawn_;
  if (fine || isWaiting()) return;                  // The next mesh brings a picture anyway.
  constexpr std::size_t kLargeTriangles = 300'000;  // A fine picture of them may take a while.
  calm_.start(stage_.triangles() > kLargeTriangles ? 3 * kCalmMs : kCalmMs);
}

void Viewport::fail(const QString& reason) {
  failure_ = reason;
  if (canvas_ != nullptr) canvas_->hide();
  if (notice_ == nullptr) {
    notice_ = new QLabel(this);
    notice_->setAlignment(Qt::AlignCenter);
    notice_->setWordWrap(true);
    notice_->setMargin(24);
    layout()->addWidget(notice_);
  }
  notice_->setText(
      tr("The 3D view cannot be drawn: %1.\nEverything else works without it.").arg(reason));
  notice_->show();
}

}  // namespace swingroom
