#include "app/models/print/snap_story.h"

#include <QCoreApplication>
#include <QStringList>
#include <cmath>

#include "core/base/transform.h"

namespace swingroom {
namespace {

class SnapText {
  Q_DECLARE_TR_FUNCTIONS(swingroom::SnapText)
};

/// Below so many times its thickness a beam is not slender: it is stiffer in shear and at its root.
constexpr double kSlender = 5;

QString snapFigure(double value, int decimals) {
  return QString::number(value, 'f', decimals);
}

QString snapPercent(double share) {
  return SnapText::tr("%1 %").arg(snapFigure(100 * share, 2));
}

QString snapMm(double mm) {
  return SnapText::tr("%1 mm").arg(snapFigure(mm, 2));
}

HookShape shapeOf(SnapKind kind) {
  if (kind == SnapKind::hookThinner) return HookShape::taperedHeight;
  return kind == SnapKind::hookNarrower ? HookShape::taperedBreadth : HookShape::constant;
}

bool isHook(SnapKind kind) {
  return kind == SnapKind::hook || kind == SnapKind::hookThinner || kind == SnapKind::hookNarrower;
}

/// The answer line by line.
class SnapTeller {
 public:
  explicit SnapTeller(const SnapAsked& asked) : asked_(asked) {}

  SnapStory tell() {
    story_.wrong = wrong();
    if (!story_.wrong.isEmpty()) return story_;
    if (isHook(asked_.kind)) {
      hook();
    } else if (asked_.kind == SnapKind::ball) {
      ball();
    } else if (asked_.kind == SnapKind::press) {
      press();
    } else {
      ring();
    }
    return story_;
  }

 private:
  double mm(SnapLength length) const { return asked_.mm(length); }
  QString wrong() const;
  void hook();
  void ring();
  void ball();
  void press();
  void strain(const QString& name, double strain, const QString& from);
  void add(const QString& name, const QString& value, const QString& from, bool bad = false) {
    story_.lines.push_back({name, value, from, bad});
  }
  void forces(const SnapForces& forces, const QString& from);
  QString spanText(const FrictionSpan& span, const QString& unit, double angleRad) const;

