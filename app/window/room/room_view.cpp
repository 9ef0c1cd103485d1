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
  connect(&panel, &RoomPanel::placeWanted, this, [this](std::size_t index) {
    if (!map_ || index >= map_->places.size() || !map_->places[index].stop) return;
    const RoomPlace& place = map_->places[index];
    const auto& [a, b, c] = place.corners_P;
    showWhere(place.stop->part, place.stop->way, place.stop->instant, (a + b + c) / 3);
  });
  connect(&view.paintTool(), &PaintTool::hovered, this, &RoomView::hover);
  connect(&view.paintTool(), &PaintTool::clicked, this, &RoomView::click);
}

void RoomView::showTheme() {
  if (isShown_) refresh();
}

void RoomView::setAside(bool aside) {
  if (std::exchange(isAside_, aside) != aside) refresh();
}

void RoomView::refresh() {
  const bool shown = panel_.isVisible() && panel_.showsMap() && !isAside_;
  if (!shown) {
    if (!std::exchange(isShown_, false)) return;
    legend_->clear();
    view_.paintTool().setTakesClicks(false);
    pickPoint(false);
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

void RoomView::click(const PaintPick& pick) {
  if (!isShown_) return;
  if (!picksPoint_) {
    if (pick.surface == surface_) standAt(pick.piece);
    return;
  }
  pickPoint(false);
  const auto X_WPs = posesOf(session_.scene()->assembly(), session_.stand().standing());
  Q_EMIT pointPicked(X_WPs.at(pick.part.index).inverse() * pick.p_W);
}

void RoomView::pickPoint(bool wanted) {
  if (std::exchange(picksPoint_, wanted && isShown_) == (wanted && isShown_)) return;
  picksPoint_ ? view_.setCursor(Qt::CrossCursor) : view_.unsetCursor();
}

void RoomView::stand(PartId other, std::size_t way, double instant) {
  Stand& stand = session_.stand();
  stand.setRunning(false);
  stand.showWay(way);
  stand.moveTo(instant);
  session_.choice().choosePair(*board_.partNow(), other);
}

void RoomView::standAt(std::size_t index) {
  if (!map_ || board_.isOld() || index >= map_->places.size()) return;
  const auto& stop = map_->places[index].stop;
  if (stop) stand(stop->part, stop->way, stop->instant);
}

void RoomView::showWhere(PartId other, std::size_t way, double instant, const Vector3d& p_P) {
  constexpr double kCloseUpMm = 22;  // A joint's size, not a whole figure's.
  const auto part = board_.partNow();
  if (board_.isOld() || !part) return;
  stand(other, way, instant);
  const auto X_WPs = posesOf(session_.scene()->assembly(), session_.stand().standing());
  view_.bring(X_WPs.at(part->index) * p_P, kCloseUpMm);
}

}  // namespace swingroom
