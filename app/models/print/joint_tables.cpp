#include "app/models/print/joint_tables.h"

#include <QCoreApplication>
#include <QStringList>

#include "app/models/print/hold_words.h"
#include "app/models/print/print_standing.h"
#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct JointTableText {
  Q_DECLARE_TR_FUNCTIONS(JointTableText)
};

QString tableMm(double mm, int decimals = 2) {
  return qt(words::millimetres(mm, decimals));
}

QString partName(const PrintKnown& known, PartId part) {
  return qt(known.scene->assembly().part(part).name);
}

QString spanMm(const FitSpan& span) {
  return printFigure(span.leastMm, span.mostMm, std::nullopt, "mm");
}

QString fitClassWord(FitClass kind) {
  switch (kind) {
    case FitClass::clearance:
      return JointTableText::tr("clearance");
    case FitClass::transition:
      return JointTableText::tr("transition");
    case FitClass::interference:
      return JointTableText::tr("interference");
  }
  return {};
}

QString dutyWord(FitDuty duty) {
  switch (duty) {
    case FitDuty::turns:
      return JointTableText::tr("turns");
    case FitDuty::pressed:
      return JointTableText::tr("pressed");
    case FitDuty::slides:
      return JointTableText::tr("slides");
    case FitDuty::swivels:
      return JointTableText::tr("swivels");
  }
  return {};
}

QString fitTold(const PrintKnown& known, const FitFigure& fit) {
  QStringList lines{JointTableText::tr("%1 in %2")
                        .arg(partName(known, fit.pinPart), partName(known, fit.holePart))};
  if (fit.shape == FitShape::guide) {
    lines += JointTableText::tr("Clearance as modelled, both sides together: %1")
                 .arg(spanMm(fit.clearanceMm));
  } else {
    lines += JointTableText::tr("%1 in %2, diameters").arg(tableMm(fit.pinMm), tableMm(fit.holeMm));
    lines += JointTableText::tr("Clearance as modelled, on the diameter: %1 (%2)")
                 .arg(spanMm(fit.clearanceMm), fitClassWord(fit.modelledClass));
  }
  lines += JointTableText::tr("As printed: %1, plus or minus %2 (%3)")
               .arg(spanMm(fit.printedMm), tableMm(fit.scatterMm), fitClassWord(fit.printedClass));
  if (fit.isoReference)
    lines += JointTableText::tr("As %1 (%2) of machined parts; prints do not reach these grades")
                 .arg(qt(fit.isoReference->fit), qt(fit.isoReference->name));
  return lines.join(QLatin1Char('\n'));
}

std::vector<PartId> partsOf(const PrintKnown& known, JointId id) {
  const Joint& joint = known.scene->assembly().joint(id);
  if (!joint.parent) return {joint.child};
  return {joint.child, *joint.parent};
}

/// Of a fit that stands at home, in the frame of its pin; none: in a mode.
std::optional<Vector3d> fitPlace(const PrintKnown& known, const FitFigure& fit) {
  if (fit.mode) return std::nullopt;
  const Assembly& assembly = known.scene->assembly();
  return assembly.part(fit.pinPart).X_WP_home.inverse() * fit.at_W;
}

/// "0.05 mm across, 1.2° of tilt, 0.20 mm along".
QString playTold(const PlayFigures& play, bool ball) {
  QStringList words{JointTableText::tr("%1 across").arg(tableMm(play.radialMm, 3))};
  if (!ball)
    words += JointTableText::tr("%1° of tilt").arg(qt(words::fixed(degFromRad(play.tiltRad), 1)));
  words += play.axialMm ? JointTableText::tr("%1 along").arg(tableMm(*play.axialMm))
                        : JointTableText::tr("nothing was found that stops it along");
  return words.join(QStringLiteral(", "));
}

/// One a line; each way from the middle.
void addPlay(const PrintKnown& known, JointId joint, QStringList& lines) {
  const JointPlay& play = known.result.plays.at(joint.index);
  const bool ball = known.scene->assembly().joint(joint).type == JointType::ball;
  switch (play.source) {
    case PlaySource::unknown:
      lines += JointTableText::tr("Play: not known");
      return;
    case PlaySource::written:
      lines += JointTableText::tr("Play, as the file says: %1").arg(playTold(play.asPrinted, ball));
      return;
    case PlaySource::fit:
      lines += JointTableText::tr("Play as modelled: %1").arg(playTold(play.asModelled, ball));
      lines += JointTableText::tr("Play as printed: %1").arg(playTold(play.asPrinted, ball));
      return;
  }
}