  const SnapAsked& asked_;
  SnapStory story_;
};

QString SnapTeller::wrong() const {
  for (const SnapLength length : lengthsOf(asked_.kind)) {
    const bool mayBeNone = length == SnapLength::bore && asked_.kind == SnapKind::press;
    if (mm(length) <= 0 && !mayBeNone) {
      return SnapText::tr("%1 is not given yet.").arg(lengthName(asked_.kind, length));
    }
  }
  const double diameter = mm(SnapLength::diameter);
  if (asked_.kind == SnapKind::hub || asked_.kind == SnapKind::press) {
    if (mm(SnapLength::outer) <= diameter) {
      return SnapText::tr("The hub has to be wider outside than inside.");
    }
  }
  if (asked_.kind == SnapKind::shaft || asked_.kind == SnapKind::press) {
    if (mm(SnapLength::bore) >= diameter) {
      return SnapText::tr("The bore has to be narrower than what it is in.");
    }
  }
  if (asked_.kind == SnapKind::ball && 2 * mm(SnapLength::lip) >= diameter) {
    return SnapText::tr("A lip of half the ball or more closes the socket.");
  }
  if (asked_.figures.friction.low > asked_.figures.friction.high) {
    return SnapText::tr("The lower friction is above the higher one.");
  }
  return {};
}

void SnapTeller::strain(const QString& name, double strain, const QString& from) {
  if (!asked_.permissible) {
    add(name, SnapText::tr("%1; not judged, no limit is given").arg(snapPercent(strain)), from);
    return;
  }
  // Equal as they are shown is not above.
  const bool above = std::round(strain * 1e4) > std::round(*asked_.permissible * 1e4);
  add(name,
      (above ? SnapText::tr("%1, above the indicative limit of %2")
             : SnapText::tr("%1, the indicative limit is %2"))
          .arg(snapPercent(strain), snapPercent(*asked_.permissible)),
      from, above);
}

QString SnapTeller::spanText(const FrictionSpan& span, const QString& unit, double angleRad) const {
  const auto number = [](double value) { return snapFigure(value, 1); };
  const QString from = snapFigure(degFromRad(lockingAngleRad(asked_.figures.friction.high)), 1);
  if (std::isinf(span.low)) {
    return SnapText::tr("locks: nothing gets past at %1°").arg(snapFigure(degFromRad(angleRad), 1));
  }
  if (std::isinf(span.high)) {
    return SnapText::tr("%1 %2 or more; may lock, from %3° on").arg(number(span.low), unit, from);
  }
  if (number(span.low) == number(span.high)) {
    return SnapText::tr("%1 %2", "figure, unit").arg(number(span.low), unit);
  }
  return SnapText::tr("%1 to %2 %3", "from, to, unit")
      .arg(number(span.low), number(span.high), unit);
}

void SnapTeller::forces(const SnapForces& forces, const QString& from) {
  const QString newton = SnapText::tr("N");
  add(SnapText::tr("Force across"), SnapText::tr("%1 N").arg(snapFigure(forces.acrossN, 1)), from);
  const QString slope = SnapText::tr(
      "W = P (µ + tan α) / (1 − µ tan α); technical guide of a "
      "plastics maker on mating and separation force");
  const QString mating = spanText(forces.matingN, newton, asked_.figures.leadInRad);
  add(SnapText::tr("To put it together"), mating, slope, std::isinf(forces.matingN.low));
  const QString release = spanText(forces.releaseN, newton, asked_.figures.returnRad);
  add(SnapText::tr("To take it apart"), release,
      SnapText::tr("the same with the angle of the return face"));
}

void SnapTeller::hook() {
  const SnapHook hook{shapeOf(asked_.kind), mm(SnapLength::length), mm(SnapLength::thickness),
                      mm(SnapLength::width)};
  const double off = mm(SnapLength::deflection);
  strain(SnapText::tr("Strain at the root"), hookStrain(hook, off),
         SnapText::tr("ε = y h / (C l²), C = %1: closed form of a slender elastic beam")
             .arg(snapFigure(hookCoefficient(hook.shape), 3)));
  if (asked_.permissible) {
    const QString turned = SnapText::tr("the same, solved for it");
    add(SnapText::tr("Thickness that just bears it"),
        snapMm(hookThicknessMm(hook, off, *asked_.permissible)), turned);
    add(SnapText::tr("Deflection that it just bears"),
        snapMm(hookDeflectionMm(hook, *asked_.permissible)), turned);
  }
  forces(hookForces(hook, off, asked_.figures),
         SnapText::tr("P = b h² E ε / (6 l): closed form of a slender elastic beam"));
  if (hook.lengthMm < kSlender * hook.thicknessMm) {
    story_.notes.push_back(
        SnapText::tr("The hook is shorter than %1 times its thickness: it is stiffer, and strained "
                     "more, than a slender beam.")
            .arg(snapFigure(kSlender, 0)));
  }
}

void SnapTeller::ring() {
  const bool hub = asked_.kind == SnapKind::hub;
  const SnapRing ring{hub ? RingGives::hub : RingGives::shaft, mm(SnapLength::diameter),
                      hub ? mm(SnapLength::outer) : mm(SnapLength::bore), asked_.remote};
  const double undercut = mm(SnapLength::undercut);
  strain(SnapText::tr("Strain round the ring"), ringStrain(undercut, ring.diameterMm),
         SnapText::tr("ε = y / d: one side gives way, the other is stiff; design guide of a "
                      "plastics maker"));
  if (asked_.permissible) {
    add(SnapText::tr("Undercut that it just bears"), snapMm(*asked_.permissible * ring.diameterMm),
        SnapText::tr("on the diameter; twice that where both sides give way alike"));
  }
  forces(ringForces(ring, undercut, asked_.figures),
         asked_.remote ? SnapText::tr("P = 3 y d E X: handbook formula, from memory")
                       : SnapText::tr("P = y d E X: handbook formula, from memory"));
}

void SnapTeller::ball() {
  const double ball = mm(SnapLength::diameter);
  const double opening = socketOpeningMm(ball, mm(SnapLength::lip));
  strain(SnapText::tr("Strain round the opening"), openingStrain(ball, opening),
         SnapText::tr("(D − opening) / opening: closed form of a ring without slits"));
  add(SnapText::tr("Opening of the socket"), snapMm(opening),
      SnapText::tr("√(D² − 4 h²), on the diameter: closed form"));
  story_.notes.push_back(
      SnapText::tr("Slits in the socket make hooks of its lip: ask for one of those, too."));
}

void SnapTeller::press() {
  const PressFit fit{mm(SnapLength::diameter),
                     mm(SnapLength::outer),
                     mm(SnapLength::bore),
                     mm(SnapLength::length),
                     mm(SnapLength::interference),
                     {},
                     {}};
  const PressHold hold = pressHold(fit, asked_.figures);
  strain(SnapText::tr("Strain round the hub"), hold.hubStrain,
         SnapText::tr("thick elastic rings: Shigley, Mechanical Engineering Design, Eqs. 7-39 to "
                      "7-47"));
  const QString rings = SnapText::tr("the same");
  add(SnapText::tr("Pressure"), SnapText::tr("%1 MPa").arg(snapFigure(hold.pressureMPa, 2)), rings);
  add(SnapText::tr("To move it along"), spanText(hold.forceN, SnapText::tr("N"), 0),
      SnapText::tr("π d l p µ"));
  add(SnapText::tr("To turn it"), spanText(hold.torqueNmm, SnapText::tr("N·mm"), 0),
      SnapText::tr("half of that times d"));
  story_.notes.push_back(
      SnapText::tr("Plastics creep: what it holds later is less. This is when it is new."));
}

}  // namespace

std::vector<SnapLength> lengthsOf(SnapKind kind) {
  using L = SnapLength;
  switch (kind) {
    case SnapKind::hook:
    case SnapKind::hookThinner:
    case SnapKind::hookNarrower:
      return {L::length, L::thickness, L::width, L::deflection};
    case SnapKind::hub:
      return {L::diameter, L::outer, L::undercut};
    case SnapKind::shaft:
      return {L::diameter, L::bore, L::undercut};
    case SnapKind::ball:
      return {L::diameter, L::lip};
    case SnapKind::press:
      return {L::diameter, L::outer, L::bore, L::length, L::interference};
  }
  return {};
}

QString lengthName(SnapKind kind, SnapLength length) {
  switch (length) {
    case SnapLength::length:
      return kind == SnapKind::press ? SnapText::tr("Length in the hub") : SnapText::tr("Length");
    case SnapLength::thickness:
      return SnapText::tr("Thickness at the root");
    case SnapLength::width:
      return SnapText::tr("Width at the root");
    case SnapLength::deflection:
      return SnapText::tr("Undercut, how far it bends");
    case SnapLength::diameter:
      return kind == SnapKind::ball    ? SnapText::tr("Diameter of the ball")
             : kind == SnapKind::press ? SnapText::tr("Diameter of the pin")
                                       : SnapText::tr("Diameter of the joint");
    case SnapLength::outer:
      return SnapText::tr("Diameter of the hub outside");
    case SnapLength::bore:
      return kind == SnapKind::press ? SnapText::tr("Bore of the pin")
                                     : SnapText::tr("Bore of the shaft");
    case SnapLength::undercut:
      return SnapText::tr("Undercut, on the diameter");
    case SnapLength::lip:
      return SnapText::tr("Lip past the ball's middle");
    case SnapLength::interference:
      return SnapText::tr("Interference, on the diameter");
    case SnapLength::count:
      break;
  }
  return {};
}

SnapStory snapStory(const SnapAsked& asked) {
  return SnapTeller(asked).tell();
}

}  // namespace swingroom
