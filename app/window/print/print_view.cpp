#include "app/window/print/print_view.h"

#include <algorithm>

#include "app/window/rig/rig_guides.h"
#include "app/window/view/view_bridge.h"

namespace swingroom {
namespace {

constexpr double kRingMm = 1.5;

/// A straight line without arrows.
ViewAxis lineBetween(const Vector3d& from_W, const Vector3d& to_W, bool strong) {
  ViewAxis line;
  line.point_W = from_W;
  line.direction_W = (to_W - from_W).normalized();
  line.toMm = (to_W - from_W).norm();
  line.strong = strong;
  line.turns = false;
  line.plain = true;
  return line;
}

}  // namespace

PrintView::PrintView(Session& session, PrintBoard& board, PrintPanel& panel, ViewBridge* bridge,
                     RigGuides* guides, QObject* parent)
    : QObject(parent),
      session_(session),
      board_(board),
      panel_(panel),
      bridge_(bridge),
      guides_(guides) {
  connect(&panel, &PrintPanel::rowWanted, this, &PrintView::showRow);
  connect(&panel, &PrintPanel::tableRowWanted, this, &PrintView::showTableRow);
  connect(&panel, &PrintPanel::shownChanged, this, &PrintView::refresh);
  connect(&board, &PrintBoard::changed, this, &PrintView::refresh);
  connect(&session.stand(), &Stand::moved, this, &PrintView::refresh);
  // What is chosen elsewhere is not what was pointed out.
  connect(&session.choice(), &Choice::changed, this, [this] {
    if (!isShowing_) forget();
  });
}

void PrintView::forget() {
  shown_.reset();
  refresh();
}

void PrintView::showRow(const PrintRow& row) {
  const bool stands = row.section == PrintSection::stand;
  if (!row.onWay || board_.isOld()) return show({row.parts, row.mode, row.at_P, stands});
  forget();
  std::vector<PartId> parts;
  for (const PartId part : row.parts) {
    if (const auto now = board_.partNow(part)) parts.push_back(*now);
  }
  if (parts.size() != 2) return;
  session_.stand().setRunning(false);
  isShowing_ = true;
  session_.goTo(parts[0], parts[1], row.onWay->way, row.onWay->instant);
  isShowing_ = false;
}

void PrintView::showTableRow(PrintSection section, const PrintTableRow& row) {
  panel_.list().closeRow();
  show({row.parts, row.mode, row.at_P, section == PrintSection::stand});
}

void PrintView::show(const Place& place) {
  if (!session_.scene() || !board_.known()) return;
  isShowing_ = true;
  shown_ = place;
  shownOf_ = board_.known();
  std::vector<PartId> parts;
  for (const PartId part : place.parts) {
    if (const auto now = board_.partNow(part)) parts.push_back(*now);
  }
  session_.stand().setRunning(false);
  session_.choice().chooseParts(parts);
  const auto mode = place.mode ? board_.modeNow(*place.mode) : std::nullopt;
  if (mode) session_.stand().standIn(*mode);
  isShowing_ = false;
  refresh();
  if (!bridge_) return;
  if (place.at_P && !parts.empty()) {
    const auto X_WPs = posesOf(session_.scene()->assembly(), session_.stand().standing());
    const Vector3d place_W = X_WPs.at(parts.front().index) * *place.at_P;
    return bridge_->bringPlace({place_W, place_W}, std::nullopt);
  }
  place.stands ? bridge_->bringAll() : bridge_->bringChosen();
}

/// The place as everything stands, and what the figure stands on.
ViewGuides PrintView::guidesOf(const Place& place) const {
  ViewGuides guides;
  const ScenePtr& scene = session_.scene();
  const auto part = place.parts.empty() ? std::nullopt : board_.partNow(place.parts.front());
  if (place.at_P && part) {
    const auto X_WPs = posesOf(scene->assembly(), session_.stand().standing());
    guides.zones.push_back({X_WPs.at(part->index) * *place.at_P, scene->up_W, kRingMm, 0});
  }
  if (place.stands && place.mode && !board_.isOld()) addPolygon(*place.mode, guides);
  return guides;
}

/// While the figure stands in that mode: the support polygon, the edge that it tips over strong,
/// and how its weight hangs over it.
void PrintView::addPolygon(ModeId mode, ViewGuides& guides) const {
  const Scene& scene = *session_.scene();
  const Configuration& inMode = scene.loaded.modes.at(mode.index).configuration;
  if (inMode != session_.stand().standing()) return;
  const auto& modes = board_.known()->result.weight.modes;
  const auto found = std::find_if(modes.begin(), modes.end(),
                                  [&](const ModeWeight& weight) { return weight.mode == mode; });
  if (found == modes.end() || found->standing.kind == StandKind::unknown) return;
  const FigureStand& stand = found->standing;
  const auto least =
      std::min_element(stand.edges.begin(), stand.edges.end(),
                       [](const TipEdge& a, const TipEdge& b) { return a.tipRad < b.tipRad; });
  for (auto edge = stand.edges.begin(); edge != stand.edges.end(); ++edge) {
    if ((edge->to_W - edge->from_W).norm() < 1e-6) continue;
    guides.axes.push_back(lineBetween(edge->from_W, edge->to_W, edge == least));
  }
  const Vector3d& centre_W = stand.mass.centre_W;
  const Vector3d foot_W = centre_W - stand.heightMm * scene.up_W;
  if (stand.heightMm > 0) guides.axes.push_back(lineBetween(foot_W, centre_W, false));
  guides.zones.push_back({foot_W, scene.up_W, kRingMm, 0});
}

void PrintView::refresh() {
  if (!guides_) return;
  if (shownOf_ != board_.known()) shown_.reset();
  const ScenePtr& scene = session_.scene();
  const bool shown = shown_ && panel_.isVisible() && scene && board_.known() &&
                     session_.stand().standing().values.size() == scene->assembly().joints().size();
  if (!shown && !isGuided_) return;
  isGuided_ = shown;
  guides_->preview(shown ? std::optional(guidesOf(*shown_)) : std::nullopt);
}

}  // namespace swingroom
