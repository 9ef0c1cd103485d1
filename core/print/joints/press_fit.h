#pragma once

namespace swingroom {

/// What one side of a press fit is made of.
struct PressMaterial {
  double modulusMPa = 0;
  double poisson = 0;
};

/// A pin in a hub. Diameters in mm.
struct PressFit {
  double diameterMm = 0;
  double hubMm = 0;   ///< Outer diameter of the hub; larger than `diameterMm`.
  double boreMm = 0;  ///< Of a hollow pin; 0: solid.
  double lengthMm = 0;
  double interferenceMm = 0;  ///< On the diameter.
  PressMaterial hub, pin;
};

/// Pressure between the two, MPa: thick rings. Shigley, Mechanical Engineering Design, 9th ed.,
/// p. 399, Eqs. 7-39 to 7-47. 0 without interference.
double pressMPa(const PressFit& fit);
/// Tension round the hub at its bore, MPa.
double hubTensionMPa(const PressFit& fit);
/// Strain round the hub at its bore, a fraction: what the hub gives of the interference.
double hubStrain(const PressFit& fit);
/// Force along that moves the pin, N.
double pressForceN(const PressFit& fit, double friction);
/// Torque that turns it, N mm. Plastics creep: an upper bound for later.
double pressTorqueNmm(const PressFit& fit, double friction);

/// Torque that a flat ring holds, clamped with `forceN` between one pair of faces, N mm: with even
/// pressure (new) and with even wear (run in). Clutch forms of machine design.
/// @param outerMm, innerMm  Radii.
double discTorqueNmm(double forceN, double friction, double outerMm, double innerMm);
double wornDiscTorqueNmm(double forceN, double friction, double outerMm, double innerMm);

/// Torque about the band's axis of a ball pressed with `pressure` over the band from `fromMm` to
/// `toMm` along that axis, from its centre, N mm: u p 2 pi r integral of sqrt(r^2 - z^2).
double ballBandTorqueNmm(double pressureMPa, double friction, double radiusMm, double fromMm,
                         double toMm);

}  // namespace swingroom
