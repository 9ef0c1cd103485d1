#include "core/print/joints/iso286.h"

#include <array>
#include <cmath>

namespace swingroom {
namespace {

constexpr double kMm = 0.001;  // The tables are in micrometres.

/// Upper ends of the ranges of nominal sizes, mm. ISO 286-1 splits 30 to 50 for c only.
constexpr std::array<double, 7> kIsoUpTo = {3, 6, 10, 18, 30, 40, 50};
constexpr std::size_t kIsoRanges = kIsoUpTo.size();

/// ISO 286-1:2010, Table 1: IT6 to IT11 by range.
constexpr std::array<std::array<double, 6>, kIsoRanges> kIsoGrades = {{{6, 10, 14, 25, 40, 60},
                                                                       {8, 12, 18, 30, 48, 75},
                                                                       {9, 15, 22, 36, 58, 90},
                                                                       {11, 18, 27, 43, 70, 110},
                                                                       {13, 21, 33, 52, 84, 130},
                                                                       {16, 25, 39, 62, 100, 160},
                                                                       {16, 25, 39, 62, 100, 160}}};

/// Fundamental deviation of a shaft by range: of c to h the upper one, else the lower one.
struct IsoShaft {
  char letter;
  std::array<double, kIsoRanges> deviation;
  bool isUpper;
};
constexpr std::array<IsoShaft, 9> kIsoShafts = {{
    {'c', {-60, -70, -80, -95, -110, -120, -130}, true},
    {'d', {-20, -30, -40, -50, -65, -80, -80}, true},
    {'f', {-6, -10, -13, -16, -20, -25, -25}, true},
    {'g', {-2, -4, -5, -6, -7, -9, -9}, true},
    {'h', {0, 0, 0, 0, 0, 0, 0}, true},
    {'k', {0, 1, 1, 1, 2, 2, 2}, false},
    {'n', {4, 8, 10, 12, 15, 17, 17}, false},
    {'p', {6, 12, 15, 18, 22, 26, 26}, false},
    {'s', {14, 19, 23, 28, 35, 43, 43}, false},
}};

struct IsoPreferred {
  const char* fit;
  const char* name;
};
constexpr std::array<IsoPreferred, 9> kIsoPreferred = {{{"H11/c11", "loose running"},
                                                        {"H9/d9", "free running"},
                                                        {"H8/f7", "close running"},
                                                        {"H7/g6", "sliding"},
                                                        {"H7/h6", "locational clearance"},
                                                        {"H7/k6", "locational transition"},
                                                        {"H7/n6", "locational transition"},
                                                        {"H7/p6", "locational interference"},
                                                        {"H7/s6", "medium drive"}}};

std::optional<std::size_t> isoRangeOf(double nominalMm) {
  if (!(nominalMm > 0)) return std::nullopt;
  for (std::size_t i = 0; i < kIsoRanges; ++i) {
    if (nominalMm <= kIsoUpTo[i]) return i;
  }
  return std::nullopt;
}

/// The whole of "6", "11"; 0: not a grade.
int isoGradeIn(std::string_view digits) {
  if (digits.empty() || digits.size() > 2) return 0;
  int grade = 0;
  for (const char c : digits) {
    if (c < '0' || c > '9') return 0;
    grade = 10 * grade + (c - '0');
  }
  return grade;
}

}  // namespace

const char* wordFor(FitClass word) {
  constexpr const char* words[] = {"clearance", "transition", "interference"};
  return words[static_cast<int>(word)];
}

FitClass classOf(double leastClearanceMm, double mostClearanceMm) {
  if (leastClearanceMm >= 0) return FitClass::clearance;
  return mostClearanceMm <= 0 ? FitClass::interference : FitClass::transition;
}

std::optional<double> standardToleranceMm(int grade, double nominalMm) {
  const auto range = isoRangeOf(nominalMm);
  if (!range || grade < 6 || grade > 11) return std::nullopt;
  return kMm * kIsoGrades[*range][static_cast<std::size_t>(grade - 6)];
}

std::optional<SizeLimits> holeLimitsMm(int grade, double nominalMm) {
  const auto tolerance = standardToleranceMm(grade, nominalMm);
  if (!tolerance) return std::nullopt;
  return SizeLimits{nominalMm, nominalMm + *tolerance};
}

std::optional<SizeLimits> shaftLimitsMm(char letter, int grade, double nominalMm) {
  const auto tolerance = standardToleranceMm(grade, nominalMm);
  // The table has k for grade 6 only.
  if (!tolerance || (letter == 'k' && grade != 6)) return std::nullopt;
  for (const IsoShaft& shaft : kIsoShafts) {
    if (shaft.letter != letter) continue;
    const double edge = nominalMm + kMm * shaft.deviation[*isoRangeOf(nominalMm)];
    if (shaft.isUpper) return SizeLimits{edge - *tolerance, edge};
    return SizeLimits{edge, edge + *tolerance};
  }
  return std::nullopt;
}

std::optional<FitLimits> fitLimits(std::string_view fit, double nominalMm) {
  const auto slash = fit.find('/');
  if (fit.empty() || fit[0] != 'H' || slash == std::string_view::npos || slash + 1 >= fit.size())
    return std::nullopt;
  const auto hole = holeLimitsMm(isoGradeIn(fit.substr(1, slash - 1)), nominalMm);
  const auto shaft = shaftLimitsMm(fit[slash + 1], isoGradeIn(fit.substr(slash + 2)), nominalMm);
  if (!hole || !shaft) return std::nullopt;
  return FitLimits{*hole, *shaft};
}

std::optional<IsoReference> nearestFit(double clearanceMm, double nominalMm) {
  std::optional<IsoReference> best;
  double least = 0;
  for (const IsoPreferred& preferred : kIsoPreferred) {
    const auto limits = fitLimits(preferred.fit, nominalMm);
    if (!limits) return std::nullopt;
    const double low = limits->leastClearanceMm(), high = limits->mostClearanceMm();
    const double half = (high - low) / 2, off = std::abs(clearanceMm - (low + high) / 2);
    // Within: how far from the middle, as a share. Outside: those always after those within.
    const double rank = off <= half ? off / half : 1 + off;
    if (best && rank >= least) continue;
    best = IsoReference{preferred.fit, preferred.name, low, high};
    least = rank;
  }
  return best;
}

}  // namespace swingroom
