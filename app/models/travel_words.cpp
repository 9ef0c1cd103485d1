#include "app/models/travel_words.h"

#include <QCoreApplication>
#include <QStringList>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct TravelText {
  Q_DECLARE_TR_FUNCTIONS(TravelText)
};

QString nameOf(const Assembly& assembly, PartId part) {
  return qt(assembly.part(part).name);
}

}  // namespace

QString travelFigure(double number, bool isAngle) {
  return qt(isAngle ? words::fixed(degFromRad(number), 1) + "°" : words::millimetres(number));
}

QString stopWords(const Assembly& assembly, const TravelStop& stop) {
  const QString a = nameOf(assembly, stop.a), b = nameOf(assembly, stop.b);
  return stop.touches ? TravelText::tr("%1 touches %2").arg(a, b)
                      : TravelText::tr("%1 and %2 not proven apart").arg(a, b);
}

TravelWords travelWords(const Assembly& assembly, const FreeTravel& travel, bool isAngle) {
  TravelWords said;
  QStringList all;
  const auto tell = [&](const TravelWay& way, const QString& heading) {
    const QString figure = travelFigure(way.freeTo, isAngle);
    if (!way.stop) return all.append(heading.arg(figure, TravelText::tr("its range ends")));
    all.append(heading.arg(figure, stopWords(assembly, *way.stop)));
  };
  tell(travel.up, TravelText::tr("Up to %1: there %2."));
  tell(travel.down, TravelText::tr("Down to %1: there %2."));
  for (const auto& [a, b] : travel.meeting) {
    all.append(TravelText::tr("Not counted: %1 and %2, which meet now.")
                   .arg(nameOf(assembly, a), nameOf(assembly, b)));
  }
  said.tooltip = all.join(QLatin1Char('\n'));
  const auto& up = travel.up;
  const auto& down = travel.down;
  if (up.stop && down.stop) {
    said.line = TravelText::tr("free from %1 to %2")
                    .arg(travelFigure(down.freeTo, isAngle), travelFigure(up.freeTo, isAngle));
  } else if (up.stop || down.stop) {
    const TravelWay& way = up.stop ? up : down;
    said.line = TravelText::tr("free to %1, %2")
                    .arg(travelFigure(way.freeTo, isAngle), stopWords(assembly, *way.stop));
  }
  if (!travel.meeting.empty()) {
    // Nothing is free where parts meet already; what is told is of the others.
    const auto [a, b] = travel.meeting.front();
    const QString meet =
        TravelText::tr("%1 and %2 meet now").arg(nameOf(assembly, a), nameOf(assembly, b));
    said.line = said.line.isEmpty() ? meet : TravelText::tr("%1; else %2").arg(meet, said.line);
  }
  return said;
}

}  // namespace swingroom
