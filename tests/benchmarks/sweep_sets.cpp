#include "tests/benchmarks/sweep_sets.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/base/parallel.h"
#include "core/files/loading/load_assembly.h"
#include "core/sweep/sweep.h"
#include "tests/benchmarks/sweep_figures.h"
#include "tests/benchmarks/sweep_solids.h"
#include "tests/real/six_axis_arm.h"
#include "tests/support/shapes.h"

namespace swingroom::bench {
namespace {

bool areJoined(const Assembly& assembly, PartId a, PartId b) {
  const auto hangsOn = [&](PartId child, PartId parent) {
    const std::vector<Mount>& mounts = assembly.mountsOf(child);
    return std::any_of(mounts.begin(), mounts.end(),
                       [&](const Mount& mount) { return mount.parent == parent; });
  };
  return hangsOn(a, b) || hangsOn(b, a);
}

enum class Joined { counted, leftOut };

Pairs pairsOf(const Assembly& assembly, Joined joined) {
  Pairs pairs;
  for (PartId a; a.index < assembly.parts().size(); ++a.index) {
    for (PartId b{a.index + 1}; b.index < assembly.parts().size(); ++b.index) {
      if (!assembly.part(a).mesh || !assembly.part(b).mesh) continue;
      if (joined == Joined::leftOut && areJoined(assembly, a, b)) continue;
      pairs.emplace_back(a, b);
    }
  }
  return pairs;
}

SweepSet setFrom(const std::string& name, const Mechanism& mechanism, Joined joined,
                 int plainInstants) {
  SweepSet set{name, mechanism.assembly(), mechanism.modes(), {mechanism.sequence()}, {},
               {},   plainInstants};
  set.ourPairs = set.plainPairs = pairsOf(set.assembly, joined);
  return set;
}

SweepSet setFrom(const std::string& name, LoadedAssembly loaded, int plainInstants) {
  SweepSet set{name,         std::move(loaded.assembly), std::move(loaded.modes), {}, {}, {},
               plainInstants};
  set.ways = waysToCheck(set.modes, loaded.sequences);
  set.ourPairs = pairsOf(set.assembly, Joined::counted);
  set.plainPairs = pairsOf(set.assembly, Joined::leftOut);
  return set;
}

int sidesFor(std::size_t triangles) {
  // A multiple of 8, so that a square outside gets its corners.
  return 8 * static_cast<int>(std::lround(std::sqrt(static_cast<double>(triangles)) / 8));
}

/// A square block about z, `half` wide each way, with a hole of `radius`.
TriangleMesh drilledBlock(double radius, double half, std::size_t triangles) {
  const double mark = radius + 1;
  return turnedRing({{radius, 0}, {mark, 0}, {mark, 12}, {radius, 12}}, sidesFor(triangles),
                    triangles, [=](double r, double angle) {
                      // From the hole's round to the block's square.
                      const double across =
                          half / std::max(std::abs(std::cos(angle)), std::abs(std::sin(angle)));
                      return radius + (across - radius) * (r - radius);
                    });
}

SweepSet telescope() {
  Mechanism tubes;
  tubes.parts().requiredGapMm = 0.25;
  constexpr double kWallMm = 1.5, kClearanceMm = 0.3;
  double outer = 15;
  std::vector<std::pair<JointId, JointValue>> pulled, halfBack;
  std::optional<PartId> around;
  for (int i = 0; i < 5; ++i) {
    const double inner = outer - kWallMm;
    const TriangleMesh tube =
        turnedRing({{inner, 0}, {outer, 0}, {outer, 40}, {inner, 40}}, 96, 10'000);
    const PartId part = tubes.addPart("tube " + std::to_string(i + 1), tube);
    if (around) {
      const JointId slide = tubes.addSlide(part, around, kZ);
      pulled.emplace_back(slide, JointValue(32, 0, 0));
      halfBack.emplace_back(slide, JointValue(10, 0, 0));
    }
    around = part;
    outer = inner - kClearanceMm;
  }
  tubes.addStep(pulled);
  tubes.addStep(halfBack);
  return setFrom("telescope", tubes, Joined::counted, 40);
}

SweepSet figureSet16() {
  return setOf16(10'000);
}
SweepSet figureSet40() {
  return setOf40(50'000);
}
SweepSet roundPin() {
  return roundPinSet(10'000);
}
SweepSet eccentricPin() {
  return eccentricPinSet(10'000);
}
SweepSet arm() {
  return setFrom("arm", real::loadArm(), 180);
}

}  // namespace

SweepSet setOf16(std::size_t trianglesEach) {
  return setFrom("16x" + std::to_string(trianglesEach / 1000) + "k", figureOf16(trianglesEach),
                 Joined::leftOut, 120);
}

SweepSet setOf40(std::size_t trianglesEach) {
  return setFrom("40x" + std::to_string(trianglesEach / 1000) + "k", figureOf40(trianglesEach),
                 Joined::leftOut, 40);
}

SweepSet crawlerSet(std::size_t parts, std::size_t trianglesEach) {
  return setFrom(std::to_string(parts) + " parts", crawlerOf(parts, trianglesEach), Joined::leftOut,
                 40);
}

SweepSet roundPinSet(std::size_t trianglesEach) {
  constexpr double kHoleMm = 4, kClearanceMm = 0.2;
  Mechanism pin;
  pin.parts().requiredGapMm = 0.15;
  const PartId block = pin.addPart("block", drilledBlock(kHoleMm, 10, trianglesEach));
  const PartId part = pin.addPart(
      "pin", turnedPin(kHoleMm - kClearanceMm, -3, 15, sidesFor(trianglesEach), trianglesEach));
  pin.addStep(pin.addHinge(part, block, kOrigin, kZ), deg(270));
  return setFrom("round_pin", pin, Joined::counted, 40);
}

SweepSet eccentricPinSet(std::size_t trianglesEach) {
  // Least clearance 4.5 - 3 - (0.8 + 0.3) = 0.4 where both offsets add up.
  constexpr double kHoleMm = 4.5, kHoleOffMm = 0.3, kPinMm = 3, kPinOffMm = 0.8, kFlatMm = 2.2;
  Mechanism pin;
  const TriangleMesh block = drilledBlock(kHoleMm, 10, trianglesEach);
  const TriangleMesh flatted = turnedPin(
      kPinMm, -3, 15, sidesFor(trianglesEach), trianglesEach, [=](double radius, double angle) {
        const double flat = kFlatMm / std::max(1e-9, std::cos(angle));
        return std::cos(angle) > 0 ? std::min(radius, flat) : radius;
      });
  const PartId outer = pin.addPart("block", shapes::moved(block, translation({-kHoleOffMm, 0, 0})));
  const PartId inner = pin.addPart("pin", shapes::moved(flatted, translation({-kPinOffMm, 0, 0})));
  pin.addStep(pin.addHinge(inner, outer, kOrigin, kZ), deg(270));
  return setFrom("eccentric_pin", pin, Joined::counted, 40);
}

SweepSet tugSet() {
  auto loaded =
      loadAssembly(SWINGROOM_SOURCE "/sample_assemblies/harbour_tug/harbour_tug.swing.json",
                   MeshReader::besideThisProgram(), defaultThreads());
  if (!loaded) throw std::runtime_error(toText(loaded.problems().front()));
  return setFrom("tug", std::move(*loaded), 60);
}

const std::vector<NamedSet>& comparedSets() {
  static const std::vector<NamedSet> sets{
      {"16x10k", "figure of 16 parts, 10 000 triangles each", figureSet16},
      {"40x50k", "figure of 40 parts, 50 000 triangles each", figureSet40},
      {"telescope", "five tubes that slide in each other; joined pairs count", telescope},
      {"round_pin", "round pin in its hole, 270 degrees; the joined pair counts", roundPin},
      {"eccentric_pin", "pin with a flat off the hinge's axis in a wide hole", eccentricPin},
      {"tug", "the sample harbour tug, all ways; joined pairs told apart", tugSet},
      {"arm", "the six-axis arm of dart-doc; joined pairs told apart", arm},
  };
  return sets;
}

}  // namespace swingroom::bench
