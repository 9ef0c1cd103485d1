#pragma once

#include <vector>

#include "core/print/joints/fits.h"
#include "core/print/joints/joint_sides.h"
#include "core/rigging/axis_fit.h"

namespace swingroom {

/// Pins in holes between the two sides of a joint.
/// @param parts  As they stand.
/// @param onAxis  Only those on the joint's axis (hinge), or at least along it (slide).
enum class PinAxis { any, parallel, same };
std::vector<AxisFit> pinFitsOf(const std::vector<RigPart>& parts, const JointStanding& standing,
                               PinAxis axis);

/// The wall round a hole or socket, looked at across its axis in 24 directions.
struct HoleWall {
  double outerMm = 0;  ///< Outer diameter, where it is thinnest; 0: there is none.
  double open = 0;     ///< Share of a turn without wall.
};
/// @param centre_W  Of the hole, where it is looked at across `along_W`.
HoleWall holeWallOf(const RigPart& part, const Vector3d& centre_W, const Vector3d& along_W,
                    double holeRadiusMm);

/// Fills in what a joint's pins and holes say. @param fits  Not empty; of one axis unless pressed.
void describePin(const PrintSubject& subject, const std::vector<RigPart>& parts,
                 const std::vector<AxisFit>& fits, FitFigure& joint);

/// Clearance as printed, scatter, classes and reference from the clearance as modelled.
/// @param growthMm  What printing takes off it.
void describePrinted(double growthMm, double scatterMm, FitFigure& joint);

/// What printing takes off a clearance on the diameter, and its scatter; of a bought part nothing.
double roundGrowthMm(const PrintSubject& subject, PartId pin, PartId hole);
double fitScatterMm(const PrintSubject& subject, PartId a, PartId b);

}  // namespace swingroom
