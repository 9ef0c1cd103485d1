#include "core/measure/measure_figures.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include "core/base/parallel.h"
#include "core/files/file_hash.h"
#include "core/report/html/sections.h"
#include "core/sweep/plan.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

constexpr std::size_t kCardSamples = 160, kOtherSamples = 64;
/// Depths cost a hundred times what gaps do. In all cards together, and at most and at least in
/// one.
constexpr std::size_t kDepthSamples = 240, kMostDepths = 24, kFewestDepths = 8;

/// The worst occurrences of the findings that are shown in full, and how closely to look at each.
struct Cards {
  std::set<std::pair<std::size_t, std::size_t>> which;  ///< Way, pair.
  std::size_t depthsEach = kMostDepths;

  Cards(const std::vector<Finding>& findings, std::size_t most) {
    std::size_t clashes = 0;
    for (std::size_t i = 0; i < std::min(most, findings.size()); ++i) {
      which.insert({findings[i].where.front().way, findings[i].where.front().pair});
      clashes += findings[i].verdict == Verdict::clash;
    }
    if (clashes > 0) depthsEach = std::clamp(kDepthSamples / clashes, kFewestDepths, kMostDepths);
  }
};

bool inClash(const PairResult& pair, double instant) {
  return std::any_of(pair.stretches.begin(), pair.stretches.end(), [&](const Stretch& stretch) {
    return stretch.verdict == Verdict::clash && stretch.from < instant && instant < stretch.to;
  });
}

/// Evenly over each step, with every step's ends, and the instants that the result names; in a
/// clash fewer.
std::vector<double> instantsFor(const Sequence& way, const PairResult& pair, std::size_t wanted,
                                std::size_t depths) {
  const std::size_t steps = way.steps.size();
  const std::size_t each = (wanted + steps - 1) / steps;
  const std::size_t all = each * steps;
  const auto instantOf = [&](std::size_t i) {
    return static_cast<double>(i) / static_cast<double>(all);
  };
  std::size_t clashing = 0;
  for (std::size_t i = 0; i <= all; ++i) clashing += inClash(pair, instantOf(i));
  const std::size_t stride = std::max<std::size_t>(1, (clashing + depths - 1) / depths);
  std::vector<double> instants;
  for (std::size_t i = 0; i <= all; ++i) {
    if (i % stride == 0 || !inClash(pair, instantOf(i))) instants.push_back(instantOf(i));
  }
  if (pair.gap.instant) instants.push_back(*pair.gap.instant);
  for (const Stretch& stretch : pair.stretches) {
    instants.insert(instants.end(), {stretch.from, stretch.to});
    if (stretch.deepestAt) instants.push_back(*stretch.deepestAt);
  }
  std::sort(instants.begin(), instants.end());
  instants.erase(std::unique(instants.begin(), instants.end()), instants.end());
  return instants;
}

/// Where the check has measured closely, the curve goes through its figures.
void putResultIn(const PairResult& pair, std::vector<GapSample>& curve) {
  for (GapSample& sample : curve) {
    for (const Stretch& stretch : pair.stretches) {
      if (stretch.depthMm && stretch.deepestAt == sample.instant) sample.gapMm = -*stretch.depthMm;
    }
  }
}

DeepPointOn deepPointOf(const CheckReport& report, const Sequence& way,
                        const AssemblyGeometry& geometry, const PairResult& pair) {
  if (pair.verdict != Verdict::clash || !pair.gap.points_W || !pair.gap.instant)
    return DeepPointOn::unknown;
  const auto poses = posesOf(report.loaded->assembly,
                             configurationAt(report.loaded->assembly, way, *pair.gap.instant));
  const auto distance = [&](PartId part) {
    const Vector3d p = poses[part.index].inverse() * (*pair.gap.points_W)[0];
    const auto nearest = closestPoint(geometry[part.index]->surface->tree, p);
    return nearest ? nearest->distanceMm : std::numeric_limits<double>::infinity();
  };
  return distance(pair.a) <= distance(pair.b) ? DeepPointOn::a : DeepPointOn::b;
}

PairFigures figuresOf(const CheckReport& report, const Occurrence& where,
                      const AssemblyGeometry& geometry, const Cards& cards) {
  PairFigures figures;
  const Sequence& sequence = report.ways[where.way];
  const PairResult& pair = resultOf(report, where);
  const bool card = cards.which.contains({where.way, where.pair});
  const bool near = pair.gap.upperMm || !pair.stretches.empty();
  if (near && !html::standsStill(sequence)) {
    GapCurveQuestion question;
    question.instants =
        instantsFor(sequence, pair, card ? kCardSamples : kOtherSamples, cards.depthsEach);
    question.capMm = pair.requiredGapMm + kMattersAboveRequiredMm;
    question.resolutionMm = report.resolutionMm;
    question.depthsToo = card && deepestMm(pair) > 0;
    question.depthAccuracyMm =
        std::max(0.02, 0.06 * deepestMm(pair));  // Under two pixels of the drawing.
    figures.curve = gapCurve(report.loaded->assembly, sequence, geometry, pair.a, pair.b, question);
    if (card) putResultIn(pair, figures.curve);
  }
  figures.deepPointOn = deepPointOf(report, sequence, geometry, pair);
  return figures;
}

std::vector<MeshFigure> meshesOf(const CheckReport& report, const AssemblyDocument& document,
                                 const std::filesystem::path& folder) {
  std::map<std::string, std::size_t> known;
  std::vector<MeshFigure> meshes;
  for (std::size_t p = 0; p < document.parts.size(); ++p) {
    const auto stage = document.parts[p].stages.find(document.parts[p].use);
    const auto& mesh = report.loaded->assembly.part(PartId{p}).mesh;
    if (stage == document.parts[p].stages.end() || !mesh) continue;
    const auto [slot, isNew] = known.try_emplace(stage->second, meshes.size());
    if (isNew) {
      MeshFigure figure;
      figure.file = stage->second;
      figure.triangles = mesh->triangles.size();
      const std::string path = (folder / stage->second).lexically_normal().string();
      const auto hash = sha256Of(path);
      figure.sha256 = hash ? *hash : "cannot be read any more";
      for (const Problem& note : report.loaded->notes) {
        if (note.where == path) figure.notes.push_back(note.what);
      }
      meshes.push_back(figure);
    }
    meshes[slot->second].parts.push_back(PartId{p});
  }
  return meshes;
}

}  // namespace

ReportFigures measureFigures(const CheckReport& report, const AssemblyDocument& document,
                             const std::filesystem::path& folder, const AssemblyGeometry& geometry,
                             const std::vector<Finding>& findings, std::size_t cards,
                             unsigned threads) {
  const Cards shown(findings, cards);
  ReportFigures figures;
  std::vector<Occurrence> jobs;
  for (std::size_t w = 0; w < report.results.size(); ++w) {
    figures.pairs.emplace_back(report.results[w].pairs.size());
    for (std::size_t p = 0; p < report.results[w].pairs.size(); ++p) jobs.push_back({w, p});
  }
  parallelFor(jobs.size(), threads, [&](std::size_t i) {
    figures.pairs[jobs[i].way][jobs[i].pair] = figuresOf(report, jobs[i], geometry, shown);
  });
  figures.contacts = measureContacts(report, geometry);
  figures.meshes = meshesOf(report, document, folder);
  return figures;
}

}  // namespace swingroom
