#include "core/print/walls/wall_spots.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "core/print/walls/piece_neighbours.h"
#include "core/print/walls/wall_walk.h"

namespace swingroom {
namespace {

/// So much thicker than its thinnest piece, a piece is of the thin place itself.
constexpr double kWallNearShare = 1.05, kWallNearMm = 0.02;
constexpr double kWallAreaShare = 1.2;
/// A spot reaches as far as the wall does not become thinner again by more.
constexpr double kWallThinnerAgain = 0.9;
constexpr std::size_t kWallMostSpots = 200;
constexpr std::size_t kWallMostLooks = 4000;

class SpotFinder {
 public:
  SpotFinder(const WallSurface& surface, double mostMm, unsigned threads,
             std::vector<WallPlace>& places)
      : surface_(surface), neighbours_(places, threads), places_(places), mark_(places.size(), 0) {
    for (std::uint32_t i = 0; i < places.size(); ++i) {
      if (places[i].kind == WallKind::wall && places[i].upperMm < mostMm) order_.push_back(i);
    }
    std::stable_sort(order_.begin(), order_.end(), [&](std::uint32_t a, std::uint32_t b) {
      return places_[a].upperMm < places_[b].upperMm;
    });
  }

  std::vector<ThinSpot> run() {
    std::size_t looks = 0;
    for (const std::uint32_t seed : order_) {
      if (!isOpen(seed) || !isInside(places_[seed])) continue;
      if (spots_.size() >= kWallMostSpots || ++looks > kWallMostLooks) break;
      lookAt(seed);
    }
    return std::move(spots_);
  }

 private:
  bool isOpen(std::uint32_t i) const {
    return places_[i].kind == WallKind::wall && places_[i].spot == WallPlace::kNoSpot;
  }

  /// Open pieces joined to the seed that are hardly thicker; the seed first.
  std::vector<std::uint32_t> nearlyAsThin(std::uint32_t seed) {
    const double most = kWallNearShare * places_[seed].upperMm + kWallNearMm;
    std::vector<std::uint32_t> found{seed};
    ++stamp_;
    mark_[seed] = stamp_;
    for (std::size_t k = 0; k < found.size(); ++k) {
      neighbours_.each(found[k], [&](std::uint32_t n) {
        if (mark_[n] == stamp_ || !isOpen(n) || places_[n].upperMm > most) return;
        mark_[n] = stamp_;
        found.push_back(n);
      });
    }
    return found;
  }

  /// The piece that is farthest from the rim of `some`, which are marked; over the surface.
  std::uint32_t innermost(const std::vector<std::uint32_t>& some) const {
    std::vector<std::uint32_t> layer, next;
    std::vector<std::uint32_t> sorted = some;
    std::sort(sorted.begin(), sorted.end());
    std::vector<char> done(sorted.size(), 0);
    const auto indexOf = [&](std::uint32_t i) {
      return static_cast<std::size_t>(std::lower_bound(sorted.begin(), sorted.end(), i) -
                                      sorted.begin());
    };
    for (const std::uint32_t i : sorted) {
      bool atRim = false;
      neighbours_.eachBeside(i, [&](std::uint32_t n) { atRim = atRim || mark_[n] != stamp_; });
      if (!atRim) continue;
      layer.push_back(i);
      done[indexOf(i)] = 1;
    }
    if (layer.empty()) return some.front();
    while (true) {
      next.clear();
      for (const std::uint32_t i : layer) {
        neighbours_.eachBeside(i, [&](std::uint32_t n) {
          if (mark_[n] != stamp_) return;
          char& isDone = done[indexOf(n)];
          if (isDone) return;
          isDone = 1;
          next.push_back(n);
        });
      }
      if (next.empty()) return *std::min_element(layer.begin(), layer.end());
      layer.swap(next);
    }
  }

  bool isInside(const WallPlace& place) const {
    return isWithin(surface_, place.at_P, place.other_P);
  }

  void lookAt(std::uint32_t seed) {
    const std::vector<std::uint32_t> thin = nearlyAsThin(seed);
    const std::uint32_t inner = innermost(thin);
    const std::uint32_t middle = isInside(places_[inner]) ? inner : seed;
    const WallPlace& at = places_[middle];
    const WallShape shape = shapeAt(surface_, at.at_P, at.other_P);
    if (shape.form == WallShape::Form::relief) return setAside(thin, middle);
    ThinSpot spot;
    spot.kind = shape.form == WallShape::Form::neck ? WallKind::neck : WallKind::wall;
    spot.free = shape.free;
    spot.acrossMm = shape.acrossMm;
    spot.lowerMm = places_[seed].lowerMm;
    spot.upperMm = places_[seed].upperMm;
    const WallPlace& shown = at.upperMm < spot.upperMm + 1e-3 ? at : places_[seed];
    spot.at_P = (shown.at_P + shown.other_P) / 2;
    take(seed, spot);
    spots_.push_back(spot);
  }

  /// What is about a low relief is part of it; a wall beside it shows farther on.
  void setAside(const std::vector<std::uint32_t>& thin, std::uint32_t middle) {
    const double reachMm = 2 * places_[middle].upperMm;
    const Eigen::Vector3d from = places_[middle].at_P;
    places_[thin.front()].kind = WallKind::none;
    for (const std::uint32_t i : thin) {
      if ((places_[i].at_P - from).norm() <= reachMm) places_[i].kind = WallKind::none;
    }
  }

  /// Gives the spot all that goes uphill from its thinnest piece.
  void take(std::uint32_t seed, ThinSpot& spot) {
    const auto index = static_cast<std::uint32_t>(spots_.size());
    std::vector<std::pair<std::uint32_t, double>> open{{seed, places_[seed].upperMm}};
    places_[seed].spot = index;
    for (std::size_t k = 0; k < open.size(); ++k) {
      const auto [i, thickest] = open[k];
      WallPlace& place = places_[i];
      if (place.upperMm <= kWallAreaShare * spot.upperMm + kWallNearMm) {
        const auto& t = place.corners_P;
        spot.areaMm2 += (t[1] - t[0]).cross(t[2] - t[0]).norm() / 2;
        spot.lowerMm = std::min(spot.lowerMm, place.lowerMm);
        if (spot.kind == WallKind::neck) place.kind = WallKind::neck;
      }
      const double before = thickest;
      neighbours_.each(i, [&](std::uint32_t n) {
        if (!isOpen(n) || places_[n].upperMm < kWallThinnerAgain * before) return;
        places_[n].spot = index;
        open.emplace_back(n, std::max(before, places_[n].upperMm));
      });
    }
  }

  const WallSurface& surface_;
  PieceNeighbours neighbours_;
  std::vector<WallPlace>& places_;
  std::vector<std::uint32_t> order_;
  std::vector<std::uint32_t> mark_;
  std::uint32_t stamp_ = 0;
  std::vector<ThinSpot> spots_;
};

}  // namespace

std::vector<ThinSpot> thinSpots(const WallSurface& surface, double mostMm, unsigned threads,
                                std::vector<WallPlace>& places) {
  return SpotFinder(surface, mostMm, threads, places).run();
}

}  // namespace swingroom
