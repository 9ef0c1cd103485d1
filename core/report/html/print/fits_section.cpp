#include <algorithm>
#include <cmath>

#include "core/print/joints/iso286.h"
#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

std::string spanText(const FitSpan& span) {
  return range(roundedDown(span.leastMm), roundedUp(span.mostMm), 3);
}

std::string classText(const FitFigure& fit) {
  const std::string modelled = wordFor(fit.modelledClass), printed = wordFor(fit.printedClass);
  std::string text = modelled == printed ? modelled : modelled + ", printed " + printed;
  if (fit.isoReference) {
    text += "<span class=\"q\">machined: " + escaped(fit.isoReference->fit) + ", " +
            escaped(fit.isoReference->name) + "</span>";
  }
  return text;
}

std::string diameterCell(const FitFigure& fit, double mm) {
  return figureCell(fit.shape == FitShape::guide ? "" : figure(rounded(mm), 3));
}

std::string fitRow(const PrintSubject& subject, const FitFigure& fit) {
  return "<tr>" + rowHead(jointName(subject, fit.joint)) +
         textCell(std::string(wordFor(fit.duty)) + "<span class=\"q\">" + wordFor(fit.shape) + ", " +
                  partPair(subject, fit.pinPart, fit.holePart) + "</span>") +
         diameterCell(fit, fit.pinMm) + diameterCell(fit, fit.holeMm) +
         figureCell(spanText(fit.clearanceMm)) +
         figureCell(spanText(fit.printedMm) + "<span class=\"q\">±\u00a0" +
                    figure(rounded(fit.scatterMm), 3) + "</span>") +
         textCell(classText(fit)) + "</tr>";
}

std::string torqueText(const JointFriction& friction) {
  if (friction.model == FrictionModel::unknown) return "not known";
  const double low = roundedDown(friction.torqueLowNmm), high = roundedUp(friction.torqueHighNmm);
  if (friction.model == FrictionModel::none) return "none by itself";
  return loadRange(low, high) + "\u00a0N\u00a0mm<span class=\"q\">" +
         wordFor(friction.model) + "</span>";
}

std::string playRow(const PrintReport& print, const FitFigure& fit) {
  const JointPlay& play = print.result->plays.at(fit.joint.index);
  const JointFriction& friction = print.result->frictions.at(fit.joint.index);
  if (fit.duty == FitDuty::pressed || play.source == PlaySource::unknown) return "";
  return "<tr>" + rowHead(jointName(*print.subject, fit.joint)) +
         figureCell(figure(rounded(play.asPrinted.radialMm), 3)) +
         figureCell(figure(rounded(degFromRad(play.asPrinted.tiltRad)), 1)) +
         figureCell(play.asPrinted.axialMm ? figure(rounded(*play.asPrinted.axialMm), 3)
                                           : "<span class=\"q\">no stop found</span>") +
         figureCell(torqueText(friction)) + "</tr>";
}

std::string snapRow(const PrintSubject& subject, const FitFigure& fit) {
  std::string out;
  if (fit.lip && fit.lip->strain > 0) {
    out += "<tr>" + rowHead(jointName(subject, fit.joint)) +
           textCell(std::string("ball into its socket") + (fit.lip->slotted() ? ", slotted" : "")) +
           figureCell(figure(rounded(fit.pinMm), 3)) +
           figureCell(figure(rounded(fit.lip->openingMm), 3)) +
           figureCell(fixed(100 * fit.lip->strain, 1) + "\u00a0%") + "</tr>";
  }
  if (fit.head) {
    out += "<tr>" + rowHead(jointName(subject, fit.joint)) +
           textCell(std::string("head of a pin") + (fit.head->inSlot ? " through a slot" : "") +
                    (fit.head->slotted ? ", slotted" : "")) +
           figureCell(figure(rounded(fit.head->headMm), 3)) +
           figureCell(figure(rounded(fit.head->holeMm), 3)) +
           figureCell(fixed(100 * fit.head->strain, 1) + "\u00a0%") + "</tr>";
  }
  return out;
}

