// What it costs to find the deepest place of each overlap of an assembly, excused ones too. CPU
// time; nothing here passes or fails.
//
//   depth_benchmark FILE [PART PART]...   only the pairs that are named, else all
//   depth_benchmark                       solids of 5 000 to 80 000 triangles each
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <set>
#include <string>
#include <utility>

#include "core/files/loading/load_assembly.h"
#include "core/files/mesh_file.h"
#include "core/sweep/deepest.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/plan.h"
#include "core/sweep/track.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using Names = std::set<std::pair<std::string, std::string>>;

double cpuMs() { return 1e3 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

struct Totals {
  int overlaps = 0;
  double ms = 0;
  double dearestMs = 0;
};

class Bench {
 public:
  Bench(const Assembly& assembly, const std::vector<Sequence>& sequences)
      : assembly_(assembly), sequences_(sequences), geometry_(prepareGeometry(assembly, 1)) {}

  /// The first two parts over the whole of each sequence.
  void runWhole() {
    for (const Sequence& sequence : sequences_) {
      const PairPlan plan = planPair(assembly_, sequence, geometry_, PartId{0}, PartId{1}, 0.01);
      for (const PlannedTrack& planned : plan.tracks) {
        const OverlapProbe probe{planned.a.get(), planned.b.get(), &geometry_[0]->solid,
                                 &geometry_[1]->solid};
        measure(nameOf(0), probe, planned, {0, 1, Standing::clash}, {});
      }
    }
  }

  void run(const Names& wanted) {
    for (const Sequence& sequence : sequences_) {
      std::printf("%s\n", sequence.name.c_str());
      const std::size_t count = assembly_.parts().size();
      for (std::size_t a = 0; a < count; ++a) {
        for (std::size_t b = a + 1; b < count; ++b) {
          if (isWanted(wanted, a, b)) pair(sequence, a, b);
        }
      }
    }
    std::printf("%d overlaps, %.0f ms, the dearest %.0f ms\n", totals_.overlaps, totals_.ms,
                totals_.dearestMs);
  }

 private:
  const std::string& nameOf(std::size_t part) const {
    return assembly_.part(PartId{part}).name;
  }

  bool isWanted(const Names& wanted, std::size_t a, std::size_t b) const {
    if (!geometry_[a] || !geometry_[b]) return false;
    return wanted.empty() || wanted.contains({nameOf(a), nameOf(b)}) ||
           wanted.contains({nameOf(b), nameOf(a)});
  }

  void pair(const Sequence& sequence, std::size_t a, std::size_t b) {
    const PairPlan plan =
        planPair(assembly_, sequence, geometry_, PartId{a}, PartId{b}, 0.01);
    const WorkMonitor monitor;
    for (const PlannedTrack& planned : plan.tracks) {
      TrackQuestion question;
      question.neededMm = planned.neededMm;
      question.mattersBelowMm = planned.mattersBelowMm;
      const Track track = followTrack(planned.a->tree, planned.b->tree, planned.phases, question,
                                      monitor);
      const OverlapProbe probe{planned.a.get(), planned.b.get(), &geometry_[a]->solid,
                               &geometry_[b]->solid};
      for (const TrackPiece& piece : track.pieces) {
        if (piece.standing != Standing::clash || std::isinf(planned.excuse.depthMm)) continue;
        const Excuse& excuse = planned.excuse;
        measure(nameOf(a) + " and " + nameOf(b), probe, planned, piece, {});
        const bool excused = excuse.everywhere || excuse.atStart || excuse.atEnd;
        if (excused) measure("  excused", probe, planned, piece, excuse.depthMm);
      }
    }
  }

  void measure(const std::string& name, const OverlapProbe& probe, const PlannedTrack& planned,
               const TrackPiece& piece, std::optional<double> excusedMm) {
    DepthsOfInterest interest;
    if (excusedMm) {
      interest = {*excusedMm, std::nextafter(*excusedMm, *excusedMm + 1)};
    }
    const double before = cpuMs();
    const Overlap overlap =
        deepestOverlap(probe, planned.phases, piece.from, piece.to, interest);
    const double ms = cpuMs() - before;
    std::printf("  %-48s %6zu + %6zu triangles, %.4f to %.4f: %9.6f mm at %.6f, %8.1f ms\n",
                name.c_str(), planned.a->tree.triangles().size(),
                planned.b->tree.triangles().size(), piece.from, piece.to, overlap.depthMm,
                overlap.instant, ms);
    std::printf("      at most %.6f mm, %zu queries\n", overlap.upperMm, overlap.queries);
    ++totals_.overlaps;
    totals_.ms += ms;
    totals_.dearestMs = std::max(totals_.dearestMs, ms);
  }

  const Assembly& assembly_;
  const std::vector<Sequence>& sequences_;
  AssemblyGeometry geometry_;
  Totals totals_;
};

/// The second part moves against the first, from one side through it to the other.
void measurePassing(const std::string& name, const TriangleMesh& still, const TriangleMesh& moving,
                    const Vector3d& from, const Vector3d& to) {
  Mechanism mechanism;
  const PartId base = mechanism.addPart(name, still);
  const PartId part = mechanism.addPart("passing", shapes::moved(moving, translation(from)));
  const JointId slide = mechanism.addSlide(part, base, (to - from).normalized());
  mechanism.addStep(slide, {(to - from).norm(), 0, 0});
  const std::vector<Sequence> sequences = {mechanism.sequence()};
  const Assembly assembly = mechanism.assembly();
  Bench(assembly, sequences).runWhole();
}

/// The second part turns in the first.
void measureTurning(const std::string& name, const TriangleMesh& still, const TriangleMesh& moving,
                    double angleDeg) {
  Mechanism mechanism;
  const PartId base = mechanism.addPart(name, still);
  const PartId part = mechanism.addPart("turning", moving);
  const JointId hinge =
      mechanism.addHinge(part, base, Vector3d::Zero(), Vector3d(0.3, 0.5, 0.8).normalized());
  mechanism.addStep(hinge, deg(angleDeg));
  const std::vector<Sequence> sequences = {mechanism.sequence()};
  const Assembly assembly = mechanism.assembly();
  Bench(assembly, sequences).runWhole();
}

void measureSolids() {
  for (const int splits : {4, 5, 6}) {  // 5 120, 20 480, 81 920 triangles.
    const TriangleMesh ball = shapes::sphere(10, splits);
    measurePassing("ball by ball", ball, ball, {-40, 14, 3}, {40, 14, 3});
    const int around = 40 << (splits - 4);
    const TriangleMesh ring = shapes::torus(12, 4, 2 * around, around);
    measurePassing("ring through ball", ball, ring, {-40, 13, 2}, {40, 17, 5});
    measurePassing("ring by ring", ring, shapes::moved(ring, rotationAbout({0, 0, 0}, {1, 0, 0}, 1)),
                   {-40, 3, 2}, {40, 5, 3});
    const TriangleMesh socket = shapes::joined(
        {shapes::sphere(13, splits), shapes::reversed(shapes::sphere(9.95, splits))});
    measureTurning("ball turning in a tight socket", socket, ball, 40);
  }
  const TriangleMesh plate = shapes::box({-30, -10, 0}, {30, 10, 3});
  measurePassing("plate along plate", plate, plate, {-20, 0, 2.9}, {20, 0, 2.9});
}

int run(int argc, char** argv) {
  if (argc == 1) {
    measureSolids();
    return 0;
  }
  if (argc % 2 != 0) {
    std::fprintf(stderr, "depth_benchmark FILE [PART PART]...\n");
    return 2;
  }
  const auto loaded = loadAssembly(argv[1], MeshReader::besideThisProgram(), 1);
  if (!loaded) {
    std::fprintf(stderr, "%s: cannot be read\n", argv[1]);
    return 2;
  }
  Names wanted;
  for (int i = 2; i + 1 < argc; i += 2) wanted.insert({argv[i], argv[i + 1]});
  Bench(loaded->assembly, loaded->sequences).run(wanted);
  return 0;
}

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) { return swingroom::run(argc, argv); }