QString pairInMode(const PrintKnown& known, PartId a, PartId b, ModeId mode) {
  return JointTableText::tr("%1 and %2, in %3")
      .arg(partName(known, a), partName(known, b), qt(known.scene->modeName(mode)));
}

}  // namespace

PrintTable jointsTable(const PrintKnown& known) {
  PrintTable table{PrintSection::fits, JointTableText::tr("Joints"), {}, printCaution(), {}};
  for (const FitFigure& fit : known.result.fits.fits) {
    PrintTableRow row;
    row.name = qt(known.scene->assembly().joint(fit.joint).name);
    QStringList told;
    if (fit.shape == FitShape::none) {
      row.fact = JointTableText::tr("fit not judged");
      told += qt(fit.reason);
      row.parts = partsOf(known, fit.joint);
    } else {
      row.fact = JointTableText::tr("%1, %2", "what the fit does, its clearance")
                     .arg(dutyWord(fit.duty), tableMm(fit.clearanceMm.leastMm));
      told += fitTold(known, fit);
      row.parts = {fit.pinPart, fit.holePart};
      row.mode = fit.mode;
      row.at_P = fitPlace(known, fit);
    }
    addPlay(known, fit.joint, told);
    addHold(known, fit.joint, row, told);
    row.told = told.join(QLatin1Char('\n'));
    table.rows.push_back(std::move(row));
  }
  table.summary = JointTableText::tr("%n joint(s)", nullptr, static_cast<int>(table.rows.size()));
  return table;
}

PrintTable gripsTable(const PrintKnown& known) {
  PrintTable table{PrintSection::grips, JointTableText::tr("Grips"), {}, {}, {}};
  for (const GripFigure& grip : known.result.grips.grips) {
    PrintTableRow row;
    row.name = pairInMode(known, grip.a, grip.b, grip.mode);
    row.parts = {grip.a, grip.b};
    row.mode = grip.mode;
    if (!grip.judged) {
      row.fact = JointTableText::tr("not judged");
    } else if (grip.overlapUpperMm > 0) {
      row.at_P = grip.at_A;
      row.fact = printFigure(grip.overlapLowerMm, grip.overlapUpperMm, std::nullopt, "mm");
      row.told = JointTableText::tr(
                     "Overlap as modelled, a side: %1\nHolds over %2 by %3\nAs "
                     "printed %4, plus or minus %5")
                     .arg(row.fact, tableMm(grip.lengthMm), tableMm(grip.widthMm),
                          tableMm(grip.printedMm), tableMm(grip.scatterMm));
    } else {
      row.fact = grip.gapMm ? JointTableText::tr("%1 apart").arg(tableMm(*grip.gapMm))
                            : JointTableText::tr("nothing there");
    }
    table.rows.push_back(std::move(row));
  }
  table.summary = JointTableText::tr("%n grip(s)", nullptr, static_cast<int>(table.rows.size()));
  return table;
}

PrintTable seamsTable(const PrintKnown& known) {
  PrintTable table{PrintSection::seams, JointTableText::tr("Seams"), {}, {}, {}};
  for (const SeamFigure& seam : known.result.seams.seams) {
    PrintTableRow row;
    row.name = pairInMode(known, seam.a, seam.b, seam.mode);
    row.parts = {seam.a, seam.b};
    row.mode = seam.mode;
    if (seam.lines.empty()) {
      row.fact = JointTableText::tr("no rims");
      row.told = JointTableText::tr("No rims face each other within 3 mm.");
    } else {
      const SeamLine& line = seam.lines.front();
      row.fact = printFigure(line.gapLowerMm, line.gapUpperMm, std::nullopt, "mm");
      row.told = JointTableText::tr(
                     "Largest gap as modelled: %1, over %2\nStep: %3 at most, %4 in "
                     "the mean")
                     .arg(row.fact, tableMm(line.lengthMm), tableMm(line.largestStepMm),
                          tableMm(line.meanStepMm));
    }
    table.rows.push_back(std::move(row));
  }
  table.summary = JointTableText::tr("%n seam(s)", nullptr, static_cast<int>(table.rows.size()));
  return table;
}

}  // namespace swingroom
