#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace swingroom {

/// Sizes of ISO 286 for comparison. All of a diameter, mm. They are for machined parts: prints do
/// not reach these grades (`kPrintsDoNotReachGrades`).
inline constexpr const char* kPrintsDoNotReachGrades =
    "these grades are for machined parts; prints do not reach them";

enum class FitClass { clearance, transition, interference };

/// "clearance", "transition", "interference".
const char* wordFor(FitClass word);

/// By the least and the most clearance, mm on the diameter; negative: interference. Clearance if
/// there is never any overlap, interference if there is never a gap.
FitClass classOf(double leastClearanceMm, double mostClearanceMm);

/// Standard tolerance IT6 to IT11 of nominal sizes above 0 up to 50 mm, mm. None: outside.
std::optional<double> standardToleranceMm(int grade, double nominalMm);

/// Lower and upper limit of a size, mm.
struct SizeLimits {
  double lower = 0, upper = 0;

  bool operator==(const SizeLimits&) const = default;
};

/// Of a hole H6 to H11. None: outside the table.
std::optional<SizeLimits> holeLimitsMm(int grade, double nominalMm);
/// Of a shaft c, d, f, g, h, n, p, s of grade 6 to 11, or k6.
std::optional<SizeLimits> shaftLimitsMm(char letter, int grade, double nominalMm);

/// A hole of the basis H and a shaft.
struct FitLimits {
  SizeLimits hole, shaft;

  double leastClearanceMm() const { return hole.lower - shaft.upper; }
  double mostClearanceMm() const { return hole.upper - shaft.lower; }
  FitClass kind() const { return classOf(leastClearanceMm(), mostClearanceMm()); }
};

/// Of a fit like "H7/g6". None: not such words, or outside the tables.
std::optional<FitLimits> fitLimits(std::string_view fit, double nominalMm);

/// A fit of the standard's preferred ones, for comparison.
struct IsoReference {
  std::string fit;                 ///< "H11/c11".
  std::string name;                ///< "loose running".
  double leastMm = 0, mostMm = 0;  ///< Clearance.

  bool operator==(const IsoReference&) const = default;
};

/// The preferred fit at this nominal size in whose clearances this one lies nearest to the middle
/// (of those that hold it; else the one whose middle is nearest). None: outside the tables.
/// Names: Shigley, Mechanical Engineering Design, 9th ed., Table 7-9, after ANSI B4.2-1978.
std::optional<IsoReference> nearestFit(double clearanceMm, double nominalMm);

}  // namespace swingroom
