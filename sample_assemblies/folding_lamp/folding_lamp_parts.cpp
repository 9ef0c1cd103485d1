#include "sample_assemblies/mesh_export.h"
#include "sample_assemblies/samples.h"
#include "sample_assemblies/solids.h"

// The parts of a desk lamp whose frames lie one inside the other when it is folded.
//
// Frame: as it lies folded; x along the lamp, z up from the table. The frames that lie in it are as
// thick as kBarZ, about kMidZ, and every pin across them lies in that plane. Across, from outside
// in: base, stem, arm, head, each kSideGap from the next.
namespace swingroom::samples {
namespace {

constexpr double kMidZ = 12.9;
constexpr double kBarRadius = 4.5;  // Half the height of a frame's bars, and their ends' radius.
constexpr Span kBarZ{kMidZ - kBarRadius, kMidZ + kBarRadius};
constexpr double kBarWidth = 4;
constexpr double kSideGap = 0.4;

constexpr double kPinRadius = 2;
constexpr double kHoleRadius = 2.22;  // 0.02 more than wanted: its facets stand inside the circle.
constexpr double kPivotRadius = 7;
constexpr double kPivotHoleRadius = 7.22;
constexpr double kPressedGap = 0.02;

constexpr double kBaseX = 48;    // Pin of base and stem.
constexpr double kElbowX = -48;  // Pins of stem and arm.
constexpr double kHeadX = 28;    // Pins of arm and head.

// Half widths, from inside out.
constexpr double kHeadY = 12;
constexpr Span kArmY{kHeadY + kSideGap, kHeadY + kSideGap + kBarWidth};
constexpr Span kStemY{kArmY.high + kSideGap, kArmY.high + kSideGap + kBarWidth};
constexpr double kTrayY = kStemY.high + kSideGap;

constexpr double kRailY = 5;    // Half width of the head's rail.
constexpr double kRailZ = 2.5;  // Half height.
constexpr double kStopX = 10;   // The stop pin, folded.
constexpr double kStopRadius = 1.5;
constexpr double kTravel = 14;

// The bell's sides are arcs that come nearest to its middle at the waist.
constexpr double kWaistX = 10;
constexpr double kWaistY = 7;
constexpr double kBellRadius = 159.26;

constexpr Span kFootZ{0, 5};
constexpr Span kTrayZ{5.4, kBarZ.high};
constexpr double kTrayFloorZ = 7.8;

Solid hole(double x, double radius) {
  return rod({x, -40, kMidZ}, Axis::y, 80, radius);
}

Solid slab(Span z) {
  return roundedBlock({-62, 62}, {-29, 29}, z, 14);
}

Solid foot() {
  const Solid plate =
      bevelled(bevelled(slab(kFootZ), Axis::z, kFootZ.low, 0.8), Axis::z, kFootZ.high, 0.6);
  const Solid pivot = rod({0, 0, kFootZ.high - 1}, Axis::z, 2.6 + 1, kPivotRadius);
  return joined({plate, bevelled(pivot, Axis::z, 7.6, 0.5)});
}

/// A tray on the foot that all frames lie in.
Solid base() {
  const Solid whole =
      bevelled(bevelled(slab(kTrayZ), Axis::z, kTrayZ.low, 0.6), Axis::z, kTrayZ.high, 1.2);
  const Solid room = block({-53.1, 53.1}, {-kTrayY, kTrayY}, {kTrayFloorZ, 30});
  const Solid pivotHole = rod({0, 0, 0}, Axis::z, 10, kPivotHoleRadius);
  const Solid fingerNotch = rod({-70, 0, kTrayZ.high + 3}, Axis::x, 20, 11);
  return without(whole, {room, pivotHole, hole(kBaseX, kPinRadius + kPressedGap), fingerNotch});
}

Solid basePin() {
  const Solid pin = rod({kBaseX, -27.6, kMidZ}, Axis::y, 55.2, kPinRadius);
  return bevelled(bevelled(pin, Axis::y, -27.6, 0.4), Axis::y, 27.6, 0.4);
}

/// One bar of a frame on the +y side, its outer edges bevelled.
Solid sideBar(Span x, Span y) {
  return bevelled(link(x, kMidZ, kBarRadius, y), Axis::y, y.high, 0.8);
}

/// A block that fills the corner between a side bar, whose inner face is at y, and a cross bar,
/// whose inner face is at x and faces to -x (`way` = -1) or +x.
Solid cornerWeb(double x, double y, double way) {
  const double size = 4;
  return prism({{x - way, y + 1},
                {x + way * size, y + 1},
                {x + way * size, y},
                {x, y - size},
                {x - way, y - size}},
               Axis::z, kBarZ);
}

Solid stem() {
  const Solid bar = sideBar({kElbowX, kBaseX}, kStemY);
  const Solid knuckle = link({kBaseX - 3, kBaseX}, kMidZ, kBarRadius, {12.8, kStemY.low + 1});
  const Solid web = cornerWeb(38.5, kStemY.low, -1);
  const Solid cross = block({38.5, 44}, {-kStemY.low - 1, kStemY.low + 1}, kBarZ);
  const Solid frame =
      joined({bar, mirroredInY(bar), knuckle, mirroredInY(knuckle), web, mirroredInY(web), cross});
  return without(frame, {hole(kBaseX, kHoleRadius), hole(kElbowX, kHoleRadius)});
}

/// A pin that grows out of a side face at y, on the +y side.
Solid stubPin(double x, double y) {
  const double reach = kSideGap + kBarWidth - 0.4;
  return bevelled(rod({x, y - 1, kMidZ}, Axis::y, 1 + reach, kPinRadius), Axis::y, y + reach, 0.4);
}

Solid arm() {
  const Solid bar = sideBar({kElbowX, kHeadX}, kArmY);
  const Solid knuckle =
      link({kElbowX, kElbowX + 5}, kMidZ, kBarRadius, {-kArmY.low - 1, kArmY.low + 1});
  const Solid web = cornerWeb(kElbowX + 9, kArmY.low, 1);
  const Solid cross = block({kElbowX + 3, kElbowX + 9}, {-kArmY.low - 1, kArmY.low + 1}, kBarZ);
  const Solid drilled =
      without(joined({bar, mirroredInY(bar), knuckle, cross, web, mirroredInY(web)}),
              {hole(kHeadX, kHoleRadius)});
  const Solid pin = stubPin(kElbowX, kArmY.high);
  return joined({drilled, pin, mirroredInY(pin)});
}

/// The neck: a knuckle with two pins and a flat rail with a slot for the shade's stop pin.
Solid head() {
  const Solid knuckle = link({26, kHeadX}, kMidZ, kBarRadius, {-kHeadY, kHeadY});
  const Solid shoulder =
      prism({{26, -kHeadY}, {26, kHeadY}, {22, kHeadY}, {18, 7}, {18, -7}, {22, -kHeadY}}, Axis::z,
            kBarZ);
  const Solid rail = block({-13, 20}, {-kRailY, kRailY}, {kMidZ - kRailZ, kMidZ + kRailZ});
  const Solid bulb = rod({-13, 0, kMidZ - kRailZ}, Axis::z, 2 * kRailZ, kRailY);
  const double ends = kStopRadius + 0.4;
  const Solid slot = block({kStopX - kTravel - ends, kStopX + ends}, {-ends, ends}, {0, 30});
  const Solid pin = stubPin(kHeadX, kHeadY);
  const Solid neck = joined({knuckle, shoulder, rail, bulb});
  return joined({without(neck, {slot}), pin, mirroredInY(pin)});
}

/// A flat bell that slides along the rail; wide end and hollow to -x.
Solid shade() {
  const double wall = 1.6;
  const double gap = 0.4;
  const Solid whole = waistedSlab({kWaistX, kWaistY}, kBellRadius, {-28, 17.4}, kBarZ);
  const Solid outside =
      bevelled(bevelled(whole, Axis::z, kBarZ.low, 0.8), Axis::z, kBarZ.high, 0.8);
  const Span insideZ{kMidZ - kRailZ - gap, kMidZ + kRailZ + gap};
  const Solid bell = waistedSlab({kWaistX, kWaistY - wall}, kBellRadius + wall, {-29, 2}, insideZ);
  const Solid channel = block({1, 18}, {-kRailY - gap, kRailY + gap}, insideZ);
  return without(outside,
                 {bell, channel, rod({kStopX, 0, 0}, Axis::z, 30, kStopRadius + kPressedGap)});
}

Solid stopPin() {
  const double length = 2 * (kBarRadius - 0.4);
  return rod({kStopX, 0, kMidZ - length / 2}, Axis::z, length, kStopRadius);
}

}  // namespace

std::vector<PartMesh> foldingLampParts() {
  return {{"foot", meshed(foot())},        {"base", meshed(base())},
          {"base_pin", meshed(basePin())}, {"stem", meshed(stem())},
          {"arm", meshed(arm())},          {"head", meshed(head())},
          {"shade", meshed(shade())},      {"stop_pin", meshed(stopPin())}};
}

}  // namespace swingroom::samples
