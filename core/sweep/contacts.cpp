#include "core/sweep/contacts.h"

#include <algorithm>
#include <cstdio>

#include "core/sweep/deepest.h"
#include "core/sweep/interval_gap.h"
#include "core/sweep/surfaces.h"

namespace swingroom {
namespace {

constexpr double kTouchingMm = 1e-6;
constexpr double kNoLimitMm = 1000;

std::string millimetres(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f mm", mm);
  return text;
}

bool mustTouch(const Contact& contact) {
  return contact.kind == ContactKind::grip || contact.kind == ContactKind::seam;
}

bool mustOverlap(const Contact& contact) {
  return contact.overlapMm && contact.kind != ContactKind::snap;
}

bool covers(const Contact& contact, ModeId mode) {
  return std::find(contact.modes.begin(), contact.modes.end(), mode) != contact.modes.end();
}

}  // namespace

JudgedSurfaces surfacesAt(const Contact& contact, const Assembly& assembly,
                          const Configuration& standing, const AssemblyGeometry& geometry, PartId a,
                          PartId b) {
  JudgedSurfaces surfaces = judgedSurfaces(assembly, standing, geometry, a, b);
  if (!contact.place) return surfaces;
  const auto poses = posesOf(assembly, standing);
  return {cutAtPlace(*surfaces.a->mesh, poses[a.index], *contact.place).inside,
          cutAtPlace(*surfaces.b->mesh, poses[b.index], *contact.place).inside};
}

ContactReading readContact(const JudgedSurfaces& surfaces, const Solid& solidA, const Solid& solidB,
                           const Pose& X_AB) {
  if (surfaces.a->tree.empty() || surfaces.b->tree.empty()) return {};
  ContactReading reading;
  reading.gapMm =
      intervalGap(surfaces.a->tree, surfaces.b->tree, {X_AB, {}}, 0, {0, kNoLimitMm}).middleMm;
  if (*reading.gapMm > kTouchingMm) return reading;
  reading.gapMm = 0;
  const OverlapProbe probe{surfaces.a.get(), surfaces.b.get(), &solidA, &solidB};
  if (probe.canMeasure()) reading.depthMm = overlapAt(probe, X_AB).depthMm;
  return reading;
}

bool isAsked(const Contact& contact) {
  return contact.gapMm || mustTouch(contact) || mustOverlap(contact);
}

std::string faultOf(const Contact& contact, const ContactReading& reading, double resolutionMm) {
  if (contact.gapMm || mustTouch(contact)) {
    const double mostMm = contact.gapMm ? contact.gapMm->max : 0;
    if (!reading.gapMm || *reading.gapMm > mostMm + resolutionMm) {
      return mostMm > 0 ? "at most " + millimetres(mostMm) + " apart is wanted"
                        : "they should touch";
    }
  }
  if (mustOverlap(contact) && reading.depthMm.value_or(0) + resolutionMm < contact.overlapMm->min) {
    return "at least " + millimetres(contact.overlapMm->min) + " of overlap is wanted";
  }
  return "";
}

std::vector<LooseContact> looseContacts(const Assembly& assembly, const std::vector<Mode>& modes,
                                       const Sequence& sequence, const AssemblyGeometry& geometry,
                                       PartId a, PartId b, double resolutionMm) {
  std::vector<LooseContact> notes;
  const PairRule* rule = assembly.ruleFor(a, b);
  if (!rule) return notes;
  std::vector<ModeId> ends = {sequence.from};
  if (sequence.to != sequence.from) ends.push_back(sequence.to);
  for (const Contact& contact : rule->contacts) {
    for (const ModeId end : ends) {
      if (!covers(contact, end) || !isAsked(contact)) continue;
      const auto& [name, standing] = modes.at(end.index);
      const ContactReading reading = readContact(
          surfacesAt(contact, assembly, standing, geometry, a, b), geometry[a.index]->solid,
          geometry[b.index]->solid, standingStill(assembly, standing, a, b).at(0).X_AB);
      const std::string fault = faultOf(contact, reading, resolutionMm);
      if (fault.empty()) continue;
      const std::string found = reading.depthMm && *reading.depthMm > 0
                                    ? "overlap " + millimetres(*reading.depthMm)
                                : reading.gapMm ? "gap " + millimetres(*reading.gapMm)
                                                : "no surface there";
      notes.push_back({end, std::string(wordFor(contact.kind)) + " in mode " + name + ": " + found +
                                ", " + fault});
    }
  }
  return notes;
}

}  // namespace swingroom
