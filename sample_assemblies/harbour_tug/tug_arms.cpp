#include "sample_assemblies/harbour_tug/tug_sizes.h"

// Arms and boathook. Port; starboard is mirrored in the assembly file.
namespace swingroom::samples::tug {
namespace {

Solid along(double x, double z, Span y, double radius) {
  return rod({x, y.low, z}, Axis::y, y.high - y.low, radius);
}

}  // namespace

Solid upperArm() {
  const gp_Pnt centre{kShoulderX, kArmY, kArmZ};
  const Solid bar = block({kShoulderX, kElbowX - 5}, {kArmY - 3.6, kArmY + 3.6}, {kArmZ - 4.4, kArmZ + 4.4});
  const Solid cheek = link({kElbowX - 7, kElbowX}, kArmZ, kElbowRadius, {kArmY - 3.6, kArmY - 1.6});
  const Solid other = link({kElbowX - 7, kElbowX}, kArmZ, kElbowRadius, {kArmY + 1.6, kArmY + 3.6});
  const Solid whole = joined({ball(centre, 5.6), bar, cheek, other});
  // Open to the stud, and cut out towards the head so that the arm lifts sideways.
  const Solid opening = rod({kShoulderX, kArmY - 10, kArmZ}, Axis::y, 10, 3);
  const Solid cutOut = block({kShoulderX - 10, kShoulderX}, {kArmY - 10, kArmY}, {kArmZ - 2.4, kArmZ + 2.4});
  return without(whole, {ball(centre, kSocketRadius), opening, cutOut, along(kElbowX, kArmZ, {0, 40}, kSmallPressed)});
}

Solid forearm(double elbowHoleRadius) {
  const Solid lug = link({kElbowX, kElbowX + 6}, kArmZ, kElbowRadius, {kArmY - 1.25, kArmY + 1.25});
  const Solid bar = block({kElbowX + 5, -9}, {kArmY - 3.3, kArmY + 3.3}, {kArmZ - 4.2, kArmZ + 4.2});
  const Solid fist = roundedBlock({-9.5, -1}, {kArmY - 3.5, kArmY + 3.5}, {kArmZ - 4.5, kArmZ + 4.5}, 1.5);
  const Solid nub = block({kHandX - 2.5, kHandX - kShaftRadius + 0.1}, {kArmY - 0.6, kArmY + 0.6}, {kArmZ - 0.5, kArmZ + 0.5});
  const Solid drilled = without(joined({lug, bar, fist}), {along(kElbowX, kArmZ, {0, 40}, elbowHoleRadius),
                                                           rod({kHandX, kArmY, 0}, Axis::z, 30, kGripHoleRadius)});
  return joined({drilled, nub});
}

Solid boathook() {
  const Solid shaft = rod({-27, kArmY, kHookZ}, Axis::x, 65, kShaftRadius);
  const Solid claw = prism({{32, kHookZ + 1}, {34, kHookZ + 1}, {35.5, kHookZ + 3}, {37, kHookZ + 3}, {38, kHookZ + 1.5}, {40, kHookZ + 2.5},
                            {38.5, kHookZ + 5}, {34.5, kHookZ + 5}}, Axis::y, {kArmY - 1.2, kArmY + 1.2});
  const Solid spike = prism({{36, kHookZ - 1.2}, {42, kHookZ}, {36, kHookZ + 1.2}}, Axis::y, {kArmY - 1.2, kArmY + 1.2});
  return joined({bevelled(shaft, Axis::x, -27, 0.4), claw, spike});
}

}  // namespace swingroom::samples::tug
