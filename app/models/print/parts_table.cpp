#include "app/models/print/parts_table.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>

#include "app/models/print/print_standing.h"
#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct PartsTableText {
  Q_DECLARE_TR_FUNCTIONS(PartsTableText)
};

QString grams(double g) {
  return PartsTableText::tr("%1 g").arg(qt(words::fixed(g, g < 10 ? 2 : 1)));
}

/// "3.90 g to 4.20 g, indicative": masses hang on densities.
QString massTold(const PieceMass& mass) {
  return PartsTableText::tr("%1 to %2, indicative").arg(grams(mass.lowerG), grams(mass.upperG));
}

QString boxWords(const Vector3d& sizeMm) {
  const auto side = [&](int axis) { return qt(words::fixed(sizeMm[axis], 2)); };
  return PartsTableText::tr("%1 × %2 × %3 mm").arg(side(0), side(1), side(2));
}

QString squareMm(double mm2) {
  return PartsTableText::tr("%1 mm²").arg(qt(words::fixed(mm2, 0)));
}

/// Which of its own sides is down: "its -z side".
QString sideDown(const BedStand& stand) {
  const Vector3d down_P = stand.R_BP.transpose() * -Vector3d::UnitZ();
  int axis = 0;
  down_P.cwiseAbs().maxCoeff(&axis);
  constexpr double kStraight = 0.9998;  // Within one degree.
  const char name[] = {down_P[axis] < 0 ? '-' : '+', "xyz"[axis], '\0'};
  const QString side = QLatin1String(name);
  return std::abs(down_P[axis]) >= kStraight
             ? PartsTableText::tr("on its %1 side").arg(side)
             : PartsTableText::tr("tilted, nearest to its %1 side").arg(side);
}

QString fitsWords(const BedFit& fit) {
  switch (fit.verdict) {
    case BedVerdict::fits:
      return PartsTableText::tr("Fits the bed");
    case BedVerdict::doesNotFit:
      return PartsTableText::tr("Does not fit the bed, however it is turned: %1 to %2 mm too large")
          .arg(qt(words::fixed(fit.overLowerMm, 2)), qt(words::fixed(fit.overUpperMm, 2)));
    case BedVerdict::notTold:
      return PartsTableText::tr("Whether it fits the bed was not found out");
  }
  return {};
}

void addStand(const SetItem& item, QStringList& lines) {
  if (item.stands.empty()) return;
  const BedStand& stand = item.stands.front();
  lines += PartsTableText::tr("Stands best %1, %2 of it on the bed")
               .arg(sideDown(stand), squareMm(stand.contactMm2));
  lines += stand.needsSupport()
               ? PartsTableText::tr("Support under %1").arg(squareMm(stand.supportMm2))
               : PartsTableText::tr("Needs no support");
}

QString wallTold(const PrintKnown& known, PartId part) {
  const auto& maps = known.result.walls.maps;
  if (part.index >= maps.size() || !maps[part.index]) return {};
  const WallMap& map = *maps[part.index];
  if (!map.judged) return PartsTableText::tr("Walls not judged: %1").arg(qt(map.whyNot));
  if (!map.leastLowerMm || !map.leastUpperMm)
    return PartsTableText::tr("No wall under %1").arg(qt(words::millimetres(map.mostMm)));
  return PartsTableText::tr("Thinnest wall %1, edges that taper to nothing left out")
      .arg(printFigure(*map.leastLowerMm, *map.leastUpperMm, std::nullopt, "mm"));
}

QString itemTold(const PrintKnown& known, const SetItem& item) {
  QStringList lines;
  if (item.hasMesh) lines += PartsTableText::tr("%1 as its file has it").arg(boxWords(item.sizeMm));
  if (item.volumeMm3)
    lines += PartsTableText::tr("Volume %1 cm³").arg(qt(words::fixed(*item.volumeMm3 / 1000, 2)));
  lines += item.mass ? PartsTableText::tr("Mass of a piece %1").arg(massTold(*item.mass))
                     : PartsTableText::tr("Mass not known");
  if (item.mirrorOf)
    lines += PartsTableText::tr("Mirror image of %1")
                 .arg(qt(known.result.set.items.at(*item.mirrorOf).name));
  if (!item.printed) {
    lines += PartsTableText::tr("Bought, so not judged");
    return lines.join(QLatin1Char('\n'));
  }
  lines += QStringLiteral("%1; %2").arg(qt(item.process), qt(item.material));
  lines += fitsWords(item.fit);
  addStand(item, lines);
  lines += wallTold(known, item.parts.front());
  lines.removeAll(QString());
  return lines.join(QLatin1Char('\n'));
}

/// Where its wall is thinnest.
std::optional<Vector3d> thinnestOf(const PrintKnown& known, PartId part) {
  const auto& maps = known.result.walls.maps;
  if (part.index >= maps.size() || !maps[part.index] || maps[part.index]->spots.empty())
    return std::nullopt;
  return maps[part.index]->spots.front().at_P;
}

}  // namespace

PrintTable partsTable(const PrintKnown& known) {
  PrintTable table{PrintSection::set, PartsTableText::tr("Parts"), {}, {}, {}};
  const PrintSet& set = known.result.set;
  for (const SetItem& item : set.items) {
    PrintTableRow row;
    const QString name = qt(item.name);
    row.name = item.count > 1 ? PartsTableText::tr("%1 × %2", "pieces, part")
                                    .arg(QString::number(item.count), name)
                              : name;
    row.fact = item.mass ? grams(item.mass->massG) : PartsTableText::tr("not known");
    if (item.printed && item.fit.verdict == BedVerdict::doesNotFit)
      row.fact = PartsTableText::tr("too large");
    row.told = itemTold(known, item);
    row.parts = {item.parts.front()};
    row.at_P = thinnestOf(known, item.parts.front());
    table.rows.push_back(std::move(row));
  }
  const QString pieces =
      PartsTableText::tr("%n piece(s)", nullptr, static_cast<int>(set.totals.pieces));
  table.summary = set.totals.massUnknown == 0 && set.totals.mass.massG > 0
                      ? QStringLiteral("%1, %2").arg(pieces, grams(set.totals.mass.massG))
                      : pieces;
  return table;
}

}  // namespace swingroom
