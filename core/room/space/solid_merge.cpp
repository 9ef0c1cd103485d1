#include "core/room/space/solid_merge.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <unordered_map>

#include "core/room/space/exact_orientation.h"
#include "core/room/space/triangle_split.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;
using Pair = std::pair<std::uint32_t, std::uint32_t>;

constexpr std::uint32_t kNoPiece = ~0u;

/// One of the two surfaces, on the grid, with its edges.
struct Side {
  const TriangleMesh* mesh = nullptr;
  std::uint32_t firstCorner = 0;  ///< Its corners' place among all.
  std::vector<GridPoint> points;
  std::vector<std::array<std::uint32_t, 3>> edgesOf;  ///< By triangle: from corner i to the next.
  std::vector<Pair> edges;                            ///< Lower corner first.
  std::vector<Pair> facesAt;                          ///< By edge: its two triangles.
  std::vector<std::vector<std::pair<double, std::uint32_t>>> pointsOn;  ///< By edge: share of its way, crossing.
  std::vector<std::vector<Pair>> segments;                            ///< By triangle: lines where the other crosses.

  bool set(const TriangleMesh& of, std::uint32_t first, const GridPoint& shift) {
    mesh = &of;
    firstCorner = first;
    for (const Vector3d& p : of.vertices) points.push_back(gridPointOf(p) + shift);
    segments.resize(of.triangles.size());
    edgesOf.resize(of.triangles.size());
    struct Use {
      Pair edge;
      std::uint32_t triangle, place;
    };
    std::vector<Use> uses;
    uses.reserve(of.triangles.size() * 3);
    for (std::uint32_t t = 0; t < of.triangles.size(); ++t) {
      for (std::uint32_t i = 0; i < 3; ++i) {
        const std::uint32_t a = of.triangles[t][i], b = of.triangles[t][(i + 1) % 3];
        uses.push_back({{std::min(a, b), std::max(a, b)}, t, i});
      }
    }
    std::sort(uses.begin(), uses.end(), [](const Use& x, const Use& y) {
      return x.edge != y.edge ? x.edge < y.edge : x.triangle < y.triangle;
    });
    for (std::size_t u = 0; u < uses.size(); u += 2) {
      const bool twice = u + 1 < uses.size() && uses[u].edge == uses[u + 1].edge;
      if (!twice || (u + 2 < uses.size() && uses[u].edge == uses[u + 2].edge)) return false;
      for (const Use& use : {uses[u], uses[u + 1]}) {
        edgesOf[use.triangle][use.place] = static_cast<std::uint32_t>(edges.size());
      }
      edges.push_back(uses[u].edge);
      facesAt.emplace_back(uses[u].triangle, uses[u + 1].triangle);
    }
    pointsOn.resize(edges.size());
    return true;
  }

  std::array<GridPoint, 3> cornersOf(std::uint32_t t) const {
    const auto& [a, b, c] = mesh->triangles[t];
    return {points[a], points[b], points[c]};
  }
  Eigen::AlignedBox3d boxOf(std::uint32_t t) const {
    Eigen::AlignedBox3d box;
    for (const GridPoint& p : cornersOf(t)) box.extend(inMm(p));
    return box;
  }
};

/// Which triangles of one surface come near a box: by cubes of about a triangle's size.
class TriangleCubes {
 public:
  explicit TriangleCubes(const Side& side) {
    double sum = 0;
    std::vector<Eigen::AlignedBox3d> boxes;
    for (std::uint32_t t = 0; t < side.mesh->triangles.size(); ++t) {
      boxes.push_back(side.boxOf(t));
      sum += boxes.back().diagonal().norm();
    }
    size_ = std::max(0.5, sum / static_cast<double>(boxes.size()));
    for (std::uint32_t t = 0; t < boxes.size(); ++t) {
      forCubes(boxes[t], [&](const Cube& cube) { triangles_[cube].push_back(t); });
    }
  }

