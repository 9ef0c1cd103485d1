#include "core/room/space/space_grid.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace swingroom {
namespace {

constexpr std::uint32_t kBlock = 2;     ///< Cubes of a block: the last that has its own near triangles.
constexpr std::uint32_t kCloseUp = 4;   ///< Cubes from which on triangles are kept, not nodes of trees.
constexpr std::uint32_t kTop = 16;      ///< Cubes of the coarsest look.
constexpr double kCoarseBelowMm = 1e-3;  ///< A value is below the true one by at most this.

std::array<double, 3> cubesIn(const Eigen::AlignedBox3d& box, double pitchMm) {
  std::array<double, 3> cubes;
  for (int d = 0; d < 3; ++d) {
    cubes[static_cast<std::size_t>(d)] = kCloseUp * std::ceil((std::ceil(box.sizes()[d] / pitchMm) + 5) / kCloseUp);
  }
  return cubes;
}

}  // namespace

double SpaceGrid::nodesIn(const Eigen::AlignedBox3d& box, double pitchMm) {
  const auto cubes = cubesIn(box, pitchMm);
  return 2 * cubes[0] * cubes[1] * cubes[2];
}

SpaceGrid::SpaceGrid(const Eigen::AlignedBox3d& box, double pitchMm)
    : low_(box.min() - Vector3d::Constant(2 * pitchMm)), pitchMm_(pitchMm) {
  const auto cubes = cubesIn(box, pitchMm);
  for (std::size_t d = 0; d < 3; ++d) cubes_[d] = static_cast<std::uint32_t>(cubes[d]);
}

Vector3d SpaceGrid::positionOf(std::uint32_t node) const {
  const auto [i, j, k] = placeOf(cubeOf(node));
  const double off = isMiddle(node) ? 0.5 : 0;
  return low_ + pitchMm_ * Vector3d(i + off, j + off, k + off);
}

std::optional<std::uint32_t> SpaceGrid::nodeNear(const Vector3d& p) const {
  const Eigen::Array3d place = ((p - low_) / pitchMm_).array().round();
  if (!(place.minCoeff() >= 0)) return std::nullopt;
  for (int d = 0; d < 3; ++d) {
    if (place[d] >= cubes_[static_cast<std::size_t>(d)]) return std::nullopt;
  }
  return cubeAt(static_cast<std::uint32_t>(place[0]), static_cast<std::uint32_t>(place[1]),
                static_cast<std::uint32_t>(place[2]));
}

Vector3d SpaceGrid::centreOf(std::uint32_t i, std::uint32_t j, std::uint32_t k, std::uint32_t size) const {
  const double half = 0.5 * (size - 0.5);
  return low_ + pitchMm_ * Vector3d(i + half, j + half, k + half);
}

double SpaceGrid::radiusOf(std::uint32_t size) const { return std::sqrt(3) * 0.5 * (size - 0.5) * pitchMm_ + 1e-9; }

SpaceValues::SpaceValues(const SpaceGrid& grid, const DistanceField& field, SpaceBounds bounds, unsigned threads,
                         StageProgress& progress)
    : grid_(&grid), field_(&field), bounds_(std::move(bounds)), monitor_(&progress.monitor()) {
  values_.assign(grid.nodeCount(), -static_cast<float>(grid.pitchMm()));
  std::size_t blocks = 1;
  std::array<std::uint32_t, 3> tops;
  for (std::size_t d = 0; d < 3; ++d) {
    blocks_[d] = grid.cubes()[d] / kBlock;
    tops[d] = (grid.cubes()[d] + kTop - 1) / kTop;
    blocks *= blocks_[d];
  }
  nearOfBlock_.assign(blocks, -1);
  const std::uint32_t most = std::max({grid.cubes()[0], grid.cubes()[1], grid.cubes()[2]}) + kTop;
  const Vector3d middle = grid.centreOf(grid.cubes()[0] / 2, grid.cubes()[1] / 2, grid.cubes()[2] / 2, 1);
  const NearPaths all = field.everything(middle, grid.radiusOf(most), grid.radiusOf(kTop) + 2 * grid.pitchMm());
  const std::size_t count = std::size_t{tops[0]} * tops[1] * tops[2];
  std::vector<std::vector<Block>> found(count);
  progress.stage(count, 60);
  parallelFor(count, threads, [&](std::size_t t) {
    const Place low{static_cast<std::uint32_t>(t % tops[0]) * kTop,
                                           static_cast<std::uint32_t>(t / tops[0] % tops[1]) * kTop,
                                           static_cast<std::uint32_t>(t / tops[0] / tops[1]) * kTop};
    goInto(low, kTop, all, found[t]);
    progress.advance();
  });
  for (auto& some : found) {
    for (Block& block : some) {
      nearOfBlock_[block.index] = static_cast<std::int32_t>(nears_.size());
      nears_.push_back(std::move(block.near));
    }
  }
}

template <typename Near>
double SpaceValues::keptAt(const Vector3d& p, const Near& near, double capMm, double belowMm) const {
  const double outside = bounds_.outside ? std::min(belowMm, bounds_.outside(p)) : belowMm;
  if (outside <= -capMm) return -capMm;
  const double opened = bounds_.opened ? bounds_.opened(p) : -capMm;
  return opened >= outside ? outside : std::max({-capMm, opened, field_->at(p, near, capMm, outside)});
}

template <typename Near>
double SpaceValues::valueAt(const Vector3d& p, const Near& near, double capMm) const {
  const double within = bounds_.within ? std::min(capMm, bounds_.within(p, capMm)) : capMm;
  return within <= -capMm ? -capMm : keptAt(p, near, capMm, within);
}

