#include "core/picture/words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace swingroom {
namespace {

using Eigen::Vector2d;
using WordsBox = Eigen::AlignedBox2d;

constexpr double kLineHeight = 20;
constexpr double kEdge = 4;       ///< Least distance of words from the picture's edge, pixels.
constexpr double kApart = 3;      ///< Of words from each other.
constexpr int kRings = 12;        ///< Of places to try round a point, up to 250 pixels away.
constexpr double kFirstStep = 9;  ///< Of words from their point.

WordsBox boxRound(const Vector2d& middle, const Vector2d& size) {
  return {Vector2d(middle - size / 2), Vector2d(middle + size / 2)};
}

WordsBox grown(const WordsBox& box, double by) {
  return {Vector2d(box.min().array() - by), Vector2d(box.max().array() + by)};
}

bool apart(const WordsBox& a, const WordsBox& b) {
  return a.max().x() <= b.min().x() || b.max().x() <= a.min().x() || a.max().y() <= b.min().y() ||
         b.max().y() <= a.min().y();
}

/// Whether the segment passes through the box: clipped by its four sides (Liang, Barsky 1984).
bool meets(const WordsBox& box, const Vector2d& from, const Vector2d& to) {
  double first = 0, last = 1;
  for (int axis = 0; axis < 2; ++axis) {
    const double move = to[axis] - from[axis];
    if (std::abs(move) < 1e-12) {
      if (from[axis] < box.min()[axis] || from[axis] > box.max()[axis]) return false;
      continue;
    }
    const double a = (box.min()[axis] - from[axis]) / move,
                 b = (box.max()[axis] - from[axis]) / move;
    first = std::max(first, std::min(a, b));
    last = std::min(last, std::max(a, b));
  }
  return first <= last;
}

/// The free room of a picture for words.
class WordsRoom {
 public:
  WordsRoom(const Ambient& ambient, int width, int height)
      : inside_(Vector2d(0, 0), Vector2d(width, height)) {
    inside_ = grown(inside_, -kEdge);
    width_ = width;
    sums_.assign(static_cast<std::size_t>(width + 1) * static_cast<std::size_t>(height + 1), 0);
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < width; ++x) {
        sum(x + 1, y + 1) =
            sum(x, y + 1) + sum(x + 1, y) - sum(x, y) + (ambient.isShape(x, y) ? 1 : 0);
      }
    }
  }

  void keepClear(const Vector2d& point) { points_.push_back(point); }
  void keepClear(const std::array<Vector2d, 2>& line) { lines_.push_back(line); }

  /// The best free place for the middle of words that belong to `point`; it is taken from then on.
  std::optional<Vector2d> take(const Vector2d& point, const Vector2d& size) {
    std::optional<Vector2d> best = nearPlace(point, size);
    if (!best) best = anyPlace(point, size);
    if (best) taken_.push_back({boxRound(*best, size), point});
    return best;
  }

 private:
  struct Taken {
    WordsBox box;
    Vector2d point;
  };

  int& sum(int x, int y) {
    return sums_[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_ + 1) +
                 static_cast<std::size_t>(x)];
  }

  std::optional<Vector2d> nearPlace(const Vector2d& point, const Vector2d& size) {
    static constexpr int kWays[16][2] = {{2, -1}, {-2, -1}, {2, 1}, {-2, 1}, {1, -1}, {-1, -1},
                                         {1, 1},  {-1, 1},  {1, 0}, {-1, 0}, {0, -1}, {0, 1},
                                         {1, -2}, {-1, -2}, {1, 2}, {-1, 2}};
    std::optional<Vector2d> best;
    double least = 1e300;
    double step = kFirstStep;
    for (int ring = 0; ring < kRings; ++ring, step *= 1.35) {
      for (const auto& way : kWays) {
        const Vector2d direction = Vector2d(way[0], way[1]).normalized();
        // The box stands with a side or a corner towards the point.
        const Vector2d lean = (direction * 1.5).cwiseMax(-1.0).cwiseMin(1.0);
        const Vector2d middle = point + direction * step + lean.cwiseProduct(size) / 2;
        const double cost = step + costAt(point, middle, size);
        if (cost < least && isFree(middle, size)) least = cost, best = middle;
      }
    }
    return best;
  }

  std::optional<Vector2d> anyPlace(const Vector2d& point, const Vector2d& size) {
    std::optional<Vector2d> best;
    double least = 1e300;
    const Vector2d low = inside_.min() + size / 2, high = inside_.max() - size / 2;
    for (int row = 0; low.y() + 2 * row <= high.y(); ++row) {
      for (int column = 0; low.x() + 8 * column <= high.x(); ++column) {
        const double x = low.x() + 8 * column, y = low.y() + 2 * row;
        const double far = (Vector2d(x, y) - point).norm();
        if (far < least && isFree(Vector2d(x, y), size)) least = far, best = Vector2d(x, y);
      }
    }
    return best;
  }

  bool isFree(const Vector2d& middle, const Vector2d& size) const {
    const WordsBox box = boxRound(middle, size);
    if (!inside_.contains(box)) return false;
    const WordsBox wide = grown(box, kApart);
    return std::all_of(taken_.begin(), taken_.end(),
                       [&](const Taken& other) { return apart(wide, other.box); });
  }

  /// Pixels of distance that a place is worse by for what it hides or crosses.
  double costAt(const Vector2d& point, const Vector2d& middle, const Vector2d& size) {
    const WordsBox box = boxRound(middle, size);
    if (!inside_.contains(box)) return 1e6;
    const auto left = static_cast<int>(box.min().x()), top = static_cast<int>(box.min().y());
    const auto right = static_cast<int>(box.max().x()), bottom = static_cast<int>(box.max().y());
    const int hidden = sum(right, bottom) - sum(left, bottom) - sum(right, top) + sum(left, top);
    double cost = 90.0 * hidden / std::max(1, (right - left) * (bottom - top));
    const WordsBox wide = grown(box, kApart);
    for (const auto& line : lines_) cost += meets(wide, line[0], line[1]) ? 200 : 0;
    for (const Vector2d& other : points_) cost += wide.contains(other) ? 120 : 0;
    for (const Taken& other : taken_) {
      cost += meets(other.box, point, middle) ? 150 : 0;
      cost += meets(wide, other.point, other.box.center()) ? 150 : 0;
    }
    return cost;
  }

  WordsBox inside_;
  int width_ = 0;
  std::vector<int> sums_;  ///< Pixels that show a shape, above and left of each pixel's corner.
  std::vector<Vector2d> points_;
  std::vector<std::array<Vector2d, 2>> lines_;
  std::vector<Taken> taken_;
};

