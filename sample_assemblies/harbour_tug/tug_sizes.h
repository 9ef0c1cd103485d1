#pragma once

#include "sample_assemblies/solids.h"

/// Sizes that several parts of the tug share, mm. Frame: as the tug floats; x to the bow, y to port, z up.
/// The deckhand lies on its back in it: head to -x, front to +z.
namespace swingroom::samples::tug {

/// How far the meshes stray from round faces. Round holes are wider by that than the clearance that is wanted:
/// their facets stand into them.
constexpr double kFacetMm = 0.04;

// Hull and legs.
constexpr double kDeckZ = 18;
constexpr double kHalfBeam = 22;
constexpr double kTorsoY = 14;    ///< Half width of the torso; the arms lie outside it.
constexpr double kSternX = -36;
constexpr double kLegInnerY = 0.25;

// Hinges of the legs: one pin size, cheeks on the parent, a lug on the child.
constexpr double kPinRadius = 2;
constexpr double kPinHalfLength = 4.7;
constexpr double kPressedRadius = kPinRadius + kFacetMm + 0.005;
constexpr double kTurningRadius = kPinRadius + 0.2 + kFacetMm;  ///< 0.4 on the diameter.
constexpr double kKnuckle = 4.6;
constexpr double kPinY = 9.2;            ///< Middle of the pins of hips and knees.
constexpr Span kLugY{7.5, 10.9};
constexpr Span kCheekInY{4.4, 7.1};
constexpr Span kCheekOutY{11.3, kTorsoY};
constexpr double kHipX = 0, kHipZ = 13;
constexpr double kKneeUpX = 22, kKneeLowX = 32, kKneeZ = 4.5;
constexpr double kAnkleX = 50, kAnkleZ = 7.5, kAnkleY = 12;

// Small pins: elbows, neck, stern board.
constexpr double kSmallPinRadius = 1.5;
constexpr double kSmallPinHalfLength = 3.5;
constexpr double kSmallPressed = kSmallPinRadius + kFacetMm + 0.005;
constexpr double kSmallTurning = kSmallPinRadius + 0.2 + kFacetMm;

// Wheelhouse and its track in the torso.
constexpr double kNeckX = -12, kNeckZ = 10.6;
constexpr double kTrackTravel = 18;
constexpr double kRoofZ = 36.2;
constexpr double kWheelhouseFrontX = kNeckX + 11.3;
constexpr double kWheelhouseBackX = kNeckX - 6.7;
constexpr double kWheelhouseZ = kNeckZ + 8.4;
constexpr double kWheelhouseY = 10;

// Stern board.
constexpr double kBoardX = -39.4, kBoardZ = 3.2;

// Funnels.
constexpr double kFunnelX = -24, kFunnelY = 9;
constexpr double kFunnelRadius = 3;
constexpr double kFlangeRadius = 3.6;

// Keel and what it slides in.
constexpr double kKeelStemY = 1.8, kKeelFlangeY = 3.6;
constexpr Span kKeelFlangeZ{2.3, 4.5};
constexpr double kKeelGrip = 0.1;  ///< Overlap a side where it holds.

// Arms.
constexpr double kShoulderX = -30, kArmY = 18.5, kArmZ = 9;
constexpr double kBallRadius = 3.4;
/// No clearance once facets are taken off, so that as printed the socket grips the ball and holds the arm.
constexpr double kSocketRadius = kBallRadius + kFacetMm;
/// Asked of the arm's mesh: on spheres the mesher strays up to four times as far as it is asked to.
constexpr double kSocketFacetMm = kFacetMm / 4;
constexpr double kElbowX = -15;
constexpr double kElbowRadius = 4;
constexpr double kHandX = -4.5;

// Boathook.
constexpr double kShaftRadius = 1.5;
constexpr double kHookZ = 22.4;
constexpr double kGripHoleRadius = 1.87;

/// Half breadth of the hull: full to x = 28, then a quarter of an ellipse that is cut off at the stem.
constexpr double kStemX = 71;
constexpr double kFullToX = 28;
double halfBreadth(double x);

/// Both sides of a solid that was made for port.
inline Solid bothSides(const Solid& port) {
  return joined({port, mirroredInY(port)});
}

/// With the stern's deck edge cut back so that the head can turn over it, or not.
Solid torso(bool edgeCut = true);
constexpr double kCarriageY = 3.6;
Solid carriage(double halfWidth = kCarriageY);
constexpr Span kPaneZ{27, 32.4};
constexpr Span kPaneY{1, 8};
constexpr Span kSidePaneX{kNeckX - 3, kNeckX + 7};
Solid head();
/// Wheelhouse and neck with what is put onto them, the panes' places cut out of all.
Solid headOf(std::initializer_list<Solid> forms);
Solid window();
Solid sideWindow();
Solid funnel();
Solid bung();
constexpr double kKeelBowX = 12;
Solid keel(double bowX = kKeelBowX);
Solid sternBoard();
Solid pin();
Solid smallPin();
constexpr double kBulwark = 1.5;  ///< Thickness.
/// With a way that is narrow where the keel ends and grips, or as wide as before up to its end.
Solid thigh(double bulwarkThickness = kBulwark, bool grips = true);
Solid kneeLink(double upperHoleRadius = kTurningRadius);
Solid shin();
/// @param soleFromX  Behind it the sole is cut away, 1 deep: as drawn there is nothing behind it.
constexpr double kSoleFromX = 30;
Solid foot(double soleFromX = kSoleFromX);
Solid fender();
Solid upperArm();
Solid forearm(double elbowHoleRadius = kSmallTurning);
Solid boathook();
/// What the figure is shown on: a round base, so far below that it is not in the way while the figure is stood up.
constexpr double kQuayRadius = 137.5;
constexpr Span kQuayZ{-20, -15};
Solid quay();

}  // namespace swingroom::samples::tug
