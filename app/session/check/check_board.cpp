#include "app/session/check/check_board.h"

#include <algorithm>

#include "app/session/same_motion.h"

namespace swingroom {
namespace {

/// Every pair of parts with meshes, in file order: as `sweep` has them.
std::vector<PairResult> blankPairs(const Scene& scene) {
  std::vector<PairResult> pairs;
  for (std::size_t a = 0; a < scene.geometry.size(); ++a) {
    for (std::size_t b = a + 1; b < scene.geometry.size(); ++b) {
      if (!scene.geometry[a] || !scene.geometry[b]) continue;
      PairResult pair;
      pair.a = PartId{a};
      pair.b = PartId{b};
      pair.requiredGapMm = scene.assembly().requiredGapMm(pair.a, pair.b);
      pairs.push_back(pair);
    }
  }
  return pairs;
}

}  // namespace

CheckBoard::CheckBoard(ScenePtr scene) : scene_(std::move(scene)) {
  report_.loaded = &scene_->loaded;
  report_.resolutionMm = scene_->assembly().resolutionMm();
  report_.ways = scene_->ways;
  const std::vector<PairResult> blank = blankPairs(*scene_);
  for (const Sequence& way : scene_->ways) {
    report_.results.push_back({way.name, way.from, way.to, blank});
    known_.emplace_back(blank.size(), false);
    hasCurve_.emplace_back(blank.size(), false);
    figures_.emplace_back(blank.size());
  }
}

void CheckBoard::takeOver(const CheckBoard& other) {
  if (!other.scene_ || !scene_) return;
  const KeptResults results(*other.scene_, *scene_);
  for (std::size_t w = 0; w < report_.results.size(); ++w) {
    const auto before = results.wayBefore(w);
    if (!before) continue;
    for (std::size_t p = 0; p < report_.results[w].pairs.size(); ++p) {
      if (!other.isKnown(*before, p)) continue;
      auto kept = results.kept(w, other.report_.results[*before].pairs[p]);
      if (kept) {
        put({w, p, std::move(*kept), other.figures_[*before][p], other.hasCurve(*before, p)});
      }
    }
  }
  refresh();
}

void CheckBoard::put(const CheckedResult& checked) {
  report_.results.at(checked.way).pairs.at(checked.pair) = checked.result;
  figures_.at(checked.way).at(checked.pair) = checked.figures;
  if (!known_.at(checked.way).at(checked.pair)) ++pairsKnown_;
  known_[checked.way][checked.pair] = true;
  hasCurve_.at(checked.way).at(checked.pair) = checked.hasCurve;
}

std::optional<std::size_t> CheckBoard::pairIndex(PartId a, PartId b) const {
  if (report_.results.empty()) return std::nullopt;
  if (b < a) std::swap(a, b);
  const auto& pairs = report_.results.front().pairs;
  const auto found = std::lower_bound(pairs.begin(), pairs.end(), std::pair(a, b),
                                      [](const PairResult& pair, const auto& wanted) {
                                        return std::pair(pair.a, pair.b) < wanted;
                                      });
  if (found == pairs.end() || found->a != a || found->b != b) return std::nullopt;
  return static_cast<std::size_t>(found - pairs.begin());
}

std::size_t CheckBoard::pairsInAll() const {
  std::size_t count = 0;
  for (const auto& way : known_) count += way.size();
  return count;
}

bool CheckBoard::hasAllCurves() const {
  return std::all_of(hasCurve_.begin(), hasCurve_.end(), [](const std::vector<bool>& way) {
    return std::all_of(way.begin(), way.end(), [](bool has) { return has; });
  });
}

std::array<std::size_t, 6> CheckBoard::counts() const {
  std::array<std::size_t, 6> counts{};
  const std::vector<Verdict> worst = worstOfPairs(report_);
  for (std::size_t p = 0; p < worst.size(); ++p) {
    const bool known =
        std::all_of(known_.begin(), known_.end(), [p](const auto& way) { return way[p]; });
    if (known) ++counts[static_cast<std::size_t>(worst[p])];
  }
  return counts;
}

void CheckBoard::refresh() {
  findings_.clear();
  if (!scene_) return;
  CheckReport known = report_;
  for (std::size_t w = 0; w < known_.size(); ++w) {
    for (std::size_t p = 0; p < known_[w].size(); ++p) {
      if (!known_[w][p]) known.results[w].pairs[p].verdict = Verdict::allowed;  // No finding.
    }
  }
  findings_ = findingsOf(known);
}

}  // namespace swingroom
