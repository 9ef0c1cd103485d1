#include "core/room/space/room_space.h"

#include <algorithm>
#include <cmath>

#include "core/room/space/flat_thinning.h"
#include "core/room/space/own_solid.h"
#include "core/room/space/room_targets.h"
#include "core/room/space/solid_merge.h"
#include "core/room/space/space_mesh.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

class RoomFinder {
 public:
  RoomFinder(const SpaceSubject& subject, const SpaceSettings& settings, WorkMonitor& monitor)
      : subject_(subject),
        settings_(settings),
        progress_(monitor),
        own_(*subject.geometry.at(subject.part.index)),
        margin_{SpaceGrid::kBallShare * settings.pitchMm, kShiftedMm},
        zones_(subject.assembly, subject.part, margin_.keptFor(0)) {}

  Outcome<SpaceMesh> run() {
    if (!own_.solid.isClosed()) {
      return spaceProblem(subject_, "its surface is not closed, so that it has no inside",
                          "repair the mesh first: its room is to hold its own solid");
    }
    const Eigen::AlignedBox3d box = boxOfRoom();
    if (auto problem = gridProblem(subject_, box, settings_.pitchMm)) return *problem;
    const SpaceGrid grid(box, settings_.pitchMm);
    const std::vector<SweptTarget> targets = targetsIn(box);
    const DistanceField field(targets);
    const SpaceValues values(grid, field, bounds(), settings_.threads, progress_);
    if (progress_.cancelled()) return stoppedProblem(subject_);
    const SpaceRegions regions = regionsOf(values, targets);
    if (progress_.cancelled()) return stoppedProblem(subject_);
    LatticeSurface surface = surfaceOf(values, regions, settings_.threads, progress_);
    thinFlats(surface, thinningAt(settings_.pitchMm), progress_.monitor());
    if (progress_.cancelled()) return stoppedProblem(subject_);
    setLosses(targets);
    return withOwn(surface, regions, grid);
  }

 private:
  Eigen::AlignedBox3d boxOfRoom() const {
    if (const auto* box = std::get_if<WithinBox>(&settings_.within)) return box->box_P;
    return grown(boundsOf(*own_.surface->mesh), std::get<WithinGrown>(settings_.within).byMm);
  }
  static Eigen::AlignedBox3d grown(const Eigen::AlignedBox3d& box, double byMm) {
    return {box.min() - Vector3d::Constant(byMm), box.max() + Vector3d::Constant(byMm)};
  }

  std::vector<SweptTarget> targetsIn(const Eigen::AlignedBox3d& box) const {
    return roomTargets(subject_, margin_, box.center(), 0.5 * box.sizes().norm() + 8 * settings_.pitchMm);
  }

  static double inBox(const Eigen::AlignedBox3d& box, const Vector3d& p) {
    return std::min((p - box.min()).minCoeff(), (box.max() - p).minCoeff());
  }

  SpaceBounds bounds() const {
    SpaceBounds bounds;
    bounds.outside = [this](const Vector3d& p) { return zones_.at(p); };
    if (const auto* box = std::get_if<WithinBox>(&settings_.within)) {
      bounds.within = [box = box->box_P](const Vector3d& p, double) { return inBox(box, p); };
    } else {
      const double byMm = std::get<WithinGrown>(settings_.within).byMm;
      bounds.within = [this, byMm](const Vector3d& p, double capMm) { return inGrown(p, byMm, capMm); };
    }
    return bounds;
  }

  double inGrown(const Vector3d& p, double byMm, double capMm) const {
    const auto near = closestPoint(own_.surface->tree, p, {byMm + capMm, std::max(0.0, byMm - capMm), 0, {}});
    const double value = near ? byMm - near->distanceMm : -capMm;
    if (value >= capMm || !own_.solid.contains(p)) return value;
    if (capMm <= byMm) return capMm;
    const auto above = closestPoint(own_.surface->tree, p, {capMm - byMm, 0, 0, {}});
    return above ? byMm + above->distanceMm : capMm;
  }

  SpaceRegions regionsOf(const SpaceValues& values, const std::vector<SweptTarget>& targets) const {
    SpaceRegions regions(values, progress_.monitor());
    if (progress_.cancelled()) return regions;
    std::vector<const Solid*> solids;
    for (const SweptTarget& target : targets) solids.push_back(&subject_.geometry[target.part.index]->solid);
    blockSolid(regions, values.grid(), targets, solids);
    return regions;
  }

  void setLosses(const std::vector<SweptTarget>& targets) {
    space_.pitchMm = settings_.pitchMm;
    for (const SweptTarget& target : targets) {
      double lossMm = target.keptMm - target.neededMm + shrunkAt(settings_.pitchMm) + 1e-3;
      double slackMm = 0;
      for (const RegionPath& path : target.paths) slackMm = std::max(slackMm, path.slackMm());
      lossMm += slackMm;
      double& most = target.neededMm > 0 ? space_.lossMm : space_.lossAtTouchMm;
      most = std::max(most, lossMm);
    }
    if (!zones_.empty()) space_.lossAtTouchMm = std::max(space_.lossAtTouchMm, margin_.keptFor(0) + shrunkAt(settings_.pitchMm));
    space_.mostLossMm = settings_.pitchMm + std::max(space_.lossMm, space_.lossAtTouchMm);
  }

