#include "app/window/paint/paint_scales.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

QColor rgb(unsigned value) {
  return QColor::fromRgb(value);
}

PaintScale plainScale(const Theme& theme) {
  PaintScale scale;
  scale.line = theme.dark ? rgb(0x0C0E11) : theme.ink;  // As the lines of parts.
  scale.leftOut = theme.dark ? rgb(0x565B62) : rgb(0xC9C4BA);
  scale.broken = theme.clash;
  return scale;
}

}  // namespace

double plainFigureAbove(double mm) {
  const double power = std::pow(10.0, std::floor(std::log10(mm)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (mm <= step * power * (1 + 1e-9)) return step * power;
  }
  return 10 * power;
}

PaintScale roomScale(const Theme& theme, double capMm) {
  PaintScale scale = plainScale(theme);
  // Shares of the cap: most of the colours are spent on the little room that matters.
  constexpr double kShares[] = {0, 0.1, 0.2, 0.4, 0.7, 1};
  constexpr unsigned kLight[] = {0x003F66, 0x0072B2, 0x3C96CB, 0x7DB9DF, 0xB3D5E9, 0xD6E5ED};
  constexpr unsigned kDark[] = {0xCBEAFB, 0x86CBF2, 0x56B4E9, 0x3D8ABA, 0x34678A, 0x3A5065};
  for (std::size_t i = 0; i < std::size(kShares); ++i)
    scale.stops.push_back({kShares[i] * capMm, rgb(theme.dark ? kDark[i] : kLight[i])});
  for (const double share : {0.1, 0.2, 0.4, 0.6, 0.8}) scale.levelsMm.push_back(share * capMm);
  return scale;
}

PaintScale movedScale(const Theme& theme, double reachMm) {
  PaintScale scale = plainScale(theme);
  const double reach = plainFigureAbove(std::max(reachMm, 1e-6));
  const QColor stayed = theme.dark ? rgb(0x4A4F56) : rgb(0xEFEDE8);
  const QColor in[] = {theme.dark ? rgb(0xF0B4D3) : rgb(0x7A2F5C), rgb(0xCC79A7)};
  const QColor out[] = {rgb(0x009E73), theme.dark ? rgb(0x66E0BC) : rgb(0x00543D)};
  scale.stops = {
      {-reach, in[0]}, {-0.4 * reach, in[1]}, {0, stayed}, {0.4 * reach, out[0]}, {reach, out[1]}};
  for (const double share : {-0.8, -0.6, -0.4, -0.2, 0.2, 0.4, 0.6, 0.8})
    scale.levelsMm.push_back(share * reach);
  return scale;
}

PaintScale wallScale(const Theme& theme, double leastMm, double leastFreeMm, double mostMm) {
  PaintScale scale = plainScale(theme);
  const double least = std::max(std::min(leastMm, leastFreeMm), 0.02);
  const double free = std::max(leastMm, leastFreeMm);
  const double most = std::max(mostMm, free + 0.1), span = most - free;
  // Colours end a hair below the figure that decides: a wall that is just as thick as it prints
  // is not mixed with those below it, for a scale is sent to the graphics card in 1024 steps.
  const double early = 1e-3 + most / 1000;
  constexpr double kJump = 1e-6;
  const auto stop = [&](double mm, unsigned light, unsigned dark) {
    scale.stops.push_back({mm, rgb(theme.dark ? dark : light)});
  };
  // Where it does not print.
  stop(0, 0xA84300, 0xF0A35A);
  stop(least - early - kJump, 0xD55E00, 0xD55E00);
  scale.levelsMm = {least};
  if (free > least + 2 * early) {  // Where it prints only if it is held on two sides.
    stop(least - early, 0xE69F00, 0xE69F00);
    stop(free - early - kJump, 0xE69F00, 0xE69F00);
    scale.levelsMm.push_back(free);
  }
  // Where it prints: the blue deepens towards what is needed, and fades beyond.
  stop(free - early, 0x0072B2, 0x56B4E9);
  stop(free + 0.12 * span, 0x3C96CB, 0x4A8FB8);
  stop(free + 0.35 * span, 0x9CC9E3, 0x3F657F);
  stop(most, 0xE2EAEE, 0x3B444C);
  return scale;
}

}  // namespace swingroom
