#include "core/print/printed/printer_limits.h"

#include <algorithm>

namespace swingroom {
namespace {

bool bothPrinted(const PrintSubject& subject, PartId a, PartId b) {
  return subject.print(a).printed && subject.print(b).printed;
}

void addGapLimit(const PrintSubject& subject, const PrintedGap& gap,
                 std::vector<PrinterLimit>& limits) {
  if (gap.state != PrintedState::apart || !gap.upperMm) return;
  if (!bothPrinted(subject, gap.a, gap.b)) return;
  limits.push_back({-2, gap.lowerMm + gap.growthMm, 0,
                    subject.part(gap.a).name + " and " + subject.part(gap.b).name + " stay apart"});
}

void addFitLimits(const PrintSubject& subject, const FitFigure& fit,
                  std::vector<PrinterLimit>& limits) {
  if (fit.shape == FitShape::none || !bothPrinted(subject, fit.pinPart, fit.holePart)) return;
  const Joint& joint = subject.assembly->joint(fit.joint);
  const double least = fit.clearanceMm.leastMm, most = fit.clearanceMm.mostMm;
  if (fit.duty == FitDuty::turns || fit.duty == FitDuty::swivels) {
    // A fit that is meant to press must not be told to turn freely.
    if (joint.fitMm.value_or(least) <= 0) return;
    limits.push_back({-4, least, 0, joint.name + " turns"});
    if (fit.duty == FitDuty::turns) {
      const double allowed = subject.print(fit.holePart).process.mostPinClearanceMm.value;
      limits.push_back({4, -least, allowed, joint.name + " does not flop"});
    }
  }
  if (fit.duty == FitDuty::pressed && !fit.gripped && joint.fitMm.value_or(0) <= 0) {
    limits.push_back({4, -most, 0, joint.name + " stays pressed in"});
  }
}

void addBedLimit(const PrintSubject& subject, std::vector<PrinterLimit>& limits) {
  const PartPrint* print = nullptr;
  double longest = 0;
  std::string name;
  for (std::size_t i = 0; i < subject.parts.size(); ++i) {
    const PartId id{i};
    if (!subject.print(id).printed || !subject.hasMesh(id)) continue;
    const Eigen::AlignedBox3d box = boundsOf(*subject.part(id).mesh);
    const double size = box.sizes().maxCoeff();
    if (size <= longest) continue;
    longest = size;
    print = &subject.print(id);
    name = subject.part(id).name;
  }
  if (!print) return;
  const auto& bed = print->process.bedMm;
  limits.push_back({0, -longest, *std::max_element(bed.begin(), bed.end()),
                    name + " fits the bed along a side"});
}

}  // namespace

double evenGrowthMm(const PrintProcess& process) {
  return (2 * process.growthOutsideMm.value + process.holeShrinkMm.value) / 4;
}

std::vector<PrinterLimit> printerLimits(const PrintSubject& subject, const PrintedGaps& gaps,
                                        const FitsResult& fits) {
  std::vector<PrinterLimit> limits;
  for (const PrintedGap& gap : gaps.pairs) addGapLimit(subject, gap, limits);
  for (const FitFigure& fit : fits.fits) addFitLimits(subject, fit, limits);
  addBedLimit(subject, limits);
  return limits;
}

}  // namespace swingroom
