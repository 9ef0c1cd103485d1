#include "app/viewport/painters/overlap_mask.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace swingroom {
namespace {

/// Surfaces that lie on each other differ by the rounding of files: that is touch, not overlap.
constexpr float kTouchMm = 1e-4F;
constexpr int kMargin =
    static_cast<int>(OverlapMask::kReachPixels) + 1;  ///< For the outline's outer rim.

/// A surface behind a sample: how far from the eye, and whether the ray enters or leaves there.
struct Crossing {
  float depthMm;
  std::int8_t part;  ///< 0 or 1.
  std::int8_t turn;  ///< +1: the surface looks at the eye.
};

using Box = Eigen::AlignedBox3d;

Box boxIn(const Pose& X_FM, const ViewMesh& mesh) {
  Box box;
  for (const Eigen::Vector3f& corner : mesh.corners) box.extend(X_FM * corner.cast<double>());
  return box;
}

/// Pixels of the picture in which a box is seen; all of it if the box reaches behind the eye.
Eigen::AlignedBox2d pixelsOf(const Box& box, const Pose& X_WF, const ViewProjection& projection) {
  Eigen::AlignedBox2d all(Eigen::Vector2d(0, 0),
                          Eigen::Vector2d(projection.size().width, projection.size().height));
  Eigen::AlignedBox2d seen;
  for (int i = 0; i < 8; ++i) {
    const Vector3d p_V = projection.inView(X_WF * box.corner(static_cast<Box::CornerType>(i)));
    if (projection.camera().perspective && p_V.z() <= 1e-3) return all;
    seen.extend(projection.pixelOf(p_V));
  }
  return seen.intersection(all);
}

/// Where common points can be seen: within both parts' boxes, in either's own frame and in the
/// world's.
Eigen::AlignedBox2d commonPixels(const ViewMesh& a, const Pose& X_WA, const ViewMesh& b,
                                 const Pose& X_WB, const ViewProjection& projection) {
  Eigen::AlignedBox2d pixels(Eigen::Vector2d(0, 0),
                             Eigen::Vector2d(projection.size().width, projection.size().height));
  for (const Pose& X_WF : {X_WA, X_WB, Pose(Pose::Identity())}) {
    const Pose X_FW = X_WF.inverse();
    const Box common = boxIn(X_FW * X_WA, a).intersection(boxIn(X_FW * X_WB, b));
    if (common.isEmpty()) return {};
    pixels = pixels.intersection(pixelsOf(common, X_WF, projection));
  }
  return pixels;
}

/// The samples of a rectangle of the picture and what the rays through them cross.
class Rays {
 public:
  Rays(const Eigen::AlignedBox2d& pixels, const ViewProjection& projection, int step)
      : projection_(projection), step_(step) {
    const auto sample = [&](double pixel) { return static_cast<int>(std::floor(pixel / step)); };
    left_ = sample(pixels.min().x()), top_ = sample(pixels.min().y());
    columns_ = sample(pixels.max().x()) - left_ + 1, rows_ = sample(pixels.max().y()) - top_ + 1;
    counts_.assign(static_cast<std::size_t>(columns_ * rows_) + 1, 0);
  }

  int left() const { return left_ * step_; }
  int top() const { return top_ * step_; }
  int columns() const { return columns_; }
  int rows() const { return rows_; }

  void add(const ViewMesh& mesh, const Pose& X_WM, std::int8_t part) {
    const Eigen::Affine3d X_VM = projection_.viewFromWorld() * X_WM;
    std::vector<Vector3d> corners;
    corners.reserve(mesh.corners.size());
    for (const Eigen::Vector3f& corner : mesh.corners)
      corners.push_back(X_VM * corner.cast<double>());
    for (const Triangle& t : mesh.triangles)
      addTriangle({corners[t[0]], corners[t[1]], corners[t[2]]}, part);
  }

  /// By sample: whether its ray passes through both.
  std::vector<char> common() {
    sortBySample();
    std::vector<char> result(counts_.size() - 1);
    for (std::size_t i = 0; i + 1 < counts_.size(); ++i) {
      result[i] = passesBoth(crossings_.data() + counts_[i], crossings_.data() + counts_[i + 1]);
    }
    return result;
  }

 private:
  struct Placed {
    std::uint32_t sample;
    Crossing crossing;
  };

