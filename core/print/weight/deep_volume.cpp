#include "core/print/weight/deep_volume.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <vector>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

struct DeepCell {
  Vector3d centre;
  std::optional<std::uint32_t> near;  ///< Triangle near it.
  int winding = -1;                   ///< -1: not known; it may hold surface.
};

/// An undecided cell: the share of it that is probably deep.
struct CutCell {
  Vector3d centre;
  std::optional<std::uint32_t> near;
  int winding = -1;
  double share = 0;
};

constexpr double kHalfDiagonal = 1.7320508075688772;
/// Distances may be taken this share of a cell too large: deep inside, where all of the surface is
/// about equally far, that saves most of the work.
constexpr double kSlackShare = 0.1;

class DeepSearch {
 public:
  DeepSearch(const Solid& solid, const DeepVolumeQuestion& question)
      : tree_(solid.boundary()), question_(question) {}

  DeepVolume run() {
    const BoundingTree::Node& root = tree_.root();
    halfMm_ = root.half.maxCoeff() * (1 + 1e-9) + 1e-9;
    std::vector<DeepCell> cells = {{root.centre, std::nullopt, -1}};
    std::size_t looked = 0;
    while (!cells.empty()) {
      cut_.clear();
      for (const DeepCell& cell : cells) look(cell);
      looked += cells.size();
      const double width = cellMm3() * static_cast<double>(cut_.size());
      if (isCancelled(question_.monitor)) break;
      if (halfMm_ < question_.depthMm && width <= question_.accurateToMm3) break;
      if (halfMm_ < question_.depthMm && looked + 8 * cut_.size() > question_.most) break;
      cells = halved();
    }
    return summedUp();
  }

 private:
  double cellMm3() const { return 8 * halfMm_ * halfMm_ * halfMm_; }

  void look(const DeepCell& cell) {
    const double r = kHalfDiagonal * halfMm_;
    PointHints hints;
    hints.triangle = cell.near;
    hints.slackMm = kSlackShare * halfMm_;
    const auto nearest = closestPoint(tree_, cell.centre, hints);
    if (!nearest) return;
    const double most = nearest->distanceMm, least = std::max(0.0, most - hints.slackMm);
    if (most + r <= question_.depthMm) return;
    int winding = cell.winding;
    if (winding < 0 && least > r) winding = std::abs(windingNumber(tree_, cell.centre));
    if (winding == 0) return;
    if (least > r && winding > 1) twiceMm3_ += (winding - 1) * cellMm3();
    const bool sided = least > r;
    if (sided && least - r >= question_.depthMm) {
      sumMm3_ += cellMm3();
      moment_ += cellMm3() * cell.centre;
      return;
    }
    const double over = most - 0.5 * hints.slackMm - question_.depthMm;
    const double share = sided ? std::clamp(0.5 + over / (2 * halfMm_), 0.0, 1.0) : 0.0;
    if (sided && winding > 1) twiceMm3_ -= (winding - 1) * cellMm3();  // Its children count it.
    cut_.push_back({cell.centre, nearest->triangle, sided ? winding : -1, share});
  }

  std::vector<DeepCell> halved() {
    halfMm_ /= 2;
    std::vector<DeepCell> cells;
    cells.reserve(8 * cut_.size());
    for (const CutCell& cut : cut_) {
      for (int i = 0; i < 8; ++i) {
        const Vector3d side((i & 1) ? 1 : -1, (i & 2) ? 1 : -1, (i & 4) ? 1 : -1);
        cells.push_back({cut.centre + halfMm_ * side, cut.near, cut.winding});
      }
    }
    return cells;
  }

  DeepVolume summedUp() const {
    DeepVolume deep;
    deep.lowerMm3 = sumMm3_;
    deep.upperMm3 = sumMm3_ + cellMm3() * static_cast<double>(cut_.size());
    deep.bestMm3 = sumMm3_;
    deep.countedTwiceMm3 = twiceMm3_;
    Vector3d moment = moment_, doubtMoment = Vector3d::Zero();
    for (const CutCell& cut : cut_) {
      deep.bestMm3 += cut.share * cellMm3();
      moment += cut.share * cellMm3() * cut.centre;
      const double doubt = std::max(cut.share, 1 - cut.share) * cellMm3();
      deep.doubtMm3 += doubt;
      doubtMoment += doubt * cut.centre;
    }
    if (deep.bestMm3 > 0) deep.centre = moment / deep.bestMm3;
    if (deep.doubtMm3 <= 0) return deep;
    deep.doubtCentre = doubtMoment / deep.doubtMm3;
    for (const CutCell& cut : cut_) {
      const double doubt = std::max(cut.share, 1 - cut.share) * cellMm3();
      deep.doubtReachMm4 +=
          doubt * ((cut.centre - deep.doubtCentre).norm() + kHalfDiagonal * halfMm_);
    }
    return deep;
  }

  const BoundingTree& tree_;
  const DeepVolumeQuestion& question_;
  double halfMm_ = 0;
  double sumMm3_ = 0;
  double twiceMm3_ = 0;
  Vector3d moment_ = Vector3d::Zero();
  std::vector<CutCell> cut_;
};

}  // namespace

DeepVolume deepVolume(const Solid& solid, const DeepVolumeQuestion& question) {
  if (!solid.hasInside()) return {};
  return DeepSearch(solid, question).run();
}

}  // namespace swingroom
