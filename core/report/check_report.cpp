#include "core/report/check_report.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {
constexpr double kDecimals = 1e6;
/// Dividing an exact whole number gives the double nearest to the decimal; -0 is written as 0.
double decimal(double scaled) {
  return scaled == 0 ? 0.0 : scaled / kDecimals;
}
}  // namespace

const char* wordFor(Verdict verdict) {
  switch (verdict) {
    case Verdict::clash:
      return "clash";
    case Verdict::tight:
      return "tight";
    case Verdict::loose:
      return "loose";
    case Verdict::unproven:
      return "unproven";
    case Verdict::clear:
      return "clear";
    case Verdict::allowed:
      return "allowed";
  }
  return "";
}

std::array<std::size_t, 6> countVerdicts(const SequenceResult& result) {
  std::array<std::size_t, 6> counts{};
  for (const PairResult& pair : result.pairs) {
    ++counts[static_cast<std::size_t>(std::find(kVerdicts.begin(), kVerdicts.end(), pair.verdict) -
                                      kVerdicts.begin())];
  }
  return counts;
}

bool passes(const CheckReport& report) {
  return std::all_of(
      report.results.begin(), report.results.end(), [](const SequenceResult& result) {
        return std::all_of(result.pairs.begin(), result.pairs.end(), [](const PairResult& pair) {
          return pair.verdict == Verdict::clear || pair.verdict == Verdict::allowed;
        });
      });
}

double roundedDown(double value) {
  return decimal(std::floor(value * kDecimals));
}
double roundedUp(double value) {
  return decimal(std::ceil(value * kDecimals));
}
double rounded(double value) {
  return decimal(std::round(value * kDecimals));
}

}  // namespace swingroom
