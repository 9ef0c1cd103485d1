#include "app/models/print/stands_table.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <cmath>

#include "app/models/print/print_standing.h"
#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct StandText {
  Q_DECLARE_TR_FUNCTIONS(StandText)
};

QString standFact(const FigureStand& stand) {
  switch (stand.kind) {
    case StandKind::stands:
      return StandText::tr("tips at %1°")
          .arg(qt(words::fixed(degFromRad(stand.leastTipRad), 1)));
    case StandKind::falls:
    case StandKind::onEdge:
    case StandKind::onPoint:
      return StandText::tr("falls over");
    case StandKind::unknown:
      return StandText::tr("not judged");
  }
  return {};
}

QString standTold(const FigureStand& stand) {
  if (stand.kind == StandKind::unknown) return {};
  if (stand.kind == StandKind::onEdge)
    return StandText::tr("It touches the floor in one line only.");
  if (stand.kind == StandKind::onPoint)
    return StandText::tr("It touches the floor in one point only.");
  QStringList lines{
      (stand.marginMm >= 0 ? StandText::tr("Its weight is %1 inside of what it stands on, plus or minus %2")
                           : StandText::tr("Its weight is %1 outside of what it stands on, plus or minus %2"))
          .arg(qt(words::millimetres(std::abs(stand.marginMm))),
               qt(words::millimetres(stand.marginOffMm))),
      StandText::tr("%1 over the floor").arg(qt(words::millimetres(stand.heightMm)))};
  if (stand.leastTipRad >= 0)
    lines += StandText::tr("Tipped by %1° it falls %2", "angle, way")
                 .arg(qt(words::fixed(degFromRad(stand.leastTipRad), 1)), qt(wayWord(stand.falls_W)));
  else
    lines += StandText::tr("It falls %1", "way").arg(qt(wayWord(stand.falls_W)));
  if (stand.mass.unknown > 0)
    lines += StandText::tr("Without %n part(s) whose mass is not known", nullptr,
                                 static_cast<int>(stand.mass.unknown));
  return lines.join(QLatin1Char('\n'));
}

}  // namespace

PrintTable standsTable(const PrintKnown& known) {
  PrintTable table{PrintSection::stand, StandText::tr("Stands"), {}, printCaution(), {}};
  for (const ModeWeight& mode : known.result.weight.modes) {
    PrintTableRow row;
    row.name = qt(known.scene->modeName(mode.mode));
    row.mode = mode.mode;
    row.fact = standFact(mode.standing);
    row.told = standTold(mode.standing);
    table.rows.push_back(std::move(row));
  }
  table.summary = StandText::tr("%n mode(s)", nullptr, static_cast<int>(table.rows.size()));
  return table;
}

}  // namespace swingroom
