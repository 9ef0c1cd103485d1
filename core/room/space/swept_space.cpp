#include "core/room/space/flat_thinning.h"
#include "core/room/space/room_targets.h"
#include "core/room/space/space_mesh.h"

namespace swingroom {

Outcome<SpaceMesh> sweptSpace(const SpaceSubject& subject, std::optional<PartId> in, const SpaceSettings& settings,
                              WorkMonitor& monitor) {
  requireAskable(subject, settings);
  const PartGeometry& own = *subject.geometry.at(subject.part.index);
  if (!own.solid.isClosed()) {
    return spaceProblem(subject, "its surface is not closed, so that it has no inside", "repair the mesh first");
  }
  const SpaceMargin margin{SpaceGrid::kBallShare * settings.pitchMm, kShiftedMm};
  Eigen::AlignedBox3d box = sweptBox(subject, in);
  box.min().array() -= margin.keptFor(0) + 2 * settings.pitchMm;
  box.max().array() += margin.keptFor(0) + 2 * settings.pitchMm;
  if (auto problem = gridProblem(subject, box, settings.pitchMm)) return *problem;
  const SpaceGrid grid(box, settings.pitchMm);
  const double radius = 0.5 * box.sizes().norm() + 8 * settings.pitchMm;
  const std::vector<SweptTarget> targets{ownTarget(subject, in, margin, box.center(), radius)};
  const DistanceField field(targets);
  StageProgress progress(monitor);
  const SpaceValues values(grid, field, {}, settings.threads, progress);
  if (progress.cancelled()) return stoppedProblem(subject);
  SpaceRegions regions(values, progress.monitor());
  if (progress.cancelled()) return stoppedProblem(subject);
  blockSolid(regions, grid, targets, {&own.solid});
  // What is free is outside: its surface, turned round, holds all else.
  LatticeSurface surface = surfaceOf(values, regions, settings.threads, progress);
  thinFlats(surface, thinningAt(settings.pitchMm), progress.monitor());
  if (progress.cancelled()) return stoppedProblem(subject);
  for (Triangle& triangle : surface.mesh.triangles) std::swap(triangle[1], triangle[2]);
  auto ready = readyForFiles(std::move(surface.mesh), settings.X_FileSpace, settings.threads, progress.monitor());
  if (progress.cancelled()) return stoppedProblem(subject);
  progress.finish();
  if (!ready) return spaceProblem(subject, "what it sweeps did not come out closed", "choose another pitch");
  SpaceMesh space;
  space.mesh = std::move(ready->mesh);
  space.crossings = ready->crossings;
  space.volumeMm3 = ready->volumeMm3;
  space.pitchMm = settings.pitchMm;
  space.lossMm = margin.keptFor(0) + shrunkAt(settings.pitchMm) + 1e-3;
  double slackMm = 0;
  for (const RegionPath& path : targets[0].paths) slackMm = std::max(slackMm, path.slackMm());
  space.lossMm += slackMm;
  space.mostLossMm = settings.pitchMm + space.lossMm;
  return space;
}

}  // namespace swingroom