  void near(const Eigen::AlignedBox3d& box, std::vector<std::uint32_t>& found) const {
    found.clear();
    forCubes(box, [&](const Cube& cube) {
      const auto place = triangles_.find(cube);
      if (place != triangles_.end()) found.insert(found.end(), place->second.begin(), place->second.end());
    });
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
  }

 private:
  using Cube = std::array<int, 3>;
  struct Hash {
    std::size_t operator()(const Cube& c) const {
      return static_cast<std::size_t>(c[0]) * 73856093u ^ static_cast<std::size_t>(c[1]) * 19349663u ^
             static_cast<std::size_t>(c[2]) * 83492791u;
    }
  };

  template <typename Visit>
  void forCubes(const Eigen::AlignedBox3d& box, const Visit& visit) const {
    Cube low, high;
    for (int d = 0; d < 3; ++d) {
      low[static_cast<std::size_t>(d)] = static_cast<int>(std::floor(box.min()[d] / size_));
      high[static_cast<std::size_t>(d)] = static_cast<int>(std::floor(box.max()[d] / size_));
    }
    for (int i = low[0]; i <= high[0]; ++i) {
      for (int j = low[1]; j <= high[1]; ++j) {
        for (int k = low[2]; k <= high[2]; ++k) visit({i, j, k});
      }
    }
  }

  double size_;
  std::unordered_map<Cube, std::vector<std::uint32_t>, Hash> triangles_;
};

std::uint64_t keyOfPair(std::uint32_t a, std::uint32_t b) { return std::uint64_t{a} << 32 | b; }

class SolidMerger {
 public:
  /// @param attempt  Another one shifts `a` another way.
  SolidMerger(const TriangleMesh& a, const TriangleMesh& b, int attempt, const WorkMonitor& monitor)
      : monitor_(monitor) {
    const GridPoint shifts[] = {{7, -11, 5}, {-13, 5, 9}, {3, 12, -8}, {-5, -7, -14}};
    sound_ = sides_[0].set(a, 0, shifts[attempt % 4]) &&
             sides_[1].set(b, static_cast<std::uint32_t>(a.vertices.size()), GridPoint::Zero());
  }

  std::optional<DividedSurfaces> run() {
    if (!sound_ || !findCrossings() || !splitAll() || !classify()) return std::nullopt;
    DividedSurfaces merge;
    for (const Side& side : sides_) {
      for (const GridPoint& p : side.points) merge.corners.push_back(inMm(p));
    }
    merge.corners.insert(merge.corners.end(), crossingAt_.begin(), crossingAt_.end());
    merge.crossedA.resize(sides_[0].mesh->triangles.size());
    for (std::size_t t = 0; t < merge.crossedA.size(); ++t) merge.crossedA[t] = !sides_[0].segments[t].empty();
    merge.pieces = std::move(pieces_);
    return merge;
  }

 private:
  bool findCrossings() {
    const TriangleCubes cubes(sides_[1]);
    std::vector<std::uint32_t> near;
    for (std::uint32_t a = 0; a < sides_[0].mesh->triangles.size(); ++a) {
      if ((a & 0xfff) == 0 && monitor_.cancelled()) return false;
      const Eigen::AlignedBox3d box = sides_[0].boxOf(a);
      cubes.near(box, near);
      for (const std::uint32_t b : near) {
        if (sides_[1].boxOf(b).intersects(box) && !crossPair(a, b)) return false;
      }
    }
    for (Side& side : sides_) {
      for (auto& points : side.pointsOn) std::sort(points.begin(), points.end());
    }
    return true;
  }

  /// On which side of the triangle's plane each of three points is; false if one is on it.
  static bool sidesOf(const std::array<GridPoint, 3>& plane, const std::array<GridPoint, 3>& of,
                      std::array<double, 3>& at) {
    for (std::size_t i = 0; i < 3; ++i) {
      at[i] = orientation(plane[0], plane[1], plane[2], of[i]);
      if (at[i] == 0) return false;
    }
    return true;
  }
  static bool allOnOneSide(const std::array<double, 3>& at) {
    return (at[0] > 0) == (at[1] > 0) && (at[1] > 0) == (at[2] > 0);
  }

