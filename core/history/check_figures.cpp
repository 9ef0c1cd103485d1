#include "core/history/check_figures.h"

#include <algorithm>
#include <map>

#include "core/report/findings.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

PairFigure figureOf(const Assembly& assembly, const Sequence& way, const PairResult& pair) {
  const GapBracket& gap = isInJoint(pair) ? pair.joint->gap : pair.gap;
  PairFigure figure;
  figure.a = assembly.part(pair.a).name;
  figure.b = assembly.part(pair.b).name;
  figure.verdict = pair.verdict;
  figure.requiredMm = pair.requiredGapMm;
  figure.lowerMm = roundedDown(gap.lowerMm);
  if (gap.upperMm) figure.upperMm = roundedUp(*gap.upperMm);
  figure.depthMm = rounded(deepestMm(pair));
  if (!gap.instant) return figure;
  figure.instant = rounded(*gap.instant);
  if (words::standsStill(way)) return figure;
  const std::size_t step = stepAt(way, *gap.instant).step;
  figure.step = way.steps[step].name;
  figure.stepNumber = step + 1;
  return figure;
}

}  // namespace

CheckFigures figuresOf(const CheckReport& report) {
  CheckFigures figures;
  const Assembly& assembly = report.loaded->assembly;
  figures.assembly = assembly.name();
  figures.resolutionMm = report.resolutionMm;
  for (std::size_t w = 0; w < report.results.size(); ++w) {
    const Sequence& way = report.ways[w];
    WayFigures& kept = figures.ways.emplace_back();
    kept.name = way.name;
    kept.from = report.loaded->modes.at(way.from.index).name;
    kept.to = report.loaded->modes.at(way.to.index).name;
    kept.pairs.reserve(report.results[w].pairs.size());
    for (const PairResult& pair : report.results[w].pairs) {
      kept.pairs.push_back(figureOf(assembly, way, pair));
    }
  }
  return figures;
}

std::array<std::size_t, 6> countsOf(const CheckFigures& figures) {
  std::map<std::pair<std::string, std::string>, Verdict> worst;
  for (const WayFigures& way : figures.ways) {
    for (const PairFigure& pair : way.pairs) {
      const auto [known, isNew] = worst.try_emplace(std::minmax(pair.a, pair.b), pair.verdict);
      if (!isNew) known->second = std::min(known->second, pair.verdict);
    }
  }
  std::array<std::size_t, 6> counts{};
  for (const auto& [pair, verdict] : worst) ++counts[static_cast<std::size_t>(verdict)];
  return counts;
}

std::optional<Verdict> verdictFor(const std::string& word) {
  for (const Verdict verdict : kVerdicts) {
    if (word == wordFor(verdict)) return verdict;
  }
  return std::nullopt;
}

}  // namespace swingroom
