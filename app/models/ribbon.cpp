#include "app/models/ribbon.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/models/text.h"
#include "core/report/words.h"
#include "core/sweep/plan.h"

namespace swingroom {
namespace {

struct RibbonText {
  Q_DECLARE_TR_FUNCTIONS(RibbonText)
};

constexpr int kCells = 160;
constexpr double kAtMode = 0.02;  ///< How wide a contact that fails in a mode is drawn.

/// 1 at the required gap, 0 from where it does not matter; in 32 levels, finer near the required
/// gap where the blue changes most, so that runs join.
double nearnessOf(double gapMm, double requiredMm) {
  const double above = std::clamp((gapMm - requiredMm) / kMattersAboveRequiredMm, 0.0, 1.0);
  const double level = std::round(32 * std::sqrt(above)) / 32;
  return 1 - level * level;
}

/// Where a gap below the required one passes, a contact or a fixed joint lets it.
RibbonRun runOf(double from, double to, double gapMm, const PairResult& pair) {
  const bool excused = pair.verdict >= Verdict::clear && gapMm < pair.requiredGapMm - 1e-3;
  if (excused) return {from, to, RibbonTone::allowed, 0};
  return {from, to, RibbonTone::gap, nearnessOf(gapMm, pair.requiredGapMm)};
}

/// The least gap in each of even cells along the way; neighbours of one colour are one run.
std::vector<RibbonRun> gapRuns(const PairResult& pair, const std::vector<GapSample>& curve) {
  if (curve.empty()) {
    const double farMm = pair.requiredGapMm + kMattersAboveRequiredMm;
    return {runOf(0, 1, pair.gap.upperMm.value_or(farMm), pair)};
  }
  std::vector<RibbonRun> runs;
  std::size_t next = 0;
  double before = curve.front().gapMm;
  for (int c = 0; c < kCells; ++c) {
    const double from = static_cast<double>(c) / kCells, to = static_cast<double>(c + 1) / kCells;
    double leastMm = before;
    for (; next < curve.size() && curve[next].instant <= to; ++next) {
      leastMm = std::min(leastMm, before = curve[next].gapMm);
    }
    // Between two samples a cell's colour follows the line from one to the other.
    if (next > 0 && next < curve.size()) {
      const GapSample &left = curve[next - 1], &right = curve[next];
      const double span = right.instant - left.instant;
      const double share = span > 0 ? (to - left.instant) / span : 0;
      before = left.gapMm + (right.gapMm - left.gapMm) * share;
      leastMm = std::min(leastMm, before);
    }
    const RibbonRun run = runOf(from, to, leastMm, pair);
    if (!runs.empty() && runs.back().tone == run.tone && runs.back().nearness == run.nearness) {
      runs.back().to = to;
    } else {
      runs.push_back(run);
    }
  }
  return runs;
}

RibbonTone toneOf(Verdict verdict) {
  switch (verdict) {
    case Verdict::clash:
      return RibbonTone::clash;
    case Verdict::tight:
      return RibbonTone::tight;
    default:
      return RibbonTone::unproven;
  }
}

/// At the modes in which a contact fails; all the way where a joint's fit does.
void addLoose(const PairResult& pair, const SequenceResult& way, std::vector<RibbonRun>& runs) {
  if (pair.joint && pair.joint->verdict == Verdict::loose) {
    runs.push_back({0, 1, RibbonTone::loose, 0});
  }
  for (const LooseContact& loose : pair.looseContacts) {
    if (loose.mode == way.from) runs.push_back({0, kAtMode, RibbonTone::loose, 0});
    if (loose.mode == way.to) runs.push_back({1 - kAtMode, 1, RibbonTone::loose, 0});
  }
}

class RibbonMaker {
 public:
  RibbonMaker(const CheckBoard& board, std::size_t way)
      : board_(board), scene_(*board.scene()), way_(way), result_(board.report().results[way]) {}

