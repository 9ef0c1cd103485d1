#pragma once

#include <optional>
#include <vector>

#include "app/session/scene.h"
#include "core/measure/pair_curve.h"
#include "core/report/findings.h"

namespace swingroom {

/// A pair of one way, checked.
struct CheckedResult {
  std::size_t way = 0;
  std::size_t pair = 0;  ///< Index into the way's pairs.
  PairResult result;
  PairFigures figures;   ///< Its curve without depths.
  bool hasCurve = true;  ///< False: the curve has not been measured yet.
};

/// A pair of one way and its curve, without depths.
struct CheckedCurve {
  std::size_t way = 0;
  std::size_t pair = 0;
  std::vector<GapSample> samples;
};

/// What is known of a scene's pairs so far: results fill in as they come.
class CheckBoard {
 public:
  CheckBoard() = default;
  /// Nothing is known yet.
  explicit CheckBoard(ScenePtr scene);

  /// What the report says that it is of; empty: the plain file.
  void setVariant(const std::string& name) { report_.variant = name; }

  /// Takes over from `other` what still holds in this board's scene.
  void takeOver(const CheckBoard& other);
  void put(const CheckedResult& checked);
  /// A curve that was measured more closely, or after the verdict.
  void putCurve(std::size_t way, std::size_t pair, const std::vector<GapSample>& curve) {
    figures_.at(way).at(pair).curve = curve;
    hasCurve_.at(way).at(pair) = true;
  }

  const ScenePtr& scene() const { return scene_; }
  /// Pairs that are not known are there, with the verdict unproven: ask `isKnown`.
  const CheckReport& report() const { return report_; }
  bool isKnown(std::size_t way, std::size_t pair) const { return known_.at(way).at(pair); }
  /// Whether its curve has been measured; also then it is empty where nothing comes near.
  bool hasCurve(std::size_t way, std::size_t pair) const { return hasCurve_.at(way).at(pair); }
  const PairFigures& figures(std::size_t way, std::size_t pair) const {
    return figures_.at(way).at(pair);
  }
  std::optional<std::size_t> pairIndex(PartId a, PartId b) const;

  std::size_t pairsInAll() const;
  std::size_t pairsKnown() const { return pairsKnown_; }
  bool isComplete() const { return pairsKnown_ == pairsInAll(); }
  bool hasAllCurves() const;
  /// Of known pairs, worst first.
  const std::vector<Finding>& findings() const { return findings_; }
  /// By `kVerdicts`, the worst of each pair over all ways; only pairs known in all of them.
  std::array<std::size_t, 6> counts() const;
  /// Call after `put`s: findings are sorted anew.
  void refresh();

 private:
  ScenePtr scene_;
  CheckReport report_;
  std::vector<std::vector<bool>> known_, hasCurve_;
  std::vector<std::vector<PairFigures>> figures_;
  std::vector<Finding> findings_;
  std::size_t pairsKnown_ = 0;
};

}  // namespace swingroom
