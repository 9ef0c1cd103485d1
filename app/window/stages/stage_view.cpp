#include "app/window/stages/stage_view.h"

#include "app/models/text.h"
#include "app/panels/theme.h"
#include "app/window/paint/paint_scales.h"
#include "app/window/stages/stage_paint.h"
#include "core/report/words.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

constexpr double kStageCloseMm = 12;

/// The way from the eye to a place of the surface: against its normal there.
std::optional<Vector3d> wayTo(const BoundingTree& tree, const Vector3d& p) {
  const auto near = closestPoint(tree, p);
  if (!near) return std::nullopt;
  const TriangleCorners& t = tree.triangles()[near->triangle];
  const Vector3d normal = (t[1] - t[0]).cross(t[2] - t[0]);
  if (!(normal.norm() > 0)) return std::nullopt;
  return -normal.normalized();
}

}  // namespace

StageView::StageView(Session& session, StageCompare& compare, Viewport& view, QObject* parent)
    : QObject(parent), session_(session), compare_(compare), view_(view), legend_(new PaintLegend(view)) {
  connect(&compare, &StageCompare::changed, this, [this] {
    showPaint();
    if (compare_.state() == StageCompare::State::none) clearPlace();
  });
  connect(&session, &Session::sceneChanged, this, &StageView::showPaint);
  connect(&view.paintTool(), &PaintTool::hovered, this, &StageView::hover);
  // What is pointed out is of the part where it stood.
  connect(&session.stand(), &Stand::moved, this, &StageView::clearPlace);
  connect(&session.choice(), &Choice::changed, this, &StageView::clearPlace);
}

void StageView::showPaint() {
  const ScenePtr& scene = session_.scene();
  const auto id = scene ? scene->assembly().findPart(compare_.part()) : std::nullopt;
  const auto& compared = compare_.compared();
  if (!id || !compared) {
    if (!surface_) return;
    surface_.reset();
    painted_.reset();
    legend_->clear();
    view_.setPaint({});
    return;
  }
  const bool ofDetail = compare_.showsDetail();
  if (painted_ != compared || paintedDetail_ != ofDetail || !surface_) {
    painted_ = compared;
    paintedDetail_ = ofDetail;
    surface_ = paintOf(*compared, ofDetail);
  }
  const PaintScale scale = movedScale(theme(), largestChangeMm(*compared));
  view_.setPaint({{{*id, surface_}}, scale});
  legend_->setScale(scale, {tr("moved, mm"), tr("outward"), tr("inward"), {}, {}});
}

void StageView::hover(const std::optional<PaintPick>& pick) {
  if (!surface_) return;  // The paint is of others.
  if (!pick || pick->surface != surface_) {
    legend_->setMark(std::nullopt);
    view_.paintTool().setWords({});
    return;
  }
  const double mm = surface_->pieces[pick->piece].figureMm;
  legend_->setMark(mm);
  constexpr double kStayedMm = 0.005;
  const QString figure = qt(words::millimetres(std::abs(mm)));
  view_.paintTool().setWords(std::abs(mm) < kStayedMm ? tr("where it was")
                             : mm > 0                 ? tr("%1 outward").arg(figure)
                                                      : tr("%1 inward").arg(figure));
}

void StageView::clearPlace() {
  if (!std::exchange(placeShown_, false)) return;
  view_.setGuides({});
  if (!session_.choice().pair()) view_.setDimension(std::nullopt);
}

void StageView::showPlace(const StageLine& line) {
  const ScenePtr& scene = session_.scene();
  const auto id = scene ? scene->assembly().findPart(compare_.part()) : std::nullopt;
  if (!id || !line.place_P) return;
  session_.choice().choosePart(*id);
  clearPlace();
  const Pose X_WP = posesOf(scene->assembly(), session_.stand().standing())[id->index];
  const Vector3d place_W = X_WP * *line.place_P;
  std::optional<Vector3d> towards_W;
  if (scene->geometry[id->index]) {
    const auto way = wayTo(scene->geometry[id->index]->surface->tree, *line.place_P);
    if (way) towards_W = (X_WP.linear() * *way - 0.25 * scene->up_W).normalized();
  }
  if (line.round) {
    ViewGuides guides;
    const RoundPlace& round = *line.round;
    guides.zones.push_back({place_W, X_WP.linear() * round.along, round.radiusMm, round.lengthMm / 2});
    if (!round.isRound()) {
      const double reach = round.lengthMm / 2 + 2;
      guides.axes.push_back({place_W, X_WP.linear() * round.along, -reach, reach, true, true, true});
      towards_W = (X_WP.linear() * (round.along + 0.35 * round.along.unitOrthogonal())).normalized();
    }
    view_.setGuides(guides);
  } else if (line.nearest_P) {
    const Vector3d nearest_W = X_WP * *line.nearest_P;
    view_.setDimension(ViewDimension{{place_W, nearest_W}, qt(words::millimetres((place_W - nearest_W).norm()))});
  }
  placeShown_ = true;
  view_.bring(place_W, kStageCloseMm, towards_W);
}

}  // namespace swingroom
