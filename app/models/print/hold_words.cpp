#include "app/models/print/hold_words.h"

#include <QCoreApplication>
#include <cmath>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct HoldText {
  Q_DECLARE_TR_FUNCTIONS(HoldText)
};

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
      return HoldText::tr("level");
    case HoldKind::floor:
      return HoldText::tr("floor");
    case HoldKind::stop:
      return HoldText::tr("stop");
    case HoldKind::click:
      return HoldText::tr("click");
    case HoldKind::grip:
      return HoldText::tr("grip");
    case HoldKind::friction:
      return HoldText::tr("its fit");
    case HoldKind::mayDroop:
      return HoldText::tr("may droop");
    case HoldKind::droops:
      return HoldText::tr("droops");
    case HoldKind::unknown:
      return HoldText::tr("not judged");
  }
  return {};
}

QString holdFigure(double value) {
  return std::isfinite(value) ? qt(words::fixed(value, value < 10 ? 2 : 1))
                              : HoldText::tr("not known");
}

QString holdLine(const PrintKnown& known, const ModeWeight& mode, const JointHold& hold) {
  const QString name = qt(known.scene->modeName(mode.mode));
  const bool slides = known.scene->assembly().joint(hold.joint).type == JointType::slide;
  const QString unit = slides ? HoldText::tr("N") : HoldText::tr("N·mm");
  QString line = HoldText::tr("In %1: %2, load %3 to %4 %5", "mode, what holds, figures, unit")
                     .arg(name, holdWord(hold.kind), holdFigure(hold.loadLower),
                          holdFigure(hold.loadUpper), unit);
  const bool byFit = hold.kind == HoldKind::friction || hold.kind == HoldKind::droops ||
                     hold.kind == HoldKind::mayDroop;
  if (byFit)
    line += HoldText::tr("; its fit holds %1 to %2 %3")
                .arg(holdFigure(hold.holdsLow), holdFigure(hold.holdsHigh), unit);
  return line;
}

}  // namespace

void addHold(const PrintKnown& known, JointId joint, PrintTableRow& row, QStringList& told) {
  HoldKind worst = HoldKind::level;
  for (const ModeWeight& mode : known.result.weight.modes) {
    for (const JointHold& hold : mode.joints) {
      if (hold.joint != joint) continue;
      told += holdLine(known, mode, hold);
      if (worseOf(hold.kind) <= worseOf(worst)) continue;
      worst = hold.kind;
      const bool seen = worst == HoldKind::droops || worst == HoldKind::mayDroop;
      if (seen) row.mode = mode.mode;
    }
  }
  if (worst == HoldKind::droops || worst == HoldKind::mayDroop)
    row.fact += QStringLiteral(", ") + holdWord(worst);
}

}  // namespace swingroom