  /// Cut at a plane just before the eye: what is nearer has no place in the picture.
  void addTriangle(const std::array<Vector3d, 3>& corners_V, std::int8_t part) {
    const double nearMm = 1e-3 * projection_.camera().distanceMm();
    const auto behind = [&](const Vector3d& p) {
      return projection_.camera().perspective && p.z() < nearMm;
    };
    if (!behind(corners_V[0]) && !behind(corners_V[1]) && !behind(corners_V[2]))
      return addWhole(corners_V, part);
    std::vector<Vector3d> cut;
    for (std::size_t k = 0; k < 3; ++k) {
      const Vector3d &p = corners_V[k], &q = corners_V[(k + 1) % 3];
      if (!behind(p)) cut.push_back(p);
      if (behind(p) != behind(q)) cut.push_back(p + (q - p) * ((nearMm - p.z()) / (q.z() - p.z())));
    }
    for (std::size_t k = 2; k < cut.size(); ++k) addWhole({cut[0], cut[k - 1], cut[k]}, part);
  }

  /// Along a row depth (in perspective its inverse) changes evenly. A sample on the border of two
  /// triangles belongs to one of them: edges own their lower or left side, whichever way round they
  /// are walked.
  void addWhole(const std::array<Vector3d, 3>& corners_V, std::int8_t part) {
    const bool inverse = projection_.camera().perspective;
    std::array<Eigen::Vector2d, 3> p;
    std::array<double, 3> depth;
    for (std::size_t k = 0; k < 3; ++k) {
      p[k] = projection_.pixelOf(corners_V[k]) / step_ - Eigen::Vector2d(left_ + 0.5, top_ + 0.5);
      depth[k] = inverse ? 1 / corners_V[k].z() : corners_V[k].z();
    }
    const double low = std::min({p[0].y(), p[1].y(), p[2].y()}),
                 high = std::max({p[0].y(), p[1].y(), p[2].y()});
    if (high < 0 || low > rows_ - 1 || std::max({p[0].x(), p[1].x(), p[2].x()}) < 0 ||
        std::min({p[0].x(), p[1].x(), p[2].x()}) > columns_ - 1)
      return;
    const Eigen::Vector2d u = p[1] - p[0], v = p[2] - p[0];
    const double area = u.x() * v.y() - u.y() * v.x();
    if (area == 0) return;
    // Rows count downwards: counter-clockwise on the display has a negative area here.
    const std::int8_t turn = area < 0 ? 1 : -1;
    const double du = depth[1] - depth[0], dv = depth[2] - depth[0];
    const Eigen::Vector2d slope((du * v.y() - dv * u.y()) / area, (dv * u.x() - du * v.x()) / area);
    const auto [nearest, farthest] = std::minmax({depth[0], depth[1], depth[2]});
    for (int row = std::max(0, static_cast<int>(std::ceil(low)));
         row < std::min<double>(rows_, high); ++row) {
      double from = 1e300, to = -1e300;
      for (std::size_t k = 0; k < 3; ++k) crossRow(p[k], p[(k + 1) % 3], row, from, to);
      if (from > to) continue;
      const int first = std::max(0, static_cast<int>(std::ceil(from)));
      const int last = std::min(columns_, static_cast<int>(std::ceil(to)));
      for (int column = first; column < last; ++column) {
        double d = depth[0] + slope.dot(Eigen::Vector2d(column, row) - p[0]);
        d = std::clamp(d, nearest, farthest);  // Slivers have slopes without meaning.
        push(row * columns_ + column, {static_cast<float>(inverse ? 1 / d : d), part, turn});
      }
    }
  }

  static void crossRow(const Eigen::Vector2d& p, const Eigen::Vector2d& q, int row, double& from,
                       double& to) {
    const bool down = p.y() <= row && q.y() > row, up = q.y() <= row && p.y() > row;
    if (!down && !up) return;
    // From the same end whichever triangle asks: both get the same crossing, bit for bit.
    const Eigen::Vector2d &a = down ? p : q, &b = down ? q : p;
    const double x = a.x() + (row - a.y()) / (b.y() - a.y()) * (b.x() - a.x());
    from = std::min(from, x), to = std::max(to, x);
  }

  void push(int sample, const Crossing& crossing) {
    placed_.push_back({static_cast<std::uint32_t>(sample), crossing});
    ++counts_[static_cast<std::size_t>(sample)];
  }

  void sortBySample() {
    std::uint32_t sum = 0;
    for (std::uint32_t& count : counts_) sum += std::exchange(count, sum);
    crossings_.resize(placed_.size());
    std::vector<std::uint32_t> next = counts_;
    for (const Placed& placed : placed_) crossings_[next[placed.sample]++] = placed.crossing;
  }

