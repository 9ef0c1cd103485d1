#include "core/print/joints/general_tolerance.h"

#include <array>

namespace swingroom {
namespace {

constexpr std::array<double, 5> kGeneralUpTo = {3, 6, 30, 120, 400};
struct GeneralClass {
  char letter;
  std::array<double, 5> plusMinusMm;  // 0: the class does not go there.
};
constexpr std::array<GeneralClass, 4> kGeneralClasses = {{{'f', {0.05, 0.05, 0.1, 0.15, 0.2}},
                                                          {'m', {0.1, 0.1, 0.2, 0.3, 0.5}},
                                                          {'c', {0.2, 0.3, 0.5, 0.8, 1.2}},
                                                          {'v', {0, 0.5, 1, 1.5, 2.5}}}};

}  // namespace

std::optional<double> generalToleranceMm(char toleranceClass, double sizeMm) {
  if (!(sizeMm >= 0.5)) return std::nullopt;
  for (const GeneralClass& general : kGeneralClasses) {
    if (general.letter != toleranceClass) continue;
    for (std::size_t i = 0; i < kGeneralUpTo.size(); ++i) {
      if (sizeMm > kGeneralUpTo[i]) continue;
      if (general.plusMinusMm[i] == 0) return std::nullopt;
      return general.plusMinusMm[i];
    }
  }
  return std::nullopt;
}

}  // namespace swingroom
