#include "app/models/print/weight_tables.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <cmath>

#include "app/models/print/print_standing.h"
#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct WeightTableText {
  Q_DECLARE_TR_FUNCTIONS(WeightTableText)
};

QString grams(double g) {
  return WeightTableText::tr("%1 g").arg(qt(words::fixed(g, g < 10 ? 2 : 1)));
}

/// The worse, the larger.
int worseOf(HoldKind kind) {
  switch (kind) {
    case HoldKind::droops:
      return 5;
    case HoldKind::mayDroop:
      return 4;
    case HoldKind::unknown:
      return 3;
    case HoldKind::friction:
      return 2;
    case HoldKind::level:
      return 0;
    default:
      return 1;
  }
}

QString holdWord(HoldKind kind) {
  switch (kind) {
    case HoldKind::level:
      return WeightTableText::tr("level");
    case HoldKind::floor:
      return WeightTableText::tr("floor");
    case HoldKind::stop:
      return WeightTableText::tr("stop");
    case HoldKind::click:
      return WeightTableText::tr("click");
    case HoldKind::grip:
      return WeightTableText::tr("grip");
    case HoldKind::friction:
      return WeightTableText::tr("its fit");
    case HoldKind::mayDroop:
      return WeightTableText::tr("may droop");
    case HoldKind::droops:
      return WeightTableText::tr("droops");
    case HoldKind::unknown:
      return WeightTableText::tr("not judged");
  }
  return {};
}

QString holdFigure(double value) {
  return std::isfinite(value) ? qt(words::fixed(value, value < 10 ? 2 : 1))
                              : WeightTableText::tr("not known");
}

QString holdLine(const PrintKnown& known, const ModeWeight& mode, const JointHold& hold) {
  const QString name = qt(known.scene->modeName(mode.mode));
  const bool slides = known.scene->assembly().joint(hold.joint).type == JointType::slide;
  const QString unit = slides ? QStringLiteral("N") : QStringLiteral("N mm");
  QString line = WeightTableText::tr("In %1: %2, load %3 %4", "mode, what holds, figure, unit")
                     .arg(name, holdWord(hold.kind), holdFigure(hold.load), unit);
  const bool byFit = hold.kind == HoldKind::friction || hold.kind == HoldKind::droops ||
                     hold.kind == HoldKind::mayDroop;
  if (byFit)
    line += WeightTableText::tr("; its fit holds %1 to %2 %3")
                .arg(holdFigure(hold.holdsLow), holdFigure(hold.holdsHigh), unit);
  return line;
}

QString standFact(const FigureStand& stand) {
  switch (stand.kind) {
    case StandKind::stands:
      return WeightTableText::tr("tips at %1°")
          .arg(qt(words::fixed(degFromRad(stand.leastTipRad), 1)));
    case StandKind::falls:
    case StandKind::onEdge:
    case StandKind::onPoint:
      return WeightTableText::tr("falls over");
    case StandKind::unknown:
      return WeightTableText::tr("not judged");
  }
  return {};
}

QString standTold(const FigureStand& stand) {
  if (stand.kind == StandKind::unknown) return {};
  if (stand.kind == StandKind::onEdge)
    return WeightTableText::tr("It touches the floor in one line only.");
  if (stand.kind == StandKind::onPoint)
    return WeightTableText::tr("It touches the floor in one point only.");
  QStringList lines{
      (stand.marginMm >= 0 ? WeightTableText::tr("Its weight is %1 inside of what it stands on")
                           : WeightTableText::tr("Its weight is %1 outside of what it stands on"))
          .arg(qt(words::millimetres(std::abs(stand.marginMm)))),
      WeightTableText::tr("%1 over the floor").arg(qt(words::millimetres(stand.heightMm)))};
  if (stand.mass.unknown > 0)
    lines += WeightTableText::tr("Without %n part(s) whose mass is not known", nullptr,
                                 static_cast<int>(stand.mass.unknown));
  return lines.join(QLatin1Char('\n'));
}

}  // namespace

PrintTable holdTable(const PrintKnown& known) {
  PrintTable table{PrintSection::hold, WeightTableText::tr("Hold"), {}, printCaution(), {}};
  const Assembly& assembly = known.scene->assembly();
  for (std::size_t j = 0; j < assembly.joints().size(); ++j) {
    PrintTableRow row;
    QStringList told;
    const JointHold* worst = nullptr;
    for (const ModeWeight& mode : known.result.weight.modes) {
      for (const JointHold& hold : mode.joints) {
        if (hold.joint != JointId{j}) continue;
        told += holdLine(known, mode, hold);
        if (worst && worseOf(hold.kind) <= worseOf(worst->kind)) continue;
        worst = &hold;
        row.mode = mode.mode;
      }
    }
    if (!worst) continue;
    row.name = qt(assembly.joint(JointId{j}).name);
    row.fact = holdWord(worst->kind);
    row.told = told.join(QLatin1Char('\n'));
    row.parts = {worst->child, worst->parent};
    table.rows.push_back(std::move(row));
  }
  table.summary = WeightTableText::tr("%n joint(s)", nullptr, static_cast<int>(table.rows.size()));
  return table;
}

PrintTable standTable(const PrintKnown& known) {
  PrintTable table{PrintSection::stand, WeightTableText::tr("Stand"), {}, printCaution(), {}};
  for (const ModeWeight& mode : known.result.weight.modes) {
    PrintTableRow row;
    row.name = qt(known.scene->modeName(mode.mode));
    row.mode = mode.mode;
    row.fact = standFact(mode.standing);
    row.told = standTold(mode.standing);
    table.rows.push_back(std::move(row));
  }
  table.summary = WeightTableText::tr("%n mode(s)", nullptr, static_cast<int>(table.rows.size()));
  return table;
}

PrintTable weightTable(const PrintKnown& known) {
  PrintTable table{PrintSection::set, WeightTableText::tr("Weight"), {}, {}, {}};
  const WeightResult& weight = known.result.weight;
  for (std::size_t p = 0; p < weight.masses.size(); ++p) {
    const PartMass& mass = weight.masses[p];
    PrintTableRow row;
    row.name = qt(known.scene->assembly().part(PartId{p}).name);
    row.parts = {PartId{p}};
    row.fact = mass.known() ? grams(mass.massG) : WeightTableText::tr("not known");
    if (mass.known())
      row.told = WeightTableText::tr(
                     "%1 to %2, as modelled; density, infill and skin are "
                     "indicative\nVolume %3 cm³")
                     .arg(grams(mass.lowerG), grams(mass.upperG),
                          qt(words::fixed(mass.volumeMm3 / 1000, 2)));
    if (mass.shellsOverlap)
      row.told += WeightTableText::tr("\nShells of its mesh overlap: its mass is not proven");
    table.rows.push_back(std::move(row));
  }
  const bool any = std::any_of(weight.masses.begin(), weight.masses.end(),
                               [](const PartMass& mass) { return mass.known(); });
  if (!any) table.rows.clear();
  table.summary = any ? grams(weight.whole.massG) : QString();
  return table;
}

}  // namespace swingroom