bool isInside(const Vector2d& p, const Image& image) {
  return p.x() >= 0 && p.y() >= 0 && p.x() <= image.width && p.y() <= image.height;
}

}  // namespace

Vector2d wordsSize(const std::string& text) {
  double width = 8;
  for (const char character : text) {
    const auto byte = static_cast<unsigned char>(character);
    if ((byte & 0xC0) == 0x80) continue;  // Goes on with the character before.
    const bool capital = byte >= 'A' && byte <= 'Z';
    width += byte >= 0xE1 ? 14.0 : capital || byte >= 0x80 ? 10.5 : 8.2;
  }
  return {width, kLineHeight};
}

void placeWords(const Stage& stage, const Ambient& ambient, Picture& picture) {
  const Image& image = picture.image;
  WordsRoom room(ambient, image.width, image.height);
  const auto seen = [&](const Vector3d& p_W) { return Vector2d(stage.camera.seen(p_W).head<2>()); };
  for (const PictureDimension& dimension : stage.request.dimensions) {
    room.keepClear(std::array<Vector2d, 2>{seen(dimension.ends_W[0]), seen(dimension.ends_W[1])});
  }
  for (const auto& [p_W, text] : stage.request.labels) room.keepClear(seen(p_W));
  for (const PictureDimension& dimension : stage.request.dimensions) {
    const std::array<Vector2d, 2> ends{seen(dimension.ends_W[0]), seen(dimension.ends_W[1])};
    const Vector2d middle = (ends[0] + ends[1]) / 2;
    if (!isInside(middle, image)) continue;
    if (const auto place = room.take(middle, wordsSize(dimension.text))) {
      picture.dimensions.push_back({ends, *place, dimension.text});
    }
  }
  for (const auto& [p_W, text] : stage.request.labels) {
    const Vector2d point = seen(p_W);
    if (!isInside(point, image)) continue;
    if (const auto place = room.take(point, wordsSize(text)))
      picture.labels.push_back({point, *place, text});
  }
}

}  // namespace swingroom
