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

/// Of the true share of a cut cell from the share by a flat surface: a third of a cell is generous.
constexpr double kShareDeviation = 0.3;
constexpr double kHalfDiagonal = 1.7320508075688772;
/// Distances may be taken this share of a cell too large: deep inside, where all of the surface is
/// about equally far, that saves most of the work.
constexpr double kSlackShare = 0.05;

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
      sumUp();
      if (isCancelled(question_.monitor) || cut_.empty()) break;
      // From here on cells at the outside are settled, and the shares mean something.
      const bool fine = 2 * kHalfDiagonal * halfMm_ < question_.depthMm;
      if (fine && deep_.accuracyMm3 <= question_.accurateToMm3) break;
      if (fine && looked + 8 * cut_.size() > question_.most) break;
      if (looked > 20 * question_.most) break;
      before_ = deep_;
      cells = halved();
    }
    return deep_;
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
    const double over = most - question_.depthMm;
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

  void sumUp() {
    deep_ = {};
    deep_.lowerMm3 = deep_.bestMm3 = sumMm3_;
    deep_.upperMm3 = sumMm3_ + cellMm3() * static_cast<double>(cut_.size());
    deep_.countedTwiceMm3 = twiceMm3_;
    Vector3d moment = moment_;
    for (const CutCell& cut : cut_) {
      deep_.bestMm3 += cut.share * cellMm3();
      moment += cut.share * cellMm3() * cut.centre;
    }
    if (deep_.bestMm3 > 0) deep_.centre = moment / deep_.bestMm3;
    double squares = 0;
    for (const CutCell& cut : cut_) squares += (cut.centre - deep_.centre).squaredNorm();
    const double cell = 3 * kShareDeviation * cellMm3();
    deep_.accuracyMm3 = cell * std::sqrt(static_cast<double>(cut_.size()));
    deep_.momentAccuracyMm4 = cell * std::sqrt(squares);
    if (!before_) return;
    const double change = deep_.bestMm3 - before_->bestMm3;
    deep_.accuracyMm3 += std::abs(change);
    deep_.momentAccuracyMm4 +=
        (deep_.bestMm3 * deep_.centre - before_->bestMm3 * before_->centre - change * deep_.centre)
            .norm();
  }

  const BoundingTree& tree_;
  const DeepVolumeQuestion& question_;
  double halfMm_ = 0;
  double sumMm3_ = 0;
  double twiceMm3_ = 0;
  Vector3d moment_ = Vector3d::Zero();
  std::vector<CutCell> cut_;
  DeepVolume deep_;
  std::optional<DeepVolume> before_;  ///< With cells twice as large.
};

}  // namespace

DeepVolume deepVolume(const Solid& solid, const DeepVolumeQuestion& question) {
  if (!solid.hasInside()) return {};
  return DeepSearch(solid, question).run();
}

}  // namespace swingroom
