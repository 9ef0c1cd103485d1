#include "app/window/print/print_view.h"

#include "app/window/rig/rig_guides.h"
#include "app/window/view/view_bridge.h"

namespace swingroom {
namespace {

constexpr double kRingMm = 1.5;

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
  connect(&panel, &PrintPanel::shownChanged, this, &PrintView::refreshRing);
  connect(&session.stand(), &Stand::moved, this, &PrintView::refreshRing);
}

void PrintView::showRow(const PrintRow& row) {
  if (!session_.scene()) return;
  std::vector<PartId> parts;
  for (const PartId part : row.parts) {
    if (const auto now = board_.partNow(part)) parts.push_back(*now);
  }
  Stand& stand = session_.stand();
  stand.setRunning(false);
  const bool sameWays = !board_.isOld();
  if (row.onWay && sameWays && parts.size() == 2)
    return session_.goTo(parts[0], parts[1], row.onWay->way, row.onWay->instant);
  session_.choice().chooseParts(parts);
  const auto mode = row.mode ? board_.modeNow(*row.mode) : std::nullopt;
  if (mode) stand.standIn(*mode);
  if (!bridge_) return;
  if (row.at_P && !parts.empty()) return bringPlace(row, parts.front());
  bridge_->bringChosen();
}

void PrintView::bringPlace(const PrintRow& row, PartId part) {
  const auto X_WPs = posesOf(session_.scene()->assembly(), session_.stand().standing());
  const Vector3d place_W = X_WPs.at(part.index) * *row.at_P;
  bridge_->bringPlace({place_W, place_W}, std::nullopt);
  refreshRing();
}

/// Where the open row's place is, as everything stands.
void PrintView::refreshRing() {
  if (!guides_) return;
  const ScenePtr& scene = session_.scene();
  const auto row = panel_.isVisible() ? panel_.openRow() : std::nullopt;
  std::optional<ViewGuides> guides;
  if (row && scene && session_.stand().standing().values.size() == scene->assembly().joints().size()) {
    const PrintRow& told = panel_.model().row(*row);
    const auto part = told.parts.empty() ? std::nullopt : board_.partNow(told.parts.front());
    if (told.at_P && part) {
      const auto X_WPs = posesOf(scene->assembly(), session_.stand().standing());
      guides.emplace();
      guides->zones.push_back({X_WPs.at(part->index) * *told.at_P, scene->up_W, kRingMm, 0});
    }
  }
  if (!guides && !isRinged_) return;
  isRinged_ = guides.has_value();
  guides_->preview(guides);
}

}  // namespace swingroom
