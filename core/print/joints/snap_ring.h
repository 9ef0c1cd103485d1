#pragma once

namespace swingroom {

/// Which of the two rings gives way; the other one is stiff.
enum class RingGives { hub, shaft };

/// An annular snap: a bead on a shaft that passes a hub of the same material. Lengths in mm.
struct SnapRing {
  RingGives gives = RingGives::hub;
  double diameterMm = 0;  ///< Of the joint.
  double otherMm = 0;     ///< The hub's outer diameter, or the bore of the shaft (0: solid).
  bool remote = false;    ///< The groove is far from the end: about 3 times as stiff.
};

/// Strain round the ring for an undercut (on the diameter), a fraction; half of it where both give
/// way alike.
double ringStrain(double undercutMm, double diameterMm);

/// Stiffness coefficient X of the elastic ring at its end: 0.62 sqrt(w - 1) / ((w^2 + 1) / (w^2 -
/// 1)
/// + nu) of a hub, w the ratio of the diameters; - nu of a shaft. Handbook formula, from memory.
double ringStiffness(const SnapRing& ring, double poisson);

/// Force across all round, N: y d E X, three times of it if remote.
double ringForceN(const SnapRing& ring, double undercutMm, double modulusMPa, double poisson);

/// Times `slopeFactor` it is the force along (core/print/joints/snap_hook.h).

/// Diameter of a socket's opening that reaches `lipMm` past the equator of its ball, mm; 0 if the
/// lip closes it.
double socketOpeningMm(double ballMm, double lipMm);
/// Strain of the opening's ring while the ball passes, a fraction; 0 if it passes freely.
double openingStrain(double ballMm, double openingMm);

}  // namespace swingroom
