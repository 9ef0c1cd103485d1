#include "sample_assemblies/harbour_tug/tug_sizes.h"

// Torso, and what sits in it: keel, funnels, stern board. And what all is shown on.
namespace swingroom::samples::tug {
namespace {

/// A lug or a cheek about an axis along y: round about (`x`, `z`), reaching to `toX`.
Solid knuckle(double x, double z, double radius, double toX, Span y) {
  return link({std::min(x, toX), std::max(x, toX)}, z, radius, y);
}

Solid along(double x, double z, Span y, double radius) {
  return rod({x, y.low, z}, Axis::y, y.high - y.low, radius);
}

Solid torsoBlock(bool edgeCut) {
  const Solid chest = block({kSternX, -5.4}, {-kTorsoY, kTorsoY}, {0, kDeckZ});
  const Solid pelvis = block({-6, 0}, {-kTorsoY, kTorsoY}, {0, 7.4});
  // The wheelhouse turns over this edge: cut back to 7.9 from its axis.
  const Solid sternEdge = prism({{kSternX - 1, 15 - 0.9375}, {kSternX - 1, 20}, {-31.7, 19.03125}}, Axis::y, {-20, 20});
  const Solid whole = joined({chest, pelvis});
  const Solid cut = edgeCut ? without(whole, {sternEdge}) : whole;
  return bevelled(cut, Axis::z, 0, 1.2);
}

/// Carriage and neck run in it.
Solid track() {
  const Solid chamber = block({kSternX + 1.6, 10}, {-4, 4}, {6, 15.2});
  const Solid slit = block({kSternX - 1, 10}, {-1.6, 1.6}, {7.4, 20});
  return joined({chamber, slit});
}

Solid keelWay() {
  const Solid flange = block({kSternX + 5, 10}, {-4, 4}, {1.9, 4.9});
  const Solid narrow = block({kSternX + 2, kSternX + 6}, {-kKeelFlangeY + kKeelGrip, kKeelFlangeY - kKeelGrip}, {1.9, 4.9});
  const Solid stem = block({kSternX + 2, 10}, {-2.2, 2.2}, {-1, 2.5});
  return joined({flange, narrow, stem});
}

/// Bore with a ring at the deck that the flange stops at.
Solid funnelBore() {
  const Solid wide = rod({kFunnelX, kFunnelY, -1}, Axis::z, 1 + 16.4, 4);
  const Solid ring = rod({kFunnelX, kFunnelY, 10}, Axis::z, 20, kFunnelRadius + 0.36 + kFacetMm / 2);
  return joined({wide, ring});
}

Solid hipCheeks() {
  const Solid both = joined({knuckle(kHipX, kHipZ, kKnuckle, -7, kCheekInY), knuckle(kHipX, kHipZ, kKnuckle, -7, kCheekOutY)});
  return without(both, {along(kHipX, kHipZ, {0, 20}, kPressedRadius)});
}

Solid shoulderStud() {
  const Solid stud = rod({kShoulderX, 11.5, kArmZ}, Axis::y, kArmY - 11.5, 1.9);
  return joined({stud, ball({kShoulderX, kArmY, kArmZ}, kBallRadius)});
}

/// A tooth that the stern board's bead snaps under.
Solid tooth() {
  const Solid arm = block({-38.9, -34}, {11.2, 13.6}, {13.65, 14.9});
  const Solid nib = block({-38.6, -38}, {11.2, 13.6}, {13.35, 14});
  return joined({arm, nib});
}

Solid sternLug() {
  const Solid lug = knuckle(kBoardX, kBoardZ, 3, -36.8, {-1.25, 1.25});
  return without(lug, {along(kBoardX, kBoardZ, {-5, 5}, kSmallPressed)});
}

}  // namespace

Solid torso(bool edgeCut) {
  const Solid recess = ball({kShoulderX, kArmY, kArmZ}, 6.1);
  const Solid bare = without(torsoBlock(edgeCut), {track(), keelWay(), funnelBore(), mirroredInY(funnelBore()), recess, mirroredInY(recess)});
  const Solid sides = joined({hipCheeks(), tooth()});
  const Solid whole = joined({bare, sides, mirroredInY(sides), shoulderStud(), mirroredInY(shoulderStud()), sternLug()});
  // Cheeks and lug grew into room that others need.
  return without(whole, {block({-8, 6}, {-4, 4}, {6, 15.2})});
}

Solid keel(double bowX) {
  const Solid stem = block({-14, bowX}, {-kKeelStemY, kKeelStemY}, {0, 3});
  const Solid flange = block({-14, bowX}, {-kKeelFlangeY, kKeelFlangeY}, kKeelFlangeZ);
  return joined({stem, flange});
}

Solid funnel() {
  const double foot = 14.85;
  const double top = 29.5;
  const Solid tube = rod({kFunnelX, kFunnelY, foot}, Axis::z, top - foot, kFunnelRadius);
  const Solid flange = rod({kFunnelX, kFunnelY, foot}, Axis::z, 1.5, kFlangeRadius);
  const Solid smoke = rod({kFunnelX, kFunnelY, top - 6}, Axis::z, 7, 1.85);
  const Solid band = rod({kFunnelX, kFunnelY, top - 4.5}, Axis::z, 1.2, kFunnelRadius - 0.3);
  const Solid ringCut = without(rod({kFunnelX, kFunnelY, top - 4.5}, Axis::z, 1.2, kFunnelRadius + 1), {band});
  return bevelled(without(joined({tube, flange}), {smoke, ringCut}), Axis::z, top, 0.3);
}

Solid bung() {
  return bevelled(rod({kFunnelX, kFunnelY, 0}, Axis::z, 1.6, 3.94), Axis::z, 0, 0.4);
}

Solid sternBoard() {
  const double innerX = -36.4;
  const double outer = -39;
  const Solid board = block({outer, innerX}, {-13.4, 13.4}, {6.8, 12.6});
  const Solid bead = block({-37.7, -36.9}, {-13.4, 13.4}, {12, 13.2});
  const Solid middle = block({outer, innerX}, {-9.6, 9.6}, {12, 13.1});
  const Solid cheeks = joined({along(kBoardX, kBoardZ, {1.65, 3.65}, 3), along(kBoardX, kBoardZ, {-3.65, -1.65}, 3),
                               block({outer, kBoardX + 2.6}, {1.65, 3.65}, {kBoardZ, 8}), block({outer, kBoardX + 2.6}, {-3.65, -1.65}, {kBoardZ, 8})});
  const Solid whole = joined({board, bead, middle, cheeks});
  const Solid lugRoom = along(kBoardX, kBoardZ, {-1.65, 1.65}, 3.4);
  return without(whole, {along(kBoardX, kBoardZ, {-6, 6}, kSmallTurning), lugRoom});
}

Solid pin() {
  const Solid bar = rod({0, -kPinHalfLength, 0}, Axis::y, 2 * kPinHalfLength, kPinRadius);
  return bevelled(bevelled(bar, Axis::y, -kPinHalfLength, 0.3), Axis::y, kPinHalfLength, 0.3);
}

Solid quay() {
  return rod({0, 0, kQuayZ.low}, Axis::z, kQuayZ.high - kQuayZ.low, kQuayRadius);
}

Solid smallPin() {
  const Solid bar = rod({0, -kSmallPinHalfLength, 0}, Axis::y, 2 * kSmallPinHalfLength, kSmallPinRadius);
  return bevelled(bevelled(bar, Axis::y, -kSmallPinHalfLength, 0.3), Axis::y, kSmallPinHalfLength, 0.3);
}

}  // namespace swingroom::samples::tug
