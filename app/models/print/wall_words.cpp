#include "app/models/print/wall_words.h"

#include <QCoreApplication>
#include <cmath>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct WallText {
  Q_DECLARE_TR_FUNCTIONS(WallText)
};

}  // namespace

double wallMmOf(const WallMap& map, const WallPlace& place) {
  return place.lowerMm < map.provenMm ? place.lowerMm : place.upperMm;
}

QString wallAtPointer(const WallMap& map, std::size_t at, const PrintProcess& process) {
  const WallPlace& place = map.places.at(at);
  if (place.kind == WallKind::none) return WallText::tr("no wall: nothing near faces it");
  if (place.kind == WallKind::edge) return WallText::tr("an edge: it tapers to nothing");
  const double mm = wallMmOf(map, place);
  const QString figure = mm >= map.mostMm
                             ? WallText::tr("%1 or more").arg(qt(words::millimetres(map.mostMm)))
                             : qt(words::millimetres(std::floor(mm * 100 + 1e-6) / 100));
  const QString word = place.kind == WallKind::neck ? WallText::tr("neck %1").arg(figure)
                                                    : WallText::tr("wall %1").arg(figure);
  if (place.kind == WallKind::neck || place.spot == WallPlace::kNoSpot) return word;
  const bool free = map.spots.at(place.spot).free;
  const double needed = free ? process.leastFreeWallMm.value : process.leastWallMm.value;
  const QString held = free ? WallText::tr("held along one side at most")
                            : WallText::tr("held on two sides or more");
  return WallText::tr("%1, %2; the least that prints so is %3", "wall, how it is held, figure")
      .arg(word, held, qt(words::millimetres(needed)));
}

}  // namespace swingroom