  /// The part's own solid, cut where it does not pass with others.
  std::optional<TriangleMesh> ownSolid() {
    std::vector<PartId> objecting = objectionsTo(subject_, settings_.threads, progress_.monitor());
    if (objecting.empty() || progress_.cancelled()) return *own_.surface->mesh;
    for (const PartId part : objecting) space_.objections.push_back({part});
    const Eigen::AlignedBox3d box = grown(boundsOf(*own_.surface->mesh), settings_.pitchMm);
    if (gridProblem(subject_, box, settings_.pitchMm)) return std::nullopt;
    const SpaceGrid grid(box, settings_.pitchMm);
    std::vector<SweptTarget> targets = targetsIn(box);
    std::erase_if(targets, [&](const SweptTarget& target) {
      return std::find(objecting.begin(), objecting.end(), target.part) == objecting.end();
    });
    const DistanceField field(targets);
    const ZoneDistance inZones(subject_.assembly, subject_.part, 0);
    SpaceBounds bounds;
    bounds.within = [&](const Vector3d& p, double) { return inBox(box, p); };
    bounds.opened = [&](const Vector3d& p) { return -inZones.at(p); };
    const SpaceValues values(grid, field, bounds, settings_.threads, progress_);
    const SpaceRegions regions = regionsOf(values, targets);
    if (progress_.cancelled()) return std::nullopt;
    LatticeSurface allowed = surfaceOf(values, regions, settings_.threads, progress_);
    if (progress_.cancelled() || allowed.mesh.triangles.empty()) return std::nullopt;
    const auto merge = SolidMerge::of(allowed.mesh, *own_.surface->mesh, progress_.monitor());
    if (!merge) return std::nullopt;
    return merge->common();
  }

  /// Regions that hold a corner of the part, or lie in it.
  std::vector<bool> regionsAtOwn(const SpaceRegions& regions, const SpaceGrid& grid) const {
    std::vector<bool> atOwn(regions.count() + 1, false);
    for (std::uint32_t region = 1; region <= regions.count(); ++region) {
      const std::uint32_t node = regions.nodeOf(region);
      if (regions.at(node) != SpaceRegions::kBlocked) atOwn[region] = own_.solid.contains(grid.positionOf(node));
    }
    for (const Vector3d& corner : own_.solid.shellCorners()) {
      if (const auto node = grid.nodeNear(corner)) atOwn[regions.at(*node)] = true;
    }
    atOwn[SpaceRegions::kBlocked] = false;
    return atOwn;
  }

  Problem tooNearProblem() const {
    const Part& other = subject_.assembly.part(space_.objections.front().part);
    return spaceProblem(subject_, "comes too near " + other.name + " as it is",
                        "bring it clear first, the check says where: what is left of it could not be joined with its room");
  }

  Outcome<SpaceMesh> withOwn(const LatticeSurface& surface, const SpaceRegions& regions, const SpaceGrid& grid) {
    const std::optional<TriangleMesh> own = ownSolid();
    if (progress_.cancelled()) return stoppedProblem(subject_);
    const bool hasOwn = own && !own->triangles.empty();
    if (!hasOwn && surface.mesh.triangles.empty()) {
      return spaceProblem(subject_, "has no room here at all", "other parts come too near everywhere");
    }
    std::vector<bool> counts = regionsAtOwn(regions, grid);
    std::optional<SolidMerge> merge;
    if (hasOwn) {
      merge = SolidMerge::of(surface.mesh, *own, progress_.monitor());
      if (progress_.cancelled()) return stoppedProblem(subject_);
      if (!merge && !space_.objections.empty()) return tooNearProblem();
      if (!merge) {
        return spaceProblem(subject_, "its surface crosses itself or is not manifold",
                            "repair the mesh first: its room is to hold its own solid");
      }
      for (std::size_t t = 0; t < surface.regions.size(); ++t) {
        if (merge->crossed()[t]) counts[surface.regions[t]] = true;
      }
    }
    leaveOutPockets(surface, regions, counts);
    std::vector<bool> kept(surface.regions.size());
    for (std::size_t t = 0; t < kept.size(); ++t) kept[t] = counts[surface.regions[t]];
    auto ready = readyForFiles(merge ? merge->united(kept) : only(surface.mesh, kept), settings_.X_FileSpace,
                               settings_.threads, progress_.monitor());
    if (progress_.cancelled()) return stoppedProblem(subject_);
    progress_.finish();
    if (!ready) return spaceProblem(subject_, "its room did not come out closed", "choose another pitch");
    space_.mesh = std::move(ready->mesh);
    space_.crossings = ready->crossings;
    space_.volumeMm3 = ready->volumeMm3;
    return std::move(space_);
  }

  void leaveOutPockets(const LatticeSurface& surface, const SpaceRegions& regions, const std::vector<bool>& counts) {
    const std::vector<double> volumes = volumesOf(surface, regions.count());
    for (std::uint32_t region = 1; region <= regions.count(); ++region) {
      if (counts[region] || regions.at(regions.nodeOf(region)) == SpaceRegions::kBlocked) continue;
      ++space_.pocketsLeftOut;
      space_.pocketsMm3 += volumes[region];
    }
  }

  static TriangleMesh only(const TriangleMesh& mesh, const std::vector<bool>& kept) {
    TriangleMesh some{mesh.vertices, {}};
    for (std::size_t t = 0; t < kept.size(); ++t) {
      if (kept[t]) some.triangles.push_back(mesh.triangles[t]);
    }
    return some;
  }

  const SpaceSubject& subject_;
  const SpaceSettings& settings_;
  StageProgress progress_;
  const PartGeometry& own_;
  SpaceMargin margin_;
  ZoneDistance zones_;
  SpaceMesh space_;
};

}  // namespace

Outcome<SpaceMesh> roomSpace(const SpaceSubject& subject, const SpaceSettings& settings, WorkMonitor& monitor) {
  requireAskable(subject, settings);
  return RoomFinder(subject, settings, monitor).run();
}

}  // namespace swingroom
