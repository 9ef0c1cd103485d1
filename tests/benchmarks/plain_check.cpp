#include "tests/benchmarks/plain_check.h"

#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/narrowphase/distance.h>

#include <algorithm>
#include <limits>
#include <map>
#include <memory>
#include <set>

#include "tests/benchmarks/sweep_times.h"

namespace swingroom::bench {
namespace {

using Model = fcl::BVHModel<fcl::OBBRSSd>;

/// By PartId; parts that share a mesh share its model.
std::vector<std::shared_ptr<const Model>> modelsOf(const Assembly& assembly) {
  std::map<const TriangleMesh*, std::shared_ptr<const Model>> made;
  std::vector<std::shared_ptr<const Model>> models;
  for (const Part& part : assembly.parts()) {
    std::shared_ptr<const Model>& model = made[part.mesh.get()];
    if (part.mesh && !model) {
      auto fresh = std::make_shared<Model>();
      std::vector<fcl::Triangle> triangles;
      for (const auto& [a, b, c] : part.mesh->triangles) triangles.emplace_back(a, b, c);
      fresh->beginModel();
      fresh->addSubModel(part.mesh->vertices, triangles);
      fresh->endModel();
      model = std::move(fresh);
    }
    models.push_back(model);
  }
  return models;
}

/// The nearest points that one query found, each on its part: p_AQ and p_BQ.
struct Witness {
  Vector3d onA = Vector3d::Zero();
  Vector3d onB = Vector3d::Zero();
};

struct Query {
  const Model& a;
  const Model& b;

  /// Frame of A is FCL's world: then its nearest points are in A.
  fcl::DistanceResultd ask(const Pose& X_AB, bool points, double below) const {
    fcl::DistanceRequestd request;
    request.enable_nearest_points = points;
    fcl::DistanceResultd result;
    result.min_distance = std::min(below, result.min_distance);
    fcl::distance(&a, fcl::Transform3d::Identity(), &b, fcl::Transform3d(X_AB), request, result);
    return result;
  }
};

/// How far above a gap that is surely there the search starts, mm.
constexpr double kAboveMm = 1e-6;
constexpr double kAnyMm = std::numeric_limits<double>::max();

class PlainRun {
 public:
  PlainRun(const SweepSet& set, int instants) : set_(set) {
    const CpuWatch watch;
    models_ = modelsOf(set.assembly);
    times_.buildSeconds = watch.seconds();
    times_.measured = std::clamp(instants, 40, kPlainInstants);
  }

  PlainTimes run() {
    for (const Sequence& way : set_.ways) {
      // What stands still is looked at once.
      const bool stands = way.steps.size() == 1 && way.steps[0].start == way.steps[0].end;
      const int count = stands ? 1 : times_.measured;
      const double scale = stands ? 1 : static_cast<double>(kPlainInstants) / count;
      for (int i = 0; i < count; ++i) lookAt(way, i * kPlainInstants / count, scale);
    }
    times_.meeting = meeting_.size();
    return times_;
  }

 private:
  std::vector<Pose> posesAt(const Sequence& way, int step) const {
    const double instant = static_cast<double>(step) / kPlainInstants;
    return posesOf(set_.assembly, configurationAt(set_.assembly, way, instant));
  }

  /// Cold at step `step`, warm at the one after: so that a run of some instants costs as in a full
  /// one.
  void lookAt(const Sequence& way, int step, double scale) {
    const std::vector<Pose> here = posesAt(way, step), next = posesAt(way, step + 1);
    for (const auto& [a, b] : set_.plainPairs) {
      const Query query{*models_[a.index], *models_[b.index]};
      const Pose X_AB = here[a.index].inverse() * here[b.index];
      const CpuWatch cold;
      const double gapMm = query.ask(X_AB, false, kAnyMm).min_distance;
      times_.coldSeconds += cold.seconds() * scale;
      if (gapMm <= 0) meeting_.emplace(a, b);
      warmQuery(query, X_AB, gapMm, next[a.index].inverse() * next[b.index], scale);
    }
  }

  void warmQuery(const Query& query, const Pose& X_AB, double gapMm, const Pose& X_AB_next,
                 double scale) {
    const fcl::DistanceResultd before = query.ask(X_AB, true, gapMm + kAboveMm);
    const Witness witness{before.nearest_points[0], X_AB.inverse() * before.nearest_points[1]};
    const CpuWatch warm;
    // Where surfaces meet FCL's points mean nothing: the next query starts cold.
    const double below =
        gapMm <= 0 ? kAnyMm : (witness.onA - X_AB_next * witness.onB).norm() + kAboveMm;
    query.ask(X_AB_next, true, below);
    times_.warmSeconds += warm.seconds() * scale;
  }

  const SweepSet& set_;
  std::vector<std::shared_ptr<const Model>> models_;
  std::set<std::pair<PartId, PartId>> meeting_;
  PlainTimes times_;
};

}  // namespace

PlainTimes timePlain(const SweepSet& set, int instants) {
  return PlainRun(set, instants).run();
}

}  // namespace swingroom::bench