std::string notFoundText(const PrintSubject& subject, const FitsResult& fits) {
  std::string names;
  for (const FitFigure& fit : fits.fits) {
    if (fit.shape == FitShape::none)
      names += (names.empty() ? "" : ", ") + jointName(subject, fit.joint);
  }
  if (names.empty()) return "";
  return "<p class=\"lead\" style=\"margin-top:8px\">Nothing that fits was found, so that nothing "
         "is known of it: " +
         names + ".</p>";
}

std::string gripRow(const PrintSubject& subject, const GripFigure& grip) {
  const std::string overlap =
      !grip.judged ? "not judged"
                   : range(roundedDown(grip.overlapLowerMm), roundedUp(grip.overlapUpperMm), 3);
  return "<tr>" + rowHead(partPair(subject, grip.a, grip.b)) +
         textCell(modeName(subject, grip.mode)) + figureCell(overlap) +
         figureCell(figure(rounded(grip.printedMm), 3) + "<span class=\"q\">±\u00a0" +
                    figure(rounded(grip.scatterMm), 3) + "</span>") +
         figureCell(figure(rounded(grip.lengthMm), 2)) +
         figureCell(fixed(100 * grip.strain, 1) + "\u00a0%") +
         figureCell(fixed(100 * grip.printedStrain, 1) + "\u00a0%") +
         figureCell(figure(rounded(grip.forceN), 1)) + "</tr>";
}

}  // namespace

std::string fitsSection(const ReportPage& page) {
  const PrintReport& print = *page.report->print;
  std::vector<std::string> rows;
  std::string plays, snaps;
  for (const FitFigure& fit : print.result->fits.fits) {
    if (fit.shape != FitShape::none) rows.push_back(fitRow(*print.subject, fit));
    plays += playRow(print, fit);
    snaps += snapRow(*print.subject, fit);
  }
  if (print.result->fits.fits.empty()) return "";
  std::string content;
  if (!rows.empty()) {
    content = longTable({{"Joint"},
                         {"Its fit"},
                         {"Pin", true},
                         {"Hole", true},
                         {"Clearance as modelled", true},
                         {"As printed", true},
                         {"ISO 286 word"}},
                        rows, 12, "more joints");
  }
  content += notFoundText(*print.subject, print.result->fits);
  if (!plays.empty()) {
    content += subTitle("Play, and what the fit holds") +
               tableOf({{"Joint"},
                        {"Across, mm", true},
                        {"Tilt, °", true},
                        {"Along, mm", true},
                        {"Holds by friction", true}},
                       plays);
  }
  if (!snaps.empty()) {
    content += subTitle("What has to snap in") + tableOf({{"Joint"},
                                                          {"What passes"},
                                                          {"Its diameter, mm", true},
                                                          {"Opening, mm", true},
                                                          {"Strain of a whole ring", true}},
                                                         snaps);
  }
  return sectionOf("print-fits", "Fits",
                   "Diameters and clearances on the diameter, in mm; of guides both sides "
                   "together. As printed: pins grown, holes shrunk, ± the scatter of two prints. "
                   "ISO 286 is for comparison only: " +
                       std::string(kPrintsDoNotReachGrades) + ".",
                   content);
}

std::string gripsSection(const ReportPage& page) {
  const PrintReport& print = *page.report->print;
  std::vector<std::string> rows;
  for (const GripFigure& grip : print.result->grips.grips) rows.push_back(gripRow(*print.subject, grip));
  if (rows.empty()) return "";
  return sectionOf("print-grips", "Grips",
                   "Overlaps a side, in mm. Strain and force across, in N, as if nothing bent out "
                   "of the way: upper bounds.",
                   longTable({{"Parts"},
                              {"Mode"},
                              {"Overlap as modelled", true},
                              {"As printed", true},
                              {"Length", true},
                              {"Strain modelled", true},
                              {"Strain printed", true},
                              {"Force", true}},
                             rows, 20, "more grips"));
}

}  // namespace swingroom::html
