#include "core/files/sources/given_unit.h"

#include <algorithm>
#include <cmath>

#include "core/files/document/document_problems.h"
#include "core/files/document/found_text.h"
#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

constexpr double kTooLargeMm = 2000, kTooSmallMm = 1;

std::string sourceOf(const GivenParts& given) {
  return given.source.string();
}

std::string labelOf(const GivenPart& part) {
  return part.inFile.empty() ? part.file.filename().string() : part.name;
}

void scaleNumbers(ThreeNumbers& numbers, double factor) {
  for (double& number : numbers) number *= factor;
}

/// All stands about the frame's origin, so that places grow with the meshes.
void scaleUnitless(GivenParts& given, double factor) {
  if (factor == 1) return;
  for (GivenPart& part : given.parts) {
    if (!part.mesh.unitAssumed) continue;
    part.scale *= factor;
    if (part.mirror) scaleNumbers(part.mirror->through, factor);
    if (part.placement) scaleNumbers(part.placement->at, factor);
    for (Eigen::Vector3d& v : part.mesh.mesh.vertices) v *= factor;
  }
}

std::vector<Eigen::AlignedBox3d> boxesOf(const GivenParts& given) {
  std::vector<Eigen::AlignedBox3d> boxes;
  for (const GivenPart& part : given.parts) boxes.push_back(boundsOf(part.mesh.mesh));
  return boxes;
}

/// Of the files without a unit, or of all, without those that are out of scale.
Eigen::AlignedBox3d figureOf(const GivenParts& given, const std::vector<PartOff>& off,
                             bool onlyUnitless) {
  Eigen::AlignedBox3d box;
  for (std::size_t i = 0; i < given.parts.size(); ++i) {
    const bool isOff =
        std::any_of(off.begin(), off.end(), [&](const PartOff& one) { return one.part == i; });
    if (isOff || (onlyUnitless && !given.parts[i].mesh.unitAssumed)) continue;
    box.extend(boundsOf(given.parts[i].mesh.mesh));
  }
  return box;
}

std::size_t unitlessIn(const GivenParts& given) {
  return static_cast<std::size_t>(
      std::count_if(given.parts.begin(), given.parts.end(),
                    [](const GivenPart& part) { return part.mesh.unitAssumed; }));
}

void noteOff(const GivenParts& given, const std::vector<PartOff>& off, Problems& notes) {
  const auto boxes = boxesOf(given);
  for (const PartOff& one : off) {
    const bool small = one.factor > 1;
    const GivenPart& part = given.parts[one.part];
    notes.push_back({labelOf(part),
                     std::string("seems 1000 times too ") + (small ? "small" : "large") + ": " +
                         roundSize(boxes[one.part].sizes().maxCoeff()) +
                         " mm at the longest, beside parts of quite other sizes",
                     "export it again in the unit of the others, or give its part the scale " +
                         numberText(part.scale * one.factor)});
  }
}

/// Sizes that no printed figure has.
void noteSize(const GivenParts& given, const std::vector<PartOff>& off, bool allSayTheirs,
              Problems& notes) {
  const Eigen::AlignedBox3d box = figureOf(given, off, false);
  const double longest = box.isEmpty() ? kTooLargeMm : box.sizes().maxCoeff();
  if (longest >= kTooSmallMm && longest <= kTooLargeMm) return;
  const std::string factor = longest > kTooLargeMm ? "0.001" : "1000";
  notes.push_back({sourceOf(given),
                   "is " + roundSize(longest) +
                       " mm at the longest, which is no size of a printed figure" +
                       (allSayTheirs ? ", though its files say their unit" : ""),
                   std::string(allSayTheirs ? "" : "say the unit (--unit), or ") + "--scale " +
                       factor + " makes it " + (longest > kTooLargeMm ? "smaller" : "larger")});
}

void noteGuess(const GivenParts& given, const UnitGuess& guess, Problems& notes) {
  if (guess.sure) return;
  const std::string size = roundSize(guess.longestMm(guess.unit)) + " mm at the longest";
  notes.push_back(
      {sourceOf(given),
       guess.between
           ? "has files without a unit, whose size fits " + nameOf((*guess.between)[0]) + " and " +
                 nameOf((*guess.between)[1]) + ": mm is kept, " + size
           : "has files without a unit; " + nameOf(guess.unit) + " is no sure guess: " + size,
       "--unit mm, cm, m or in says it"});
}

