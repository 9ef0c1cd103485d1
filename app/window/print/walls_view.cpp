#include "app/window/print/walls_view.h"

#include <QPushButton>

#include "app/models/print/wall_words.h"
#include "app/window/paint/paint_scales.h"

namespace swingroom {

std::shared_ptr<const PaintedSurface> paintedWalls(const WallMap& map) {
  auto surface = std::make_shared<PaintedSurface>();
  surface->blend = PaintBlend::lowest;  // Nowhere thicker than the place is.
  surface->pieces.reserve(map.places.size());
  for (const WallPlace& place : map.places) {
    const bool wall = place.kind == WallKind::wall || place.kind == WallKind::neck;
    surface->pieces.push_back({place.corners_P, place.triangle,
                               static_cast<float>(wallMmOf(map, place)),
                               wall ? PieceState::figured : PieceState::leftOut});
  }
  return surface;
}

WallsView::WallsView(Session& session, PrintBoard& board, PrintPanel& panel, Viewport& view,
                     QObject* parent)
    : QObject(parent),
      session_(session),
      board_(board),
      panel_(panel),
      view_(view),
      legend_(new PaintLegend(view)) {
  connect(&panel, &PrintPanel::shownChanged, this, &WallsView::refresh);
  connect(&panel.wallsButton(), &QAbstractButton::toggled, this, &WallsView::refresh);
  connect(&board, &PrintBoard::changed, this, &WallsView::refresh);
  connect(&session.choice(), &Choice::changed, this, &WallsView::refresh);
  connect(&view.paintTool(), &PaintTool::hovered, this, &WallsView::hover);
}

/// In the scene of the board.
std::optional<PartId> WallsView::partWanted() const {
  if (!panel_.isVisible() || !board_.known() || board_.isOld()) return std::nullopt;
  if (const auto row = panel_.openRow()) {
    const PrintRow& told = panel_.model().row(*row);
    if (told.section == PrintSection::walls && !told.parts.empty()) return told.parts.front();
  }
  return panel_.wallsButton().isChecked() ? session_.choice().part() : std::nullopt;
}

void WallsView::refresh() {
  const auto part = partWanted();
  const auto& maps =
      part ? board_.known()->result.walls.maps : std::vector<std::shared_ptr<const WallMap>>();
  const bool has =
      part && part->index < maps.size() && maps[part->index] && maps[part->index]->judged;
  has ? show(*part) : hide();
}

void WallsView::hide() {
  if (!std::exchange(isShown_, false)) return;
  legend_->clear();
  view_.setPaint(ViewPaint());
  Q_EMIT shownChanged(false);
}

void WallsView::show(PartId part) {
  if (!std::exchange(isShown_, true)) Q_EMIT shownChanged(true);
  const auto& map = board_.known()->result.walls.maps[part.index];
  if (map_ != map) {
    map_ = map;
    surface_ = paintedWalls(*map);
  }
  process_ = board_.known()->asked.parts[part.index].process;
  const PaintScale scale =
      wallScale(theme(), process_.leastWallMm.value, process_.leastFreeWallMm.value, map->mostMm);
  legend_->setScale(scale, {tr("wall, mm"), tr("or more"), {}, {}, tr("no wall, or an edge")});
  view_.setPaint({{{part, surface_}}, scale});
}

void WallsView::hover(const std::optional<PaintPick>& pick) {
  if (!isShown_) return;
  if (!pick || pick->surface != surface_) return legend_->setMark(std::nullopt);
  const WallPlace& place = map_->places[pick->piece];
  const bool wall = place.kind == WallKind::wall || place.kind == WallKind::neck;
  legend_->setMark(wall ? std::optional(wallMmOf(*map_, place)) : std::nullopt);
  view_.paintTool().setWords(wallAtPointer(*map_, pick->piece, process_));
}

}  // namespace swingroom
