#include <cmath>
#include <vector>

#include "sample_assemblies/harbour_tug/tug_sizes.h"

// The forward hull in halves: legs. All for port; starboard is mirrored in the assembly file.
namespace swingroom::samples::tug {
namespace {

/// Outline of the port half between two stations, `inset` inside the hull's side.
std::vector<gp_Pnt2d> halfOutline(Span x, double innerY, double inset) {
  std::vector<gp_Pnt2d> outline{{x.low, innerY}, {x.high, innerY}};
  const int steps = 24;
  for (int i = steps; i >= 0; --i) {
    const double at = x.low + (x.high - x.low) * i / steps;
    if (i > 0 && i < steps && at < kFullToX) continue;
    outline.emplace_back(at, halfBreadth(at) - inset);
  }
  return outline;
}

Solid hullPiece(Span x, Span z) {
  return prism(halfOutline(x, kLegInnerY, 0), Axis::z, z);
}

/// The hull's bottom edge is cut off at the side, from 3 up.
Solid bilged(const Solid& piece, Span x) {
  const Solid low = prism(halfOutline(x, -1, 1.6), Axis::z, {-1, 1.6});
  const Solid high = prism(halfOutline(x, -1, 0), Axis::z, {1.6, 40});
  return common(piece, joined({low, high}));
}

Solid bulwark(Span x, double thickness) {
  const Solid outer = prism(halfOutline(x, 5, 0.3), Axis::z, {kDeckZ - 1, kDeckZ + 2.2});
  const Solid inner = prism(halfOutline({x.low - 1, x.high + 1}, 4, 0.3 + thickness), Axis::z, {kDeckZ - 2, kDeckZ + 5});
  return without(outer, {inner});
}

Solid along(double x, double z, Span y, double radius) {
  return rod({x, y.low, z}, Axis::y, y.high - y.low, radius);
}

/// Half of the keel's way in the thigh: narrower at its end, where the keel grips.
Solid keelWay(bool grips) {
  const Solid flange = block({-1, grips ? 9.5 : 13}, {-1, 4}, {1.9, 4.9});
  const Solid narrow = block({9, 13}, {-1, kKeelFlangeY - kKeelGrip}, {1.9, 4.9});
  const Solid stem = block({-1, 13}, {-1, 2.2}, {-1, 2.5});
  return joined({flange, narrow, stem});
}

/// A ring that the boathook's shaft is pressed into, with a nub that holds it.
Solid hookClip() {
  const Solid post = block({12, 15}, {kArmY - 2.75, kArmY + 2.75}, {kDeckZ - 1.5, kHookZ + 2.75});
  const Solid hole = rod({11, kArmY, kHookZ}, Axis::x, 5, kGripHoleRadius);
  const Solid nub = block({13, 14}, {kArmY - 0.6, kArmY + 0.6}, {kHookZ - 2.2, kHookZ - kShaftRadius + 0.1});
  return joined({without(post, {hole}), nub});
}

/// The deck's seam along the middle: on the figure, what shows two legs.
Solid deckSeam(Span x) {
  return prism({{-1, 12.75}, {-1, 19}, {5.25, 19}}, Axis::x, x);
}

Solid porthole(double x) {
  const Solid hole = rod({x, halfBreadth(x) - 0.9, 11}, Axis::y, 5, 2.4);
  return without(hole, {rod({x, 0, 11}, Axis::y, 40, 1.7)});
}

}  // namespace

double halfBreadth(double x) {
  const double share = x < kFullToX ? 0 : (x - kFullToX) / 45;
  return kHalfBeam * std::sqrt(1 - share * share);
}

Solid thigh(double bulwarkThickness, bool grips) {
  const Span x{0.4, 26.8};
  const Solid piece = bilged(hullPiece(x, {0, kDeckZ}), {-1, 30});
  const Solid knuckleRoom = block({-1, 5.4}, {-1, 30}, {7.6, 30});
  // Below the knee's axis its end is round about it.
  const Solid kneeEnd = without(block({kKneeUpX, 28}, {-1, 30}, {-1, kKneeZ}), {along(kKneeUpX, kKneeZ, {-2, 40}, kKneeZ)});
  const Solid linkRoom = joined({along(kKneeUpX, kKneeZ, {7.1, 11.3}, 4.6), block({kKneeUpX, 28}, {7.1, 11.3}, {-1, 9.1}),
                                 block({kKneeUpX - 4.6, 28}, {7.1, 11.3}, {-1, kKneeZ})});
  const Solid fenderRoom = rod({7, kHalfBeam - 0.4, 12}, Axis::x, 16, 2.35);
  const Solid shaped = without(piece, {deckSeam({2, 30}), knuckleRoom, kneeEnd, linkRoom, keelWay(grips), fenderRoom,
                                       along(kKneeUpX, kKneeZ, {-1, 14.2}, kPressedRadius)});
  const Solid lug = without(link({kHipX, 7}, kHipZ, kKnuckle, kLugY), {along(kHipX, kHipZ, {0, 20}, kTurningRadius)});
  // The lug's bar keeps clear of the torso's cheeks beside it: they are as round as it is.
  return joined({shaped, hookClip(), lug, bulwark({6.5, 26.5}, bulwarkThickness)});
}

Solid kneeLink(double upperHoleRadius) {
  const Solid bar = link({kKneeUpX, kKneeLowX}, kKneeZ, 4.1, kLugY);
  return without(bar, {along(kKneeUpX, kKneeZ, {0, 20}, upperHoleRadius), along(kKneeLowX, kKneeZ, {0, 20}, kPressedRadius)});
}

Solid shin() {
  const Span x{27.2, kAnkleX};
  const Solid piece = bilged(hullPiece(x, {0, kDeckZ}), {20, 60});
  const Solid kneeEnd = without(block({26, kKneeLowX}, {-1, 30}, {-1, kKneeZ}), {along(kKneeLowX, kKneeZ, {-2, 40}, kKneeZ)});
  const Solid linkRoom = joined({along(kKneeLowX, kKneeZ, {7.1, 11.3}, 4.6), block({26, kKneeLowX}, {7.1, 11.3}, {-1, 9.1}),
                                 block({26, kKneeLowX + 4.6}, {7.1, 11.3}, {-1, kKneeZ})});
  const Solid heelRoom = common(along(kAnkleX, kAnkleZ, {-2, 40}, 7.9), block({30, 60}, {-2, 40}, {-2, kAnkleZ}));
  // The boot's instep stands here when the foot is turned: the towing well.
  const Solid well = block({kAnkleX - 10.9, 60}, {-2, 7.2}, {kAnkleZ - 0.4, 30});
  const Solid toeRoom = block({kAnkleX - 1.2, 60}, {-2, 40}, {kAnkleZ - 0.4, 30});
  const Solid lugRoom = along(kAnkleX, kAnkleZ, {kAnkleY - 2.1, kAnkleY + 2.1}, 5);
  const Solid shaped = without(piece, {deckSeam({20, 45}), kneeEnd, linkRoom, heelRoom, lugRoom, well, toeRoom, porthole(37),
                                       along(kKneeLowX, kKneeZ, {-1, 14.2}, kTurningRadius)});
  const Solid cheeks = joined({link({kAnkleX - 9, kAnkleX}, kAnkleZ, kKnuckle, {kAnkleY - 4.8, kAnkleY - 2.1}),
                               link({kAnkleX - 9, kAnkleX}, kAnkleZ, kKnuckle, {kAnkleY + 2.1, kAnkleY + 4.8})});
  return without(joined({shaped, cheeks, bulwark({27.5, 45}, kBulwark)}), {along(kAnkleX, kAnkleZ, {-1, kAnkleY + 4.9}, kPressedRadius)});
}

Solid foot(double soleFromX) {
  const Span x{kAnkleX + 0.4, kStemX};
  const Solid low = bilged(hullPiece(x, {0, kAnkleZ - 0.2}), {30, 72.5});
  const Solid stem = hullPiece(x, {0, kDeckZ});
  const Solid instep = common(stem, block({40, 67}, {0, 6.8}, {1.7, kDeckZ}));
  const Solid heel = common(along(kAnkleX, kAnkleZ, {kLegInnerY, 18}, 7.5),
                            prism({{kAnkleX + 1, kAnkleZ - 0.2}, {kAnkleX, kAnkleZ}, {kAnkleX - 12, kAnkleZ - 10}, {kAnkleX + 1, kAnkleZ - 10}}, Axis::y, {0, 20}));
  // Beside the lug it would meet the bars of the shin's cheeks.
  const Solid barRoom = joined({block({30, kAnkleX + 0.4}, {kAnkleY - 5.2, kAnkleY - 1.7}, {-1, 20}), block({30, kAnkleX + 0.4}, {kAnkleY + 1.7, 20}, {-1, 20})});
  const Solid lug = link({kAnkleX, kAnkleX + 5}, kAnkleZ, kKnuckle, {kAnkleY - 1.7, kAnkleY + 1.7});
  // Outwards it is open: what would be left there is a sliver.
  const Solid cheekRoom = joined({along(kAnkleX, kAnkleZ, {kAnkleY - 5.2, kAnkleY - 1.7}, 5), along(kAnkleX, kAnkleZ, {kAnkleY + 1.7, 30}, 5)});
  // Above the axis the lug is round: it turns inside the shin.
  const Solid lugTop = without(block({kAnkleX, 60}, {kAnkleY - 3, kAnkleY + 3}, {kAnkleZ, 30}),
                               {along(kAnkleX, kAnkleZ, {kAnkleY - 4, kAnkleY + 4}, kKnuckle)});
  const Solid body = without(joined({low, instep, heel}), {cheekRoom, barRoom});
  const Solid whole = without(joined({body, without(lug, {lugTop})}), {along(kAnkleX, kAnkleZ, {kAnkleY - 4, kAnkleY + 4}, kTurningRadius)});
  return soleFromX > kSoleFromX ? without(whole, {block({kSoleFromX, soleFromX}, {-1, 30}, {-1, 1})}) : whole;
}

Solid fender() {
  const Solid bar = rod({7.4, kHalfBeam - 0.4, 12}, Axis::x, 15.2, 2.25);
  return bevelled(bevelled(bar, Axis::x, 7.4, 0.5), Axis::x, 22.6, 0.5);
}

}  // namespace swingroom::samples::tug