void SpaceValues::fill(const Place& low, std::uint32_t size, double value) {
  for (std::uint32_t k = low[2]; k < std::min(low[2] + size, grid_->cubes()[2]); ++k) {
    for (std::uint32_t j = low[1]; j < std::min(low[1] + size, grid_->cubes()[1]); ++j) {
      for (std::uint32_t i = low[0]; i < std::min(low[0] + size, grid_->cubes()[0]); ++i) {
        const std::uint32_t cube = grid_->cubeAt(i, j, k);
        values_[cube] = values_[grid_->middleOf(cube)] = static_cast<float>(value);
      }
    }
  }
}

/// Whether all nodes of the cubes are free, or none is.
template <typename Near>
bool SpaceValues::isDecided(const Place& low, std::uint32_t size, const Near& near) {
  const double pitch = grid_->pitchMm(), radius = grid_->radiusOf(size);
  const double value = valueAt(grid_->centreOf(low[0], low[1], low[2], size), near, radius + 1.5 * pitch);
  // Free as a whole only if the neighbours are too: so each edge that is crossed is in a block.
  const bool free = value - radius >= pitch + 1.5 * kLeastMm;
  if (free) fill(low, size, pitch);
  return free || value + radius + kCoarseBelowMm < 0;
}

void SpaceValues::goInto(const Place& low, std::uint32_t size, const NearPaths& near, std::vector<Block>& blocks) {
  if (monitor_->cancelled()) return;
  for (std::size_t d = 0; d < 3; ++d) {
    if (low[d] >= grid_->cubes()[d]) return;
  }
  // Edges of the lattice reach one pitch out of the cubes.
  const double pitch = grid_->pitchMm(), ball = grid_->radiusOf(size) + pitch;
  const Vector3d centre = grid_->centreOf(low[0], low[1], low[2], size);
  const NearPaths here = field_->narrowed(near, centre, ball, ball + pitch);
  if (isDecided(low, size, here)) return;
  NearTriangles close;
  if (size == kCloseUp) close = field_->closeUp(here, centre, ball, ball + pitch);
  const std::uint32_t half = size / 2;
  for (std::uint32_t child = 0; child < 8; ++child) {
    const Place at{low[0] + (child & 1) * half, low[1] + (child >> 1 & 1) * half, low[2] + (child >> 2 & 1) * half};
    size == kCloseUp ? goInto(at, half, close, blocks) : goInto(at, half, here, blocks);
  }
}

void SpaceValues::goInto(const Place& low, std::uint32_t size, const NearTriangles& near, std::vector<Block>& blocks) {
  const double pitch = grid_->pitchMm(), ball = grid_->radiusOf(size) + pitch;
  if (isDecided(low, size, near)) return;
  NearTriangles here = field_->narrowed(near, grid_->centreOf(low[0], low[1], low[2], size), ball, pitch);
  for (std::uint32_t cube = 0; cube < 8; ++cube) {
    lookAtNodes({low[0] + (cube & 1), low[1] + (cube >> 1 & 1), low[2] + (cube >> 2 & 1)}, here);
  }
  blocks.push_back({(low[2] / kBlock * blocks_[1] + low[1] / kBlock) * blocks_[0] + low[0] / kBlock, std::move(here)});
}

void SpaceValues::lookAtNodes(const Place& low, const NearTriangles& near) {
  const std::uint32_t cube = grid_->cubeAt(low[0], low[1], low[2]);
  for (const std::uint32_t node : {cube, grid_->middleOf(cube)}) {
    values_[node] = static_cast<float>(valueAt(grid_->positionOf(node), near, grid_->pitchMm()));
  }
}

std::uint32_t SpaceValues::blockOf(std::uint32_t cube) const {
  const auto [i, j, k] = grid_->placeOf(cube);
  return (k / kBlock * blocks_[1] + j / kBlock) * blocks_[0] + i / kBlock;
}

EdgePoint SpaceValues::edgeOf(std::uint32_t freeNode, std::uint32_t blockedNode) const {
  constexpr double kAimMm = 1e-4;
  constexpr int kMostLooks = 12;
  std::int32_t block = nearOfBlock_[blockOf(grid_->cubeOf(freeNode))];
  if (block < 0) block = nearOfBlock_[blockOf(grid_->cubeOf(blockedNode))];
  const Vector3d from = grid_->positionOf(freeNode), way = grid_->positionOf(blockedNode) - from;
  const double length = way.norm();
  double low = std::min(kLeastMm, 0.9 * values_[freeNode]) / length, high = 0.98;
  if (block < 0) return {from + low * way};  // Next to a node that was taken out of the space.
  const NearTriangles& near = nears_[static_cast<std::size_t>(block)];
  double atLow = values_[freeNode], atHigh = values_[blockedNode];
  double lowAt = 0, highAt = 1;
  for (int look = 0; look < kMostLooks && (high - low) * length > kAimMm; ++look) {
    double at = lowAt + (highAt - lowAt) * (atLow - kAimMm) / (atLow - atHigh);
    // Once in a while halved, so that a kink does not hold it up.
    if (look % 3 == 2 || !(at > low && at < high)) at = look == 0 ? std::clamp(at, low, high) : 0.5 * (low + high);
    const double value = valueAt(from + at * way, near, 0.15 * grid_->pitchMm());
    if (value >= 0) {
      low = lowAt = at;
      atLow = value;
      if (value <= 3 * kAimMm) break;
    } else {
      high = highAt = at;
      atHigh = value;
    }
  }
  const Vector3d point = from + low * way;
  if (atLow > 3 * kAimMm || !bounds_.within || bounds_.within(point, kMostSpareMm) > 6 * kAimMm) return {point};
  return {point, static_cast<float>(std::max(0.0, keptAt(point, near, 0.01, kMostSpareMm)))};
}

}  // namespace swingroom
