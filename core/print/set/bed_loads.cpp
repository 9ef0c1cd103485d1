#include "core/print/set/bed_loads.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <optional>
#include <stdexcept>

namespace swingroom {
namespace {

constexpr double kLoadRounding = 1e-6;

struct LoadRect {
  double x = 0, y = 0, width = 0, depth = 0;

  bool meets(const LoadRect& o) const {
    return x < o.x + o.width && o.x < x + width && y < o.y + o.depth && o.y < y + depth;
  }
  bool holds(const LoadRect& o) const {
    return x <= o.x && y <= o.y && x + width >= o.x + o.width && y + depth >= o.y + o.depth;
  }
};

/// One bed: its free rectangles, as large as can be, overlapping.
class LoadBed {
 public:
  LoadBed(double width, double depth) : free_{{0, 0, width, depth}} {}

  struct Room {
    LoadRect rect;
    bool turned = false;
    double shortLeft = std::numeric_limits<double>::infinity();
    double longLeft = 0;
  };

  std::optional<Room> roomFor(double width, double depth) const {
    std::optional<Room> best;
    for (const LoadRect& rect : free_) {
      for (const bool turned : {false, true}) {
        const double w = turned ? depth : width, d = turned ? width : depth;
        const double overW = rect.width - w, overD = rect.depth - d;
        if (overW < -kLoadRounding || overD < -kLoadRounding) continue;
        const Room room{
            {rect.x, rect.y, w, d}, turned, std::min(overW, overD), std::max(overW, overD)};
        if (!best || room.shortLeft < best->shortLeft ||
            (room.shortLeft == best->shortLeft && room.longLeft < best->longLeft)) {
          best = room;
        }
      }
    }
    return best;
  }

  void take(const LoadRect& used) {
    std::vector<LoadRect> left;
    for (const LoadRect& rect : free_) {
      if (!rect.meets(used)) {
        left.push_back(rect);
        continue;
      }
      const double right = rect.x + rect.width, back = rect.y + rect.depth;
      const double usedRight = used.x + used.width, usedBack = used.y + used.depth;
      add({rect.x, rect.y, used.x - rect.x, rect.depth}, left);
      add({usedRight, rect.y, right - usedRight, rect.depth}, left);
      add({rect.x, rect.y, rect.width, used.y - rect.y}, left);
      add({rect.x, usedBack, rect.width, back - usedBack}, left);
    }
    free_.clear();
    for (std::size_t i = 0; i < left.size(); ++i) {
      bool held = false;
      for (std::size_t j = 0; j < left.size() && !held; ++j) {
        // Of two alike the first stays.
        held = i != j && left[j].holds(left[i]) && (!left[i].holds(left[j]) || j < i);
      }
      if (!held) free_.push_back(left[i]);
    }
  }

 private:
  static void add(const LoadRect& rect, std::vector<LoadRect>& to) {
    if (rect.width > kLoadRounding && rect.depth > kLoadRounding) to.push_back(rect);
  }

  std::vector<LoadRect> free_;
};

class LoadPacker {
 public:
  LoadPacker(double width, double depth, const LoadSettings& settings)
      : width_(width), depth_(depth), settings_(settings) {}

  LoadPlace place(const LoadPiece& piece) {
    // Each piece takes the spacing along with it, the bed has one more.
    const double gap = settings_.spacingMm, margin = settings_.marginMm;
    const double width = piece.widthMm + gap, depth = piece.depthMm + gap;
    for (const std::size_t i : open_) {
      if (const auto room = beds_[i].roomFor(width, depth)) return put(i, *room);
    }
    LoadBed bed(width_ - 2 * margin + gap, depth_ - 2 * margin + gap);
    const auto room = bed.roomFor(width, depth);
    if (!room) return alone(piece);
    beds_.push_back(bed);
    open_.push_back(beds_.size() - 1);
    // Older beds are full enough: thousands of pieces must not ask each of them.
    if (open_.size() > kOpenBeds) open_.erase(open_.begin());
    return put(beds_.size() - 1, *room);
  }

 private:
  static constexpr std::size_t kOpenBeds = 12;

  LoadPlace put(std::size_t bed, const LoadBed::Room& room) {
    beds_[bed].take(room.rect);
    return {bed, room.rect.x + settings_.marginMm, room.rect.y + settings_.marginMm, room.turned};
  }

  LoadPlace alone(const LoadPiece& piece) {
    const auto fits = [&](double w, double d) {
      return w <= width_ + kLoadRounding && d <= depth_ + kLoadRounding;
    };
    const bool turned = !fits(piece.widthMm, piece.depthMm);
    const double w = turned ? piece.depthMm : piece.widthMm;
    const double d = turned ? piece.widthMm : piece.depthMm;
    if (!fits(w, d)) throw std::invalid_argument("packLoads: a piece does not fit the bed");
    beds_.emplace_back(0, 0);
    return {beds_.size() - 1, (width_ - w) / 2, (depth_ - d) / 2, turned};
  }

  double width_, depth_;
  LoadSettings settings_;
  std::vector<LoadBed> beds_;
  std::vector<std::size_t> open_;
};

}  // namespace

std::vector<LoadPlace> packLoads(const std::vector<LoadPiece>& pieces, double bedWidthMm,
                                 double bedDepthMm, const LoadSettings& settings) {
  std::vector<std::size_t> order(pieces.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const auto key = [&](std::size_t i) {
      return std::pair(std::max(pieces[i].widthMm, pieces[i].depthMm),
                       std::min(pieces[i].widthMm, pieces[i].depthMm));
    };
    return key(a) > key(b);
  });
  LoadPacker packer(bedWidthMm, bedDepthMm, settings);
  std::vector<LoadPlace> places(pieces.size());
  for (const std::size_t i : order) places[i] = packer.place(pieces[i]);
  return places;
}

}  // namespace swingroom
