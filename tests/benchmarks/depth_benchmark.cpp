// What it costs to find the deepest place of each overlap of an assembly, excused ones too. CPU time;
// nothing here passes or fails.
//
//   depth_benchmark FILE [PART PART]...   only the pairs that are named, else all
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <set>
#include <string>
#include <utility>

#include "core/files/load_assembly.h"
#include "core/files/mesh_file.h"
#include "core/sweep/deepest.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/plan.h"
#include "core/sweep/track.h"

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
  explicit Bench(const LoadedAssembly& loaded)
      : loaded_(loaded), geometry_(prepareGeometry(loaded.assembly, 1)) {}

  void run(const Names& wanted) {
    for (const Sequence& sequence : loaded_.sequences) {
      std::printf("%s\n", sequence.name.c_str());
      const std::size_t count = loaded_.assembly.parts().size();
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
    return loaded_.assembly.part(PartId{part}).name;
  }

  bool isWanted(const Names& wanted, std::size_t a, std::size_t b) const {
    if (!geometry_[a] || !geometry_[b]) return false;
    return wanted.empty() || wanted.contains({nameOf(a), nameOf(b)}) ||
           wanted.contains({nameOf(b), nameOf(a)});
  }

  void pair(const Sequence& sequence, std::size_t a, std::size_t b) {
    const PairPlan plan =
        planPair(loaded_.assembly, sequence, geometry_, PartId{a}, PartId{b}, 0.01);
    TrackQuestion question;
    question.budget = 4'000'000;
    const WorkMonitor monitor;
    for (const PlannedTrack& planned : plan.tracks) {
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

  const LoadedAssembly& loaded_;
  AssemblyGeometry geometry_;
  Totals totals_;
};

int run(int argc, char** argv) {
  if (argc < 2 || argc % 2 != 0) {
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
  Bench(*loaded).run(wanted);
  return 0;
}

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) { return swingroom::run(argc, argv); }
