#include "app/viewport/paint/paint_mesh.h"

#include <algorithm>
#include <cstring>
#include <limits>
#include <unordered_map>

#include "core/mesh/weld.h"
#include "core/picture/smoothing.h"

namespace swingroom {
namespace {

template <std::size_t N>
struct BitsHash {
  std::size_t operator()(const std::array<std::uint32_t, N>& bits) const {
    std::uint64_t hash = 0xcbf29ce484222325U;  // Fowler, Noll and Vo, 64 bits, by words.
    for (const std::uint32_t word : bits) hash = (hash ^ word) * 0x100000001b3U;
    return hash ^ hash >> 29;
  }
};
template <typename Value>
auto bitsOf(const Value& value) {
  std::array<std::uint32_t, sizeof(Value) / 4> bits;
  std::memcpy(bits.data(), &value, sizeof(Value));
  return bits;
}
using Place = std::array<std::uint32_t, 3>;
using VertexBits = std::array<std::uint32_t, sizeof(PaintVertex) / 4>;

/// Of the pieces at a corner point.
struct Meeting {
  float lowest = std::numeric_limits<float>::infinity();
  double sum = 0;
  int count = 0;
};

/// The piece's own source triangle with its normals, for the normal at any point in it.
class SourceNormals {
 public:
  explicit SourceNormals(const TriangleMesh& mesh) : mesh_(mesh), smooth_(smoothed(welded(mesh))) {}

  Eigen::Vector3f at(std::size_t triangle, const Vector3d& p) const {
    const Vector3d a = mesh_.corner(triangle, 0), ab = mesh_.corner(triangle, 1) - a,
                   ac = mesh_.corner(triangle, 2) - a, n = ab.cross(ac);
    const auto& corners = smooth_.corners[triangle];
    const double area2 = n.squaredNorm();
    if (!(area2 > 0)) return corners[0];
    const auto b = static_cast<float>((p - a).cross(ac).dot(n) / area2);
    const auto c = static_cast<float>(ab.cross(p - a).dot(n) / area2);
    return ((1 - b - c) * corners[0] + b * corners[1] + c * corners[2]).stableNormalized();
  }

 private:
  const TriangleMesh& mesh_;
  Smoothing smooth_;
};

bool isDrawable(const PaintPiece& piece, const TriangleMesh& mesh) {
  if (piece.source >= mesh.triangles.size()) return false;
  return std::all_of(piece.corners.begin(), piece.corners.end(),
                     [](const Vector3d& p) { return p.cwiseAbs().maxCoeff() < 1e9; });
}

class Maker {
 public:
  Maker(const TriangleMesh& mesh, PaintMesh& paint)
      : mesh_(mesh), normals_(mesh), paint_(paint), pieces_(paint.surface->pieces) {}

  void make() {
    placeMiddle();
    if (paint_.surface->blend != PaintBlend::steps) meet();
    std::vector<std::uint32_t> drawn;
    for (std::uint32_t i = 0; i < pieces_.size(); ++i) {
      if (!isDrawable(pieces_[i], mesh_)) continue;
      drawn.push_back(i);
      for (const Vector3d& corner : pieces_[i].corners) addCorner(pieces_[i], corner);
    }
    sortBySource(drawn);
  }

 private:
  void placeMiddle() {
    Eigen::AlignedBox3d box;
    for (const PaintPiece& piece : pieces_) {
      if (!isDrawable(piece, mesh_)) continue;
      for (const Vector3d& p : piece.corners) box.extend(p);
    }
    if (!box.isEmpty()) paint_.middle = box.center();
  }

  Eigen::Vector3f positionOf(const Vector3d& p) const {
    const Eigen::Vector3f position = (p - paint_.middle).cast<float>();
    return position + Eigen::Vector3f::Zero();  // -0 is 0.
  }

  void meet() {
    for (const PaintPiece& piece : pieces_) {
      if (piece.state == PieceState::leftOut || !isDrawable(piece, mesh_)) continue;
      for (const Vector3d& corner : piece.corners) {
        Meeting& meeting = meetings_[bitsOf(positionOf(corner))];
        meeting.lowest = std::min(meeting.lowest, piece.figureMm);
        meeting.sum += static_cast<double>(piece.figureMm);
        ++meeting.count;
      }
    }
  }

  float figureAt(const PaintPiece& piece, const Eigen::Vector3f& position) const {
    if (piece.state == PieceState::leftOut || paint_.surface->blend == PaintBlend::steps)
      return piece.figureMm;
    const Meeting& meeting = meetings_.at(bitsOf(position));
    return paint_.surface->blend == PaintBlend::lowest
               ? meeting.lowest
               : static_cast<float>(meeting.sum / meeting.count);
  }

  void addCorner(const PaintPiece& piece, const Vector3d& corner) {
    PaintVertex vertex;
    vertex.position = positionOf(corner);
    vertex.normal = normals_.at(piece.source, corner);
    vertex.state = static_cast<float>(piece.state);
    vertex.figureMm = figureAt(piece, vertex.position);
    const auto place =
        known_.emplace(bitsOf(vertex), static_cast<std::uint32_t>(paint_.vertices.size()));
    if (place.second) paint_.vertices.push_back(vertex);
    paint_.indices.push_back(place.first->second);
  }

  void sortBySource(const std::vector<std::uint32_t>& drawn) {
    paint_.first.assign(mesh_.triangles.size() + 1, 0);
    for (const std::uint32_t i : drawn) ++paint_.first[pieces_[i].source + 1];
    for (std::size_t t = 1; t < paint_.first.size(); ++t) paint_.first[t] += paint_.first[t - 1];
    std::vector<std::uint32_t> next(paint_.first.begin(), paint_.first.end() - 1);
    paint_.pieces.resize(drawn.size());
    for (const std::uint32_t i : drawn) paint_.pieces[next[pieces_[i].source]++] = i;
  }

  const TriangleMesh& mesh_;
  SourceNormals normals_;
  PaintMesh& paint_;
  const std::vector<PaintPiece>& pieces_;
  std::unordered_map<Place, Meeting, BitsHash<3>> meetings_;
  std::unordered_map<VertexBits, std::uint32_t, BitsHash<sizeof(PaintVertex) / 4>> known_;
};

}  // namespace

PaintMesh makePaintMesh(const TriangleMesh& mesh, std::shared_ptr<const PaintedSurface> surface) {
  PaintMesh paint;
  paint.surface = std::move(surface);
  Maker(mesh, paint).make();
  return paint;
}

std::optional<std::size_t> pieceAt(const PaintMesh& paint, std::size_t triangle,
                                   const Vector3d& p) {
  if (triangle + 1 >= paint.first.size()) return std::nullopt;
  std::optional<std::size_t> best;
  double nearest = std::numeric_limits<double>::infinity();
  for (std::uint32_t i = paint.first[triangle]; i < paint.first[triangle + 1]; ++i) {
    const std::size_t piece = paint.pieces[i];
    const Vector3d on = closestPointOnTriangle(p, paint.surface->pieces[piece].corners);
    const double distance = (on - p).squaredNorm();
    if (distance < nearest) nearest = distance, best = piece;
  }
  return best;
}

}  // namespace swingroom
