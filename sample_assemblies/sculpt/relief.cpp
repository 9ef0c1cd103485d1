#include "sample_assemblies/sculpt/relief.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace swingroom::samples::relief {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;

std::uint32_t mixed(std::uint32_t x) {
  x ^= x >> 16;
  x *= 0x7feb352dU;
  x ^= x >> 15;
  x *= 0x846ca68bU;
  return x ^ (x >> 16);
}

double cornerValue(long x, long y, long z, std::uint32_t seed) {
  const auto part = [](long v) { return mixed(static_cast<std::uint32_t>(v)); };
  const std::uint32_t digest = mixed(part(x) + 3 * part(y) + 7 * part(z) + mixed(seed));
  return digest / 2147483648.0 - 1;
}

double mix(double a, double b, double share) {
  return a + (b - a) * share;
}

}  // namespace

double rise(double from, double to, double x) {
  const double share = std::clamp((x - from) / (to - from), 0.0, 1.0);
  return share * share * (3 - 2 * share);
}

double within(double x, double low, double high, double fade) {
  return rise(low, low + fade, x) * rise(high, high - fade, x);
}

double noise(const Vector3d& p, std::uint32_t seed) {
  const Vector3d floor = p.array().floor();
  const long x = std::lround(floor.x()), y = std::lround(floor.y()), z = std::lround(floor.z());
  const Vector3d share = p - floor;
  const double sx = rise(0, 1, share.x()), sy = rise(0, 1, share.y()), sz = rise(0, 1, share.z());
  const auto row = [&](long dy, long dz) {
    return mix(cornerValue(x, y + dy, z + dz, seed), cornerValue(x + 1, y + dy, z + dz, seed), sx);
  };
  return mix(mix(row(0, 0), row(1, 0), sy), mix(row(0, 1), row(1, 1), sy), sz);
}

double chance(long a, long b, std::uint32_t seed) {
  return (cornerValue(a, b, 17, seed) + 1) / 2;
}

double boards(double u, double v, const Boards& made) {
  const double row = std::floor(v / made.widthMm);
  const long rowIndex = std::lround(row);
  const double start = made.lengthMm * chance(rowIndex, 1, made.seed);
  const double column = std::floor((u - start) / made.lengthMm);
  const double across = v / made.widthMm - row - 0.5;  // -0.5 to 0.5
  const double along = (u - start) / made.lengthMm - column - 0.5;
  const double toEdge = (0.5 - std::abs(across)) * made.widthMm;
  const double toEnd = (0.5 - std::abs(along)) * made.lengthMm;
  const double half = made.gapMm / 2;
  const double groove =
      std::max(rise(half * 1.6, half * 0.2, toEdge), rise(half * 1.6, half * 0.2, toEnd));
  const double own = chance(rowIndex, std::lround(column), made.seed + 1);
  const double waves = 0.5 + 0.5 * noise({u / 4.5, v / 0.9, own * 40}, made.seed + 2);
  const double knocked = rise(0.75, 1, chance(rowIndex, std::lround(column), made.seed + 5)) *
                         rise(1.6, 0.2, toEdge + toEnd);
  const double board =
      made.crownMm * 4 * across * across + made.wearMm * (0.5 * own + 0.5 * waves + 1.5 * knocked);
  double height = -mix(board, made.deepMm, groove);
  if (made.nailMm > 0) {
    height += dome({toEnd - 1.1, std::abs(across) * made.widthMm - made.widthMm * 0.22}, 0.42,
                   made.nailMm);
  }
  return height;
}

double dome(const Vector2d& off, double radius, double height) {
  const double q = off.squaredNorm() / (radius * radius);
  return q < 1 ? height * (1 - q) : 0;
}

double rivets(double u, double v, double pitch, double radius, double height) {
  return dome({u - pitch * std::round(u / pitch), v}, radius, height);
}

double bead(double v, double half, double height) {
  return dome({v, 0}, half, height);
}

double strands(double along, double round, double layMm, int count) {
  const double turns = count * round / kTurn - along / layMm;
  const double across = 2 * std::abs(turns - std::round(turns));  // 0 on the strand, 1 between
  return std::sqrt(std::max(0.0, 1 - across * across * 0.96));
}

double rope(double u, double v, double half, double height) {
  const double q = v / half;
  if (std::abs(q) >= 1) return 0;
  const double round = std::sqrt(1 - q * q);
  // What is seen of a strand crosses the rope aslant.
  const double strand = strands(u + v * 0.9, 0, half * 1.35, 1);
  return height * round * (0.5 + 0.5 * strand) * rise(1, 0.85, std::abs(q));
}

}  // namespace swingroom::samples::relief
