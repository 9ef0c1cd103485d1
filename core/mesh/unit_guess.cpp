#include "core/mesh/unit_guess.h"
#include "core/mesh/split.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

#include "core/mesh/split.h"

namespace swingroom {
namespace {

constexpr double kUsualMm = 110;
constexpr double kLeastMm = 20, kMostMm = 600;          // What could be meant at all.
constexpr double kLeastSureMm = 30, kMostSureMm = 450;  // What fits a hand and a printer.
constexpr double kMargin = 1.5;                         // A nearer second makes it a toss-up.
constexpr double kGroupsApart = 20;                     // Sizes of parts in one unit lie closer.
constexpr double kOff = 1000;

/// How far a size is from the usual one, as the logarithm of their ratio.
double awayFromUsual(double mm) {
  return std::abs(std::log(mm / kUsualMm));
}

bool isBetween(double value, double least, double most) {
  return value >= least && value <= most;
}

/// The other units, the likelier ones first.
std::vector<LengthUnit> byLikelihood(const UnitGuess& guess) {
  std::vector<LengthUnit> units(kLengthUnits.begin(), kLengthUnits.end());
  std::stable_sort(units.begin(), units.end(), [&](LengthUnit a, LengthUnit b) {
    return awayFromUsual(guess.longestMm(a)) < awayFromUsual(guess.longestMm(b));
  });
  return units;
}

/// Whether the parts from `first` to before `last`, times `factor`, have sizes as the others do.
bool belongs(const std::vector<std::pair<double, std::size_t>>& some, double factor,
             const std::vector<std::pair<double, std::size_t>>& others) {
  return some.back().first * factor <= 2 * others.back().first &&
         some.front().first * factor >= others.front().first / 5;
}

}  // namespace

double mmPer(LengthUnit unit) {
  switch (unit) {
    case LengthUnit::mm:
      break;
    case LengthUnit::cm:
      return 10;
    case LengthUnit::m:
      return 1000;
    case LengthUnit::inch:
      return 25.4;
  }
  return 1;
}

std::string nameOf(LengthUnit unit) {
  switch (unit) {
    case LengthUnit::mm:
      break;
    case LengthUnit::cm:
      return "cm";
    case LengthUnit::m:
      return "m";
    case LengthUnit::inch:
      return "inches";
  }
  return "mm";
}

UnitGuess guessUnit(const Eigen::Vector3d& sizes) {
  UnitGuess guess;
  guess.sizes = sizes;
  const double longest = sizes.maxCoeff();
  if (!std::isfinite(longest) || longest <= 0) return guess;
  if (longest >= kLeastMm) {
    guess.sure = isBetween(longest, kLeastSureMm, kMostSureMm);
    return guess;
  }
  std::vector<LengthUnit> likely = byLikelihood(guess);
  std::erase_if(likely, [&](LengthUnit unit) {
    return !isBetween(guess.longestMm(unit), kLeastMm, kMostMm);
  });
  if (likely.empty()) return guess;
  const double nearest = awayFromUsual(guess.longestMm(likely[0]));
  if (likely.size() > 1 &&
      awayFromUsual(guess.longestMm(likely[1])) < nearest + std::log(kMargin)) {
    guess.between = {likely[0], likely[1]};
    return guess;
  }
  guess.unit = likely[0];
  guess.sure = isBetween(guess.longestMm(guess.unit), kLeastSureMm, kMostSureMm);
  return guess;
}

std::string roundSize(double size) {
  char text[32];
  const bool whole = std::abs(size) >= 99.95;
  std::snprintf(text, sizeof text, whole ? "%.0f" : "%.3g", size);
  return text;
}

std::string guessText(const UnitGuess& guess) {
  const auto inUnit = [&](LengthUnit unit) {
    return "in " + nameOf(unit) + " it would be " + roundSize(guess.longestMm(unit)) + " mm";
  };
  std::string text = roundSize(guess.sizes.x()) + " x " + roundSize(guess.sizes.y()) + " x " +
                     roundSize(guess.sizes.z()) + " units: ";
  if (guess.between) {
    const auto& [first, second] = *guess.between;
    return text + nameOf(first) + " or " + nameOf(second) + "? mm is kept; " + inUnit(first) +
           " at the longest, in " + nameOf(second) + " " + roundSize(guess.longestMm(second)) +
           " mm";
  }
  text += nameOf(guess.unit) + " guessed";
  if (guess.unit != LengthUnit::mm) {
    text += ", " + roundSize(guess.longestMm(guess.unit)) + " mm at the longest";
  }
  std::vector<LengthUnit> others = byLikelihood(guess);
  std::erase(others, guess.unit);
  return text + "; " + inUnit(others[0]) + (guess.unit == LengthUnit::mm ? " at the longest" : "") +
         ", in " + nameOf(others[1]) + " " + roundSize(guess.longestMm(others[1])) + " mm";
}

std::vector<PartOff> partsOff(const std::vector<Eigen::AlignedBox3d>& boxes) {
  std::vector<std::pair<double, std::size_t>> sizes;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const double longest = boxes[i].isEmpty() ? 0 : boxes[i].sizes().maxCoeff();
    if (longest > 0) sizes.emplace_back(longest, i);
  }
  if (sizes.size() < 2) return {};
  std::sort(sizes.begin(), sizes.end());
  std::size_t split = 1;  // Before it, the smaller ones.
  for (std::size_t i = 2; i < sizes.size(); ++i) {
    if (sizes[i].first / sizes[i - 1].first > sizes[split].first / sizes[split - 1].first)
      split = i;
  }
  if (sizes[split].first < kGroupsApart * sizes[split - 1].first) return {};
  const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(split);
  const std::vector<std::pair<double, std::size_t>> small(sizes.begin(), middle);
  const std::vector<std::pair<double, std::size_t>> large(middle, sizes.end());
  // Of two alike, the ones that are no size of a printed part.
  const bool smallAreOff =
      small.size() != large.size() ? small.size() < large.size() : large.back().first <= kMostMm;
  const double factor = smallAreOff ? kOff : 1 / kOff;
  const auto& off = smallAreOff ? small : large;
  if (!belongs(off, factor, smallAreOff ? large : small)) return {};
  std::vector<PartOff> found;
  for (const auto& [size, part] : off) found.push_back({part, factor});
  std::sort(found.begin(), found.end(),
            [](const PartOff& a, const PartOff& b) { return a.part < b.part; });
  return found;
}

std::optional<double> scaleBetween(const TriangleMesh& mesh, const TriangleMesh& other) {
  const double area = areaOf(mesh), otherArea = areaOf(other);
  if (!(area > 0) || !(otherArea > 0)) return std::nullopt;
  return std::sqrt(otherArea / area);
}

std::optional<double> ratioOfUnits(double ratio) {
  for (const LengthUnit first : kLengthUnits) {
    for (const LengthUnit second : kLengthUnits) {
      const double exact = mmPer(first) / mmPer(second);
      if (first != second && std::abs(ratio / exact - 1) < 0.01) return exact;
    }
  }
  return std::nullopt;
}

}  // namespace swingroom
