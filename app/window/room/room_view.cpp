#include "app/window/room/room_view.h"

#include "app/window/paint/paint_scales.h"

namespace swingroom {
namespace {

PieceState stateOf(RoomState state) {
  switch (state) {
    case RoomState::none:
      return PieceState::broken;
    case RoomState::zone:
    case RoomState::contact:
      return PieceState::leftOut;
    default:
      return PieceState::figured;
  }
}

}  // namespace

std::shared_ptr<const PaintedSurface> paintedRoom(const RoomMap& map) {
  auto surface = std::make_shared<PaintedSurface>();
  surface->blend = PaintBlend::lowest;  // Nowhere more than the place has.
  surface->pieces.reserve(map.places.size());
  for (const RoomPlace& place : map.places) {
    surface->pieces.push_back(
        {place.corners_P, place.triangle, static_cast<float>(place.lowerMm), stateOf(place.state)});
  }
  return surface;
}

RoomView::RoomView(Session& session, RoomBoard& board, RoomPanel& panel, Viewport& view,
                   QObject* parent)
    : QObject(parent),
      session_(session),
      board_(board),
      panel_(panel),
      view_(view),
      legend_(new PaintLegend(view)) {
  connect(&panel, &RoomPanel::shownChanged, this, &RoomView::refresh);
  connect(&panel, &RoomPanel::placeWanted, this, &RoomView::standAt);
  connect(&view.paintTool(), &PaintTool::hovered, this, &RoomView::hover);
  connect(&view.paintTool(), &PaintTool::clicked, this, [this](const PaintPick& pick) {
    if (isShown_ && pick.surface == surface_) standAt(pick.piece);
  });
}

void RoomView::showTheme() {
  if (isShown_) refresh();
}

void RoomView::refresh() {
  const bool shown = panel_.isVisible() && panel_.showsMap();
  if (!shown) {
    if (!std::exchange(isShown_, false)) return;
    legend_->clear();
    view_.paintTool().setTakesClicks(false);
    return view_.setPaint(ViewPaint());
  }
  isShown_ = true;
  if (map_ != board_.map()) {
    map_ = board_.map();
    surface_ = paintedRoom(*map_);
  }
  const PaintScale scale = roomScale(theme(), map_->capMm);
  legend_->setScale(scale, {tr("room, mm"), tr("or more"), {}, tr("none"), tr("left out")});
  view_.paintTool().setTakesClicks(!board_.isOld());
  view_.setPaint({{{*board_.partNow(), surface_}}, scale});
}

void RoomView::hover(const std::optional<PaintPick>& pick) {
  if (!isShown_) return;
  const bool known = pick && pick->surface == surface_;
  if (!known) return legend_->setMark(std::nullopt);
  const RoomPlace& place = map_->places[pick->piece];
  const bool figured = stateOf(place.state) == PieceState::figured;
  legend_->setMark(figured ? std::optional(place.lowerMm) : std::nullopt);
  view_.paintTool().setWords(roomAtPointer(*board_.scene(), *map_, pick->piece));
}

void RoomView::standAt(std::size_t index) {
  if (!map_ || board_.isOld() || index >= map_->places.size()) return;
  const RoomPlace& place = map_->places[index];
  if (!place.stop) return;
  Stand& stand = session_.stand();
  stand.setRunning(false);
  stand.showWay(place.stop->way);
  stand.moveTo(place.stop->instant);
  session_.choice().choosePair(*board_.partNow(), place.stop->part);
}

}  // namespace swingroom