  bool crossPair(std::uint32_t a, std::uint32_t b) {
    const auto cornersA = sides_[0].cornersOf(a), cornersB = sides_[1].cornersOf(b);
    std::array<double, 3> ofA, ofB;
    if (!sidesOf(cornersB, cornersA, ofA)) return false;
    if (allOnOneSide(ofA)) return true;
    if (!sidesOf(cornersA, cornersB, ofB)) return false;
    if (allOnOneSide(ofB)) return true;
    std::vector<std::uint32_t> ends;
    if (!crossEdges(0, a, b, ofA, ends) || !crossEdges(1, b, a, ofB, ends)) return false;
    if (ends.empty()) return true;
    if (ends.size() != 2 || ends[0] == ends[1]) return false;
    sides_[0].segments[a].emplace_back(ends[0], ends[1]);
    sides_[1].segments[b].emplace_back(ends[0], ends[1]);
    return true;
  }

  /// Where edges of a triangle of side `s` go through a triangle of the other.
  bool crossEdges(std::size_t s, std::uint32_t triangle, std::uint32_t through, const std::array<double, 3>& at,
                  std::vector<std::uint32_t>& ends) {
    const auto corners = sides_[s].cornersOf(triangle), t = sides_[1 - s].cornersOf(through);
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t j = (i + 1) % 3;
      if ((at[i] > 0) == (at[j] > 0)) continue;
      int left = 0;
      for (std::size_t k = 0; k < 3; ++k) {
        const double turn = orientation(corners[i], corners[j], t[k], t[(k + 1) % 3]);
        if (turn == 0) return false;
        left += turn > 0;
      }
      if (left == 1 || left == 2) continue;
      ends.push_back(crossingOf(s, sides_[s].edgesOf[triangle][i], through, at[i], at[j],
                                sides_[s].mesh->triangles[triangle][i]));
    }
    return true;
  }

  std::uint32_t crossingOf(std::size_t s, std::uint32_t edge, std::uint32_t through, double atFrom, double atTo,
                           std::uint32_t from) {
    const auto [place, isNew] = crossings_[s].try_emplace(keyOfPair(edge, through), 0);
    if (!isNew) return place->second;
    const auto [low, high] = sides_[s].edges[edge];
    const double atLow = from == low ? atFrom : atTo, atHigh = from == low ? atTo : atFrom;
    const double share = atLow / (atLow - atHigh);
    const auto crossing = static_cast<std::uint32_t>(sides_[1].firstCorner + sides_[1].points.size() +
                                                     crossingAt_.size());
    const Vector3d p = inMm(sides_[s].points[low]), q = inMm(sides_[s].points[high]);
    crossingAt_.push_back(p + share * (q - p));
    sides_[s].pointsOn[edge].emplace_back(share, crossing);
    place->second = crossing;
    return crossing;
  }

  Vector3d placeOf(std::uint32_t corner) const {
    const std::size_t ofA = sides_[0].points.size(), both = ofA + sides_[1].points.size();
    if (corner < ofA) return inMm(sides_[0].points[corner]);
    return corner < both ? inMm(sides_[1].points[corner - ofA]) : crossingAt_[corner - both];
  }

  bool splitAll() {
    for (std::size_t s = 0; s < 2; ++s) {
      const Side& side = sides_[s];
      wholePieces_[s].assign(side.mesh->triangles.size(), kNoPiece);
      for (std::uint32_t t = 0; t < side.mesh->triangles.size(); ++t) {
        if ((t & 0xff) == 0 && monitor_.cancelled()) return false;
        if (!side.segments[t].empty()) {
          if (!splitOne(s, t)) return false;
          continue;
        }
        wholePieces_[s][t] = static_cast<std::uint32_t>(pieces_.size());
        Triangle face = side.mesh->triangles[t];
        for (std::uint32_t& corner : face) corner += side.firstCorner;
        pieces_.push_back({s == 1, false, t, {face}});
      }
    }
    return true;
  }

  bool splitOne(std::size_t s, std::uint32_t t) {
    const Side& side = sides_[s];
    const Triangle& corners = side.mesh->triangles[t];
    TriangleToSplit split;
    std::unordered_map<std::uint32_t, unsigned> edgesAt;
    std::map<Pair, std::uint64_t> ofEdge;  // What of which edge lies between two corners of the rim.
    for (std::size_t i = 0; i < 3; ++i) {
      const std::uint32_t edge = side.edgesOf[t][i];
      std::vector<std::uint32_t> along{corners[i] + side.firstCorner};
      const auto& points = side.pointsOn[edge];
      for (const auto& [share, point] : points) along.push_back(point);
      for (const std::uint32_t point : along) edgesAt[point] |= 1u << i;
      edgesAt[corners[(i + 1) % 3] + side.firstCorner] |= 1u << i;
      const bool forwards = side.edges[edge].first == corners[i];
      if (!forwards) std::reverse(along.begin() + 1, along.end());
      split.rim.insert(split.rim.end(), along.begin(), along.end());
      along.push_back(corners[(i + 1) % 3] + side.firstCorner);
      for (std::uint32_t k = 0; k + 1 < along.size(); ++k) {
        const auto last = static_cast<std::uint32_t>(along.size() - 2);
        ofEdge[{along[k], along[k + 1]}] = keyOfPair(edge, forwards ? k : last - k);
      }
    }
    split.segments = side.segments[t];
    const Vector3d o = placeOf(split.rim.front()), u = (placeOf(corners[1] + side.firstCorner) - o).normalized();
    const Vector3d w = u.cross(placeOf(corners[2] + side.firstCorner) - o).normalized(), v = w.cross(u);
    split.at = [&, this](std::uint32_t corner) -> Eigen::Vector2d {
      const Vector3d off = placeOf(corner) - o;
      return {u.dot(off), v.dot(off)};
    };
    split.edgesAt = [&](std::uint32_t corner) {
      const auto place = edgesAt.find(corner);
      return place == edgesAt.end() ? 0u : place->second;
    };
    auto found = splitTriangle(split);
    if (!found) return false;
    std::map<Pair, std::uint32_t> acrossSegment;
    for (SplitPiece& piece : *found) {
      const auto number = static_cast<std::uint32_t>(pieces_.size());
      for (const Pair& edge : piece.edges) {
        if (const auto place = ofEdge.find(edge); place != ofEdge.end()) {
          partsOfEdges_[s][place->second].push_back(number);
          continue;
        }
        const Pair key = std::minmax(edge.first, edge.second);
        const auto [place, isFirst] = acrossSegment.try_emplace(key, number);
        if (!isFirst) apart_.emplace_back(place->second, number);
      }
      pieces_.push_back({s == 1, false, t, std::move(piece.triangles)});
    }
    return true;
  }

  std::uint32_t rootOf(std::uint32_t piece) {
    while (parents_[piece] != piece) piece = parents_[piece] = parents_[parents_[piece]];
    return piece;
  }
  void join(std::uint32_t a, std::uint32_t b) {
    a = rootOf(a);
    b = rootOf(b);
    if (a != b) parents_[std::max(a, b)] = std::min(a, b);
  }

  /// Pieces that hang together without a crossing between them are all in the other solid, or none is.
  bool classify() {
    if (monitor_.cancelled()) return false;
    parents_.resize(pieces_.size());
    std::iota(parents_.begin(), parents_.end(), 0u);
    for (std::size_t s = 0; s < 2; ++s) joinAlongEdges(s);
    std::vector<double> largest(pieces_.size(), -1);
    std::vector<Vector3d> samples(pieces_.size());
    for (std::uint32_t p = 0; p < pieces_.size(); ++p) {
      const std::uint32_t root = rootOf(p);
      for (const Triangle& face : pieces_[p].faces) {
        const Vector3d a = placeOf(face[0]), b = placeOf(face[1]), c = placeOf(face[2]);
        const double area = (b - a).cross(c - a).norm();
        if (area <= largest[root]) continue;
        largest[root] = area;
        samples[root] = (a + b + c) / 3;
      }
    }
    const std::array<BoundingTree, 2> trees{treeOf(sides_[0]), treeOf(sides_[1])};
    if (monitor_.cancelled()) return false;
    std::map<std::uint32_t, bool> inOther;
    for (std::uint32_t p = 0; p < pieces_.size(); ++p) {
      const std::uint32_t root = rootOf(p);
      const auto [place, isNew] = inOther.try_emplace(root, false);
      if (isNew) place->second = windingNumber(trees[pieces_[p].ofB ? 0 : 1], samples[root]) != 0;
      pieces_[p].inOther = place->second;
    }
    return std::all_of(apart_.begin(), apart_.end(), [&](const Pair& pair) {
      return pieces_[pair.first].inOther != pieces_[pair.second].inOther;
    });
  }

  /// As it is on the grid: one of the two is shifted.
  static BoundingTree treeOf(const Side& side) {
    TriangleMesh mesh{{}, side.mesh->triangles};
    for (const GridPoint& p : side.points) mesh.vertices.push_back(inMm(p));
    return BoundingTree(mesh);
  }

  void joinAlongEdges(std::size_t s) {
    const Side& side = sides_[s];
    const auto pieceAt = [&](std::uint32_t t) { return wholePieces_[s][t]; };
    for (std::uint32_t e = 0; e < side.edges.size(); ++e) {
      const auto [t, other] = side.facesAt[e];
      if (pieceAt(t) != kNoPiece && pieceAt(other) != kNoPiece) {
        join(pieceAt(t), pieceAt(other));
        continue;
      }
      for (std::uint32_t k = 0; k <= side.pointsOn[e].size(); ++k) {
        const auto parts = partsOfEdges_[s].find(keyOfPair(e, k));
        if (parts == partsOfEdges_[s].end()) continue;
        const std::uint32_t whole = pieceAt(t) != kNoPiece ? pieceAt(t) : pieceAt(other);
        for (const std::uint32_t part : parts->second) join(part, whole != kNoPiece ? whole : parts->second.front());
      }
    }
  }

  const WorkMonitor& monitor_;
  bool sound_ = false;
  std::array<Side, 2> sides_;
  std::array<std::unordered_map<std::uint64_t, std::uint32_t>, 2> crossings_;  ///< By edge and triangle.
  std::vector<Vector3d> crossingAt_;
  std::vector<DividedSurfaces::Piece> pieces_;
  std::array<std::vector<std::uint32_t>, 2> wholePieces_;  ///< By triangle: its piece, if it is one.
  std::array<std::unordered_map<std::uint64_t, std::vector<std::uint32_t>>, 2> partsOfEdges_;
  std::vector<Pair> apart_;  ///< Pieces on two sides of a crossing.
  std::vector<std::uint32_t> parents_;
};

}  // namespace

std::optional<SolidMerge> SolidMerge::of(const TriangleMesh& a, const TriangleMesh& b, const WorkMonitor& monitor) {
  for (int attempt = 0; attempt < 4 && !monitor.cancelled(); ++attempt) {
    if (auto divided = SolidMerger(a, b, attempt, monitor).run()) return SolidMerge(std::move(*divided));
  }
  return std::nullopt;
}

TriangleMesh SolidMerge::collected(const std::vector<bool>& kept, bool inOther) const {
  TriangleMesh mesh;
  std::vector<std::uint32_t> places(divided_.corners.size(), kNoPiece);
  for (const DividedSurfaces::Piece& piece : divided_.pieces) {
    if (piece.inOther != inOther) continue;
    if (!piece.ofB && !kept.empty() && !kept[piece.triangle]) continue;
    for (Triangle face : piece.faces) {
      for (std::uint32_t& corner : face) {
        if (places[corner] == kNoPiece) {
          places[corner] = static_cast<std::uint32_t>(mesh.vertices.size());
          mesh.vertices.push_back(divided_.corners[corner]);
        }
        corner = places[corner];
      }
      mesh.triangles.push_back(face);
    }
  }
  return mesh;
}

}  // namespace swingroom