  Ribbon make(const std::optional<std::pair<PartId, PartId>>& always,
              const std::optional<PartId>& only) const {
    Ribbon ribbon;
    std::vector<std::size_t> shown;
    for (std::size_t p = 0; p < result_.pairs.size(); ++p) {
      const PairResult& pair = result_.pairs[p];
      if (only && pair.a != *only && pair.b != *only) continue;
      const bool known = board_.isKnown(way_, p);
      const bool wanted = always && *always == std::pair(pair.a, pair.b);
      const bool far = known && pair.verdict == Verdict::clear && !pair.gap.upperMm;
      if (!known) ++ribbon.waiting;
      if (far && !wanted) ++ribbon.farPairs;
      if (wanted || (known && !far)) shown.push_back(p);
    }
    std::stable_sort(shown.begin(), shown.end(),
                     [&](std::size_t a, std::size_t b) { return isWorse(a, b); });
    for (const std::size_t p : shown) ribbon.rows.push_back(row(p));
    return ribbon;
  }

 private:
  /// By verdict, then the deeper overlap or the smaller margin; what is not known comes last.
  bool isWorse(std::size_t a, std::size_t b) const {
    const auto rank = [&](std::size_t p) {
      const PairResult& pair = result_.pairs[p];
      const bool known = board_.isKnown(way_, p);
      const double margin =
          pair.verdict == Verdict::clash ? -deepestMm(pair) : pair.gap.lowerMm - pair.requiredGapMm;
      // Parts that touch by design say nothing of how near the others come.
      const bool excused = pair.verdict >= Verdict::clear && margin < -1e-3;
      return std::tuple(!known, excused, known ? static_cast<int>(pair.verdict) : 0, margin);
    };
    return rank(a) < rank(b);
  }

  RibbonRow row(std::size_t p) const {
    const PairResult& pair = result_.pairs[p];
    const Assembly& assembly = scene_.assembly();
    RibbonRow row;
    row.a = pair.a;
    row.b = pair.b;
    row.partNames = {qt(assembly.part(pair.a).name), qt(assembly.part(pair.b).name)};
    row.names = QStringLiteral("%1, %2").arg(row.partNames[0], row.partNames[1]);
    if (!board_.isKnown(way_, p)) {
      row.runs = {{0, 1, RibbonTone::pending, 0}};
      return row;
    }
    row.verdict = pair.verdict;
    row.figure = qt(words::findingFigure(assembly, pair).text());
    row.runs = runsOf(p);
    return row;
  }

  std::vector<RibbonRun> runsOf(std::size_t p) const {
    const PairResult& pair = result_.pairs[p];
    if (pair.verdict == Verdict::allowed) return {{0, 1, RibbonTone::allowed, 0}};
    std::vector<RibbonRun> runs = gapRuns(pair, board_.figures(way_, p).curve);
    if (pair.verdict == Verdict::loose) addLoose(pair, result_, runs);
    for (const Stretch& stretch : pair.stretches) {
      runs.push_back({stretch.from, stretch.to, toneOf(stretch.verdict), 0});
    }
    return runs;
  }

  const CheckBoard& board_;
  const Scene& scene_;
  std::size_t way_;
  const SequenceResult& result_;
};

}  // namespace

WayLine lineOf(const Scene& scene, std::size_t way) {
  const Sequence& sequence = scene.ways.at(way);
  WayLine line;
  line.from = qt(scene.modeName(sequence.from));
  line.to = qt(scene.modeName(sequence.to));
  line.standsStill = words::standsStill(sequence);
  for (const Step& step : sequence.steps) line.steps += qt(step.name);
  return line;
}

QString wayTitle(const Scene& scene, std::size_t way) {
  const WayLine line = lineOf(scene, way);
  if (line.standsStill) {
    return RibbonText::tr("mode %1").arg(line.from);
  }
  return RibbonText::tr("%1: %2 to %3").arg(qt(scene.ways[way].name), line.from, line.to);
}

Ribbon ribbonOf(const CheckBoard& board, std::size_t way,
                const std::optional<std::pair<PartId, PartId>>& always,
                const std::optional<PartId>& only) {
  if (!board.scene() || way >= board.report().results.size()) return {};
  return RibbonMaker(board, way).make(always, only);
}

CurveDrawing curveOf(const CheckBoard& board, std::size_t way, std::size_t pair) {
  const PairResult& result = board.report().results.at(way).pairs.at(pair);
  CurveDrawing drawing;
  drawing.samples = board.figures(way, pair).curve;
  drawing.stretches = result.stretches;
  drawing.requiredMm = result.requiredGapMm;
  drawing.capMm = result.requiredGapMm + kMattersAboveRequiredMm;
  drawing.steps = board.scene()->ways[way].steps.size();
  return drawing;
}

}  // namespace swingroom
