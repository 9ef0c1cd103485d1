#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/finding.h"
#include "core/print/joints/iso286.h"
#include "core/print/subject.h"

namespace swingroom {

/// What a joint's two parts do at its fit.
enum class FitDuty {
  turns,    ///< Hinge: the pin turns in the hole.
  pressed,  ///< Fixed: the pin has to stay in the hole.
  slides,
  swivels,  ///< Ball in its socket.
};

enum class FitShape {
  none,  ///< Nothing was found that fits: not judged.
  pin,   ///< Round pin in a round hole.
  ball,
  guide,  ///< Flat faces that guide a slide: clearances are sums of both sides.
};

/// From the least to the most, mm.
struct FitSpan {
  double leastMm = 0, mostMm = 0;

  bool operator==(const FitSpan&) const = default;
};

/// A length of the pin in one stretch of hole.
struct FitAlong {
  double fromMm = 0, toMm = 0;   ///< Along the axis from `FitFigure::at_W`.
  double pinMm = 0, holeMm = 0;  ///< Diameters of the circles that were meshed.
  FitSpan clearanceMm;           ///< On the diameter: least with the facets counted, most without.

  bool operator==(const FitAlong&) const = default;
};

/// What faces a joint's child along its axis, on both sides.
struct AxialStop {
  double apartMm = 0;    ///< Sum of both sides' gaps, as modelled; negative: the child is squeezed.
  double printedMm = 0;  ///< The same as printed.
  double lugMm = 0;      ///< Thickness of what stands between the faces of the other.
  double cheekMm = 0;    ///< Thickness of the other behind its face, the thinner of the two.
  double radiusMm = 0;   ///< How far from the axis faces face each other; from `innerMm` on.
  double innerMm = 0;

  bool operator==(const AxialStop&) const = default;
};

/// A ball's way into its socket.
struct SocketLip {
  double lipMm = 0;      ///< How far the socket reaches past the ball's equator; 0: it does not.
  double openingMm = 0;  ///< Diameter of the widest straight way out, at most the ball's own.
  Vector3d outwards_W = Vector3d::UnitZ();  ///< That way.
  double strain = 0;     ///< Of a whole ring of this opening while the ball passes; a fraction.
  double ringShare = 0;  ///< How much of a turn the lip goes round.
  bool slotted() const { return ringShare < 0.97; }

  bool operator==(const SocketLip&) const = default;
};

/// A pin whose end is wider than the hole or slot that it went through, with something wider
/// behind, too.
struct PegHead {
  double headMm = 0, holeMm = 0;  ///< Diameters; of a slot its width.
  bool inSlot = false;            ///< Its walls bend apart: the ring's strain is too much.
  double strain = 0;  ///< Of a whole ring of this hole while the head passes; a fraction.
  bool slotted =
      false;  ///< The peg has a slot: its halves bend, and the ring's strain is too much.

  bool operator==(const PegHead&) const = default;
};

/// How a joint's parts fit, with every joint at 0 or in the first mode that brings them together.
struct FitFigure {
  JointId joint;
  FitDuty duty = FitDuty::pressed;
  FitShape shape = FitShape::none;
  PartId pinPart, holePart;    ///< Or of ball and socket, or the child and what guides it.
  std::optional<ModeId> mode;  ///< None: every joint at 0.
  Vector3d at_W = Vector3d::Zero(), along_W = Vector3d::UnitZ();
  double pinMm = 0, holeMm = 0;  ///< Diameters where it is tightest.
  std::vector<FitAlong> along;   ///< Of a pin, by `fromMm`.
  double lengthMm = 0;           ///< In the hole, all stretches together.
  double spanMm = 0;             ///< From the first stretch's beginning to the last one's end.
  double hubMm = 0;              ///< Outer diameter of the hole's wall, where it is thinnest.
  double openShare = 0;          ///< Of a turn that the hole's wall is open, as a clip's.
  double offAxisMm = 0;
  bool gripped = false;  ///< Something of the hole's part stands into the pin.
  FitSpan clearanceMm;   ///< On the diameter, as modelled: least with the facets counted.
  FitSpan printedMm;     ///< The same as printed: pins grow, holes shrink.
  double scatterMm = 0;  ///< Of both prints together, plus or minus, on the diameter.
  FitClass modelledClass = FitClass::clearance;
  FitClass printedClass = FitClass::clearance;  ///< With the scatter.
  std::optional<IsoReference> isoReference;  ///< A machined fit of about the clearance as modelled.
  std::optional<AxialStop> axial;            ///< None: nothing stops it along the axis.
  std::optional<SocketLip> lip;
  std::optional<PegHead> head;
  std::string reason;  ///< Of `none`: what was looked for.

  /// With the scatter, on the diameter.
  FitSpan bandMm() const { return {printedMm.leastMm - scatterMm, printedMm.mostMm + scatterMm}; }
  bool operator==(const FitFigure&) const = default;
};

struct FitsResult {
  std::vector<FitFigure> fits;  ///< By JointId, one each.

  bool operator==(const FitsResult&) const = default;
};

/// Fits of every joint. Pins and holes are those that are found in the meshes (or given exactly);
/// parts that are fixed to the joint's two parts count as theirs.
/// The same for any number of threads; once `monitor` is cancelled the rest is `none`.
FitsResult checkFits(const PrintSubject& subject, WorkMonitor& monitor);

/// Findings and hints, by joint:
/// - a hinge, slide or ball binds (`tightFit`): its clearance as printed is nothing, or as modelled
///   it is below the process's least;
/// - a hinge flops (`looseFit`): above the process's most, as modelled;
/// - a hinge or ball whose wanted fit (`fit`) is no clearance is to hold by friction: it is judged
///   like a pressed pin, not as one that has to move freely;
/// - a pressed pin falls out (`looseFit`): as printed, before any scatter, the hole is as wide as
///   the pin. If it is narrower by less than two prints differ by (the root of the squares of both
///   scatters) it is a hint: some prints let it fall out. Not asked where the maker wants clearance
///   (`fit` above 0: glued), something else grips the pin, or either gives way by design;
/// - a pressed pin strains the wall round it (thick ring) more than the material takes once
///   (`strained`): as modelled a finding, only as printed a hint, for prints shave off and yield;
/// - the fit is not what is wanted (`unwantedFit`): `Joint::fitMm` lies outside the clearances from
///   the least with facets to the most without by more than 0.05 mm and the facets' share;
/// - snapping in strains more than the material takes once (`strained`); a hint where the lip or
///   the peg is slotted, for then the ring's strain is an upper bound.
void addFitFindings(const PrintSubject& subject, const FitsResult& result, PrintFindings& findings);

}  // namespace swingroom