  static bool passesBoth(Crossing* begin, Crossing* end) {
    if (end - begin < 4) return false;  // In and out of both.
    std::sort(begin, end,
              [](const Crossing& x, const Crossing& y) { return x.depthMm < y.depthMm; });
    std::array<int, 2> inside{0, 0};
    bool both = false;
    for (const Crossing* crossing = begin; crossing != end; ++crossing) {
      inside[static_cast<std::size_t>(crossing->part)] += crossing->turn;
      const bool lasts =
          crossing + 1 != end && (crossing + 1)->depthMm > crossing->depthMm + kTouchMm;
      both = both || (lasts && inside[0] != 0 && inside[1] != 0);
    }
    return both && inside[0] == 0 && inside[1] == 0;
  }

  const ViewProjection& projection_;
  int step_, left_ = 0, top_ = 0, columns_ = 0, rows_ = 0;
  std::vector<Placed> placed_;
  std::vector<std::uint32_t> counts_;  ///< By sample; then where its crossings begin.
  std::vector<Crossing> crossings_;
};

/// Chamfer distances to the nearest sample with `wanted`, in samples: Borgefors 1986, weights 1 and
/// sqrt 2.
std::vector<float> distancesTo(const std::vector<char>& mask, int columns, int rows, bool wanted) {
  std::vector<float> distance(mask.size());
  for (std::size_t i = 0; i < mask.size(); ++i)
    distance[i] = (mask[i] != 0) == wanted ? 0.0F : 1e6F;
  const auto relax = [&](int x, int y, int dx, int dy, float step) {
    if (x + dx < 0 || x + dx >= columns || y + dy < 0 || y + dy >= rows) return;
    float& here = distance[static_cast<std::size_t>(y * columns + x)];
    here = std::min(here, distance[static_cast<std::size_t>((y + dy) * columns + x + dx)] + step);
  };
  constexpr float kSlant = 1.41421356F;
  for (const int way : {-1, 1}) {
    for (int i = 0; i < rows; ++i) {
      const int y = way < 0 ? i : rows - 1 - i;
      for (int k = 0; k < columns; ++k) {
        const int x = way < 0 ? k : columns - 1 - k;
        relax(x, y, way, 0, 1), relax(x, y, 0, way, 1);
        relax(x, y, way, way, kSlant), relax(x, y, -way, way, kSlant);
      }
    }
  }
  return distance;
}

OverlapMask outlined(const Rays& rays, const std::vector<char>& common, int step) {
  OverlapMask mask;
  const int margin = (kMargin + step - 1) / step;
  mask.left = rays.left() - margin * step, mask.top = rays.top() - margin * step;
  mask.columns = rays.columns() + 2 * margin, mask.rows = rays.rows() + 2 * margin;
  mask.pixelsASample = step;
  std::vector<char> padded(static_cast<std::size_t>(mask.columns * mask.rows), 0);
  for (int row = 0; row < rays.rows(); ++row) {
    std::copy_n(common.begin() + row * rays.columns(), rays.columns(),
                padded.begin() + (row + margin) * mask.columns + margin);
  }
  const auto out = distancesTo(padded, mask.columns, mask.rows, true);
  const auto in = distancesTo(padded, mask.columns, mask.rows, false);
  for (std::size_t i = 0; i < padded.size(); ++i) {
    // The outline runs half way between two samples.
    const double samples = padded[i] != 0 ? in[i] - 0.5 : 0.5 - out[i];
    const double share = std::clamp(samples * step / OverlapMask::kReachPixels, -1.0, 1.0);
    mask.edge.push_back(static_cast<std::uint8_t>(std::lround(128 + 127 * share)));
  }
  return mask;
}

}  // namespace

OverlapMask overlapMask(const ViewMesh& a, const Pose& X_WA, const ViewMesh& b, const Pose& X_WB,
                        const ViewProjection& projection, int pixelsASample) {
  const Pose X_WAm = X_WA * translation(a.middle), X_WBm = X_WB * translation(b.middle);
  const Eigen::AlignedBox2d pixels = commonPixels(a, X_WAm, b, X_WBm, projection);
  if (pixels.isEmpty()) return {};
  Rays rays(pixels, projection, pixelsASample);
  rays.add(a, X_WAm, 0);
  rays.add(b, X_WBm, 1);
  const std::vector<char> common = rays.common();
  if (std::find(common.begin(), common.end(), 1) == common.end()) return {};
  return outlined(rays, common, pixelsASample);
}

}  // namespace swingroom
