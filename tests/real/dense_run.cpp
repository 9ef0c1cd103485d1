#include "tests/real/dense_run.h"

#include <algorithm>

namespace swingroom::real {
namespace {

/// Further from a stretch's end than the 1e-4 within which ends are told.
constexpr double kBesideEnd = 1.2e-4;

void lessen(std::optional<double>& least, double gapMm) {
  least = least ? std::min(*least, gapMm) : gapMm;
}

}  // namespace

std::vector<double> instantsOf(const Sequence& sequence, int perStep, const PairResult& told) {
  std::vector<double> instants;
  const int count = perStep * static_cast<int>(sequence.steps.size());
  for (int i = 0; i <= count; ++i) instants.push_back(static_cast<double>(i) / count);
  for (const Stretch& stretch : told.stretches) {
    for (const double end : {stretch.from, stretch.to}) {
      for (const double beside : {end - kBesideEnd, end + kBesideEnd}) {
        if (beside > 0 && beside < 1) instants.push_back(beside);
      }
    }
  }
  if (told.gap.instant) instants.push_back(*told.gap.instant);
  if (told.joint && told.joint->gap.instant) instants.push_back(*told.joint->gap.instant);
  std::sort(instants.begin(), instants.end());
  return instants;
}

double gapAt(const Assembly& assembly, const Configuration& configuration, PartId a, PartId b,
             const Surface& surfaceA, const Surface& surfaceB) {
  const std::vector<Pose> poses = posesOf(assembly, configuration);
  const Pose X_AB = poses[a.index].inverse() * poses[b.index];
  return gapBetween(surfaceA.gapModel(), surfaceB.gapModel(), X_AB).gapMm;
}

std::vector<DenseSample> denseRun(const Assembly& assembly, const Sequence& sequence,
                                  const AssemblyGeometry& geometry, PartId a, PartId b,
                                  const std::vector<double>& instants) {
  const PairPlan plan = planPair(assembly, sequence, geometry, a, b, assembly.resolutionMm());
  std::vector<DenseSample> samples;
  for (const double instant : instants) {
    const Configuration at = configurationAt(assembly, sequence, instant);
    const auto gap = [&](const Surface& surfaceA, const Surface& surfaceB) {
      return gapAt(assembly, at, a, b, surfaceA, surfaceB);
    };
    DenseSample sample;
    sample.instant = instant;
    sample.wholeMm = gap(*geometry[a.index]->surface, *geometry[b.index]->surface);
    for (const PlannedTrack& track : plan.tracks) {
      const double gapMm = gap(*track.a, *track.b);
      if (track.role == TrackRole::outside) lessen(sample.outsideMm, gapMm);
      if (track.role == TrackRole::zone) lessen(sample.insideMm, gapMm);
      if (track.role == TrackRole::zoneRim) lessen(sample.rimMm, gapMm);
    }
    samples.push_back(sample);
  }
  return samples;
}

}  // namespace swingroom::real
