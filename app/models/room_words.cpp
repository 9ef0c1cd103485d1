#include "app/models/room_words.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct RoomText {
  Q_DECLARE_TR_FUNCTIONS(RoomText)
};

bool isLeftOut(const RoomPlace& place) {
  return place.state == RoomState::zone || place.state == RoomState::contact;
}

double areaMm2(const RoomPlace& place) {
  const auto& [a, b, c] = place.corners_P;
  return 0.5 * (b - a).cross(c - a).norm();
}

}  // namespace

QString roomFigure(double lowerMm, int decimals) {
  const double scale = std::pow(10.0, decimals);
  constexpr double kRounding = 1e-6;  // What was a plain decimal stays that.
  return qt(words::millimetres(std::floor(lowerMm * scale + kRounding) / scale, decimals));
}

QString roomOf(const RoomPlace& place, double capMm) {
  if (isLeftOut(place)) return {};
  if (place.state == RoomState::none) return RoomText::tr("none");
  const QString figure = roomFigure(place.lowerMm);
  return place.lowerMm >= capMm ? RoomText::tr("%1 or more").arg(figure) : figure;
}

QString roomStop(const Scene& scene, const RoomPlace& place) {
  if (!place.stop || place.stop->way >= scene.ways.size()) return {};
  const Sequence& way = scene.ways[place.stop->way];
  const QString where = qt(words::whereInWay(scene.loaded.modes, way, place.stop->instant));
  const QString next =
      RoomText::tr("next to %1, %2").arg(qt(scene.assembly().part(place.stop->part).name), where);
  if (scene.ways.size() < 2 || words::standsStill(way)) return next;
  return RoomText::tr("%1 of %2").arg(next, qt(way.name));
}

QString roomAtPointer(const Scene& scene, const RoomMap& map, std::size_t index) {
  const RoomPlace& place = map.places.at(index);
  switch (place.state) {
    case RoomState::zone:
      return RoomText::tr("left out: in a joint zone");
    case RoomState::contact:
      return RoomText::tr("left out: may touch here by design");
    case RoomState::none: {
      const QString stop = roomStop(scene, place);
      return stop.isEmpty() ? RoomText::tr("no room") : RoomText::tr("no room\n%1").arg(stop);
    }
    default:
      break;
  }
  const QString room = RoomText::tr("room %1").arg(roomOf(place, map.capMm));
  const QString stop = roomStop(scene, place);
  return stop.isEmpty() ? room : QStringLiteral("%1\n%2").arg(room, stop);
}

std::optional<RoomSummary> summaryOf(const RoomMap& map) {
  RoomSummary summary;
  double all = 0, figured = 0, without = 0;
  const RoomPlace* least = nullptr;
  summary.lowerMm = summary.upperMm = map.capMm;
  for (std::size_t i = 0; i < map.places.size(); ++i) {
    const RoomPlace& place = map.places[i];
    const double area = areaMm2(place);
    all += area;
    if (isLeftOut(place)) continue;
    figured += area;
    const bool none = place.state == RoomState::none;
    without += none ? area : 0;
    summary.lowerMm = std::min(summary.lowerMm, none ? 0 : place.lowerMm);
    const double upper = none ? 0 : place.upperMm;
    summary.upperMm = std::min(summary.upperMm, upper);
    if (!place.stop) continue;
    const bool nearer = !least || upper < (least->state == RoomState::none ? 0 : least->upperMm);
    if (nearer) least = &place, summary.place = i;
  }
  if (!(figured > 0)) return std::nullopt;
  summary.shareWithout = without / figured;
  summary.shareLeftOut = 1 - figured / all;
  return summary;
}

QString fineness(double reachedMm, double wantedMm, bool goesOn) {
  const QString wanted = qt(words::shortest(wantedMm));
  if (!(reachedMm > 0)) return goesOn ? RoomText::tr("looking, to %1 mm").arg(wanted) : QString();
  const QString reached = qt(words::shortest(reachedMm));
  if (!goesOn) return RoomText::tr("known to %1 mm").arg(reached);
  return RoomText::tr("to %1 mm so far, going on to %2 mm").arg(reached, wanted);
}

}  // namespace swingroom
