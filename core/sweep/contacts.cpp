#include "core/sweep/contacts.h"

#include <algorithm>
#include <cstdio>
#include <optional>

#include "core/sweep/deepest.h"
#include "core/sweep/interval_gap.h"
#include "core/sweep/plan.h"
#include "core/sweep/surfaces.h"

namespace swingroom {
namespace {

const char* wordFor(ContactKind kind) {
  switch (kind) {
    case ContactKind::grip:
      return "grip";
    case ContactKind::rest:
      return "rest";
    case ContactKind::snap:
      return "snap";
    case ContactKind::seam:
      return "seam";
  }
  return "";
}

std::string millimetres(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f mm", mm);
  return text;
}

/// How far apart the parts may be; none: it is not asked.
std::optional<double> mostGapMm(const Contact& contact, double resolutionMm) {
  if (contact.gapMm) return contact.gapMm->max + resolutionMm;
  const bool mustTouch = contact.kind == ContactKind::grip || contact.kind == ContactKind::seam;
  return mustTouch ? std::optional(resolutionMm) : std::nullopt;
}

}  // namespace

std::vector<std::string> looseContacts(const Assembly& assembly, const std::vector<Mode>& modes,
                                       const Sequence& sequence, const AssemblyGeometry& geometry, PartId a, PartId b,
                                       double resolutionMm) {
  std::vector<std::string> notes;
  const PairRule* rule = assembly.ruleFor(a, b);
  if (!rule) return notes;
  const auto judge = [&](const Contact& contact, const Mode& mode) {
    const auto most = mostGapMm(contact, resolutionMm);
    if (!most && !contact.overlapMm) return;
    const auto poses = posesOf(assembly, mode.configuration);
    auto [surfaceA, surfaceB] = judgedSurfaces(assembly, mode.configuration, geometry, a, b);
    if (contact.place) {
      surfaceA = cutAtPlace(*surfaceA->mesh, poses[a.index], *contact.place).inside;
      surfaceB = cutAtPlace(*surfaceB->mesh, poses[b.index], *contact.place).inside;
    }
    const Pose X_AB = poses[a.index].inverse() * poses[b.index];
    const std::string start = std::string(wordFor(contact.kind)) + " in mode " + mode.name + ": ";
    const double gapMm = intervalGap(surfaceA->tree, surfaceB->tree, {X_AB, {}}, 0, {0, 1000}).middleMm;
    if (most && gapMm > *most) {
      notes.push_back(start + "gap " + millimetres(gapMm) + ", at most " +
                      millimetres(contact.gapMm ? contact.gapMm->max : 0) + " wanted");
      return;
    }
    if (!contact.overlapMm || contact.kind == ContactKind::snap) return;
    const OverlapProbe probe{surfaceA.get(), surfaceB.get(), &geometry[a.index]->solid, &geometry[b.index]->solid};
    const double depthMm = overlapAt(probe, X_AB).depthMm;
    if (depthMm + resolutionMm < contact.overlapMm->min) {
      notes.push_back(start + "overlap " + millimetres(depthMm) + ", at least " +
                      millimetres(contact.overlapMm->min) + " wanted");
    }
  };
  std::vector<ModeId> ends = {sequence.from};
  if (sequence.to != sequence.from) ends.push_back(sequence.to);
  for (const Contact& contact : rule->contacts) {
    for (const ModeId mode : ends) {
      const bool covers = std::find(contact.modes.begin(), contact.modes.end(), mode) != contact.modes.end();
      if (covers) judge(contact, modes.at(mode.index));
    }
  }
  return notes;
}

}  // namespace swingroom