std::string saidUnit(const GivenParts& given, std::size_t unitless, double mmPerUnit) {
  const Eigen::AlignedBox3d box = figureOf(given, {}, false);
  return "One unit of the " + counted(unitless, "file") + " without a unit is taken as " +
         numberText(mmPerUnit) + " mm (--unit): all together are " +
         roundSize(box.sizes().maxCoeff()) + " mm at the longest.";
}

/// Of the same part in both folders, by how much the second is larger; none: not to be told.
std::vector<std::optional<double>> scalesBetween(const GivenParts& first,
                                                 const GivenParts& second) {
  std::vector<std::optional<double>> scales;
  for (std::size_t i = 0; i < std::min(first.parts.size(), second.parts.size()); ++i) {
    scales.push_back(scaleBetween(first.parts[i].mesh.mesh, second.parts[i].mesh.mesh));
  }
  return scales;
}

double middleOf(const std::vector<std::optional<double>>& scales) {
  std::vector<double> known;
  for (const auto& scale : scales) {
    if (scale) known.push_back(*scale);
  }
  if (known.empty()) return 1;
  std::sort(known.begin(), known.end());
  return known[known.size() / 2];
}

std::string timesText(double ratio) {
  return numberText(std::round(ratio * 1e4) / 1e4) + " times as large";
}

/// Parts that are in another unit than the rest of their folder is.
void noteStrangers(const GivenParts& second, const std::vector<std::optional<double>>& scales,
                   double usual, Problems& notes) {
  for (std::size_t i = 0; i < scales.size(); ++i) {
    const auto ratio = scales[i] ? ratioOfUnits(*scales[i] / usual) : std::nullopt;
    if (!ratio) continue;
    notes.push_back(
        {labelOf(second.parts[i]),
         "is " + timesText(*ratio) + " in " + sourceOf(second) + " as in the other folder",
         "export it in the same unit in both"});
  }
}

}  // namespace

TakenUnit takeUnit(GivenParts& given, std::optional<double> mmPerUnit) {
  TakenUnit unit;
  const std::size_t unitless = unitlessIn(given);
  unit.off = partsOff(boxesOf(given));
  const std::vector<PartOff>& off = unit.off;
  if (unitless == 0) {
    unit.said = "Every file says its unit.";
  } else if (mmPerUnit) {
    unit.mmPerUnit = *mmPerUnit;
    scaleUnitless(given, unit.mmPerUnit);
    unit.said = saidUnit(given, unitless, unit.mmPerUnit);
  } else {
    Eigen::AlignedBox3d box = figureOf(given, off, true);
    if (box.isEmpty()) box = figureOf(given, {}, true);
    unit.guess = guessUnit(box.sizes());
    unit.mmPerUnit = mmPer(unit.guess->unit);
    scaleUnitless(given, unit.mmPerUnit);
    unit.said = guessText(*unit.guess) + ".";
    noteGuess(given, *unit.guess, unit.notes);
  }
  noteSize(given, off, unitless == 0, unit.notes);
  noteOff(given, off, unit.notes);
  return unit;
}

TakenUnit takeUnitOfOther(const GivenParts& first, const TakenUnit& firstUnit, GivenParts& second,
                          std::optional<double> mmPerUnit) {
  TakenUnit unit;
  unit.mmPerUnit = mmPerUnit.value_or(firstUnit.mmPerUnit);
  scaleUnitless(second, unit.mmPerUnit);
  const auto scales = scalesBetween(first, second);
  const double usual = middleOf(scales);
  noteStrangers(second, scales, usual, unit.notes);
  const auto ratio = ratioOfUnits(usual);
  if (!ratio) return unit;
  if (mmPerUnit || unitlessIn(second) == 0) {
    unit.notes.push_back({sourceOf(second),
                          "has parts " + timesText(*ratio) + " as the other folder",
                          "export both in one unit, or leave the unit to be guessed"});
    return unit;
  }
  scaleUnitless(second, 1 / *ratio);
  unit.mmPerUnit /= *ratio;
  unit.said = "The second folder's numbers are " + timesText(*ratio) +
              ": one unit of it is taken as " + numberText(unit.mmPerUnit) + " mm.";
  return unit;
}

}  // namespace swingroom
