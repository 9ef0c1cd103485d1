#include "core/room/space/crossing_repair.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "core/room/space/box_tree.h"
#include "core/room/space/gone_faces.h"
#include "core/room/space/triangle_meeting.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;
using Numbers = std::vector<std::uint32_t>;

constexpr Triangle kGone{0, 0, 0};
/// More than rounding folds: then the part's own surface crosses itself, and is left as it is.
constexpr std::size_t kMostWrong = 2000;
constexpr std::size_t kMostFaces = 32;  ///< Round a corner that may be shifted.

/// One triangle without area, or two that cross.
std::set<Numbers> wrongIn(const TriangleMesh& mesh, const BoxTree& tree, unsigned threads,
                          const WorkMonitor& monitor) {
  std::set<Numbers> wrong;
  const auto& t = mesh.triangles;
  const auto cross = [&](std::uint32_t a, std::uint32_t b) {
    return meetBeyondShared(mesh, t[a], t[b]);
  };
  for (const auto& [a, b] : tree.pairs(cross, threads, monitor)) wrong.insert({a, b});
  for (std::uint32_t i = 0; i < t.size(); ++i) {
    if (isFlat(mesh, t[i])) wrong.insert({i});
  }
  return wrong;
}

Crossings countOf(const std::set<Numbers>& wrong) {
  Crossings count;
  for (const Numbers& some : wrong) {
    if (some.size() == 1) {
      ++count.flats;
    } else if (!wrong.contains({some[0]}) && !wrong.contains({some[1]})) {
      ++count.pairs;
    }
  }
  return count;
}

class Repair {
 public:
  Repair(TriangleMesh& mesh, unsigned threads, const WorkMonitor& monitor)
      : mesh_(mesh),
        threads_(threads),
        monitor_(monitor),
        tree_(mesh),
        facesAt_(mesh.vertices.size()),
        isChanged_(mesh.triangles.size(), false),
        offMm_(mesh.triangles.size(), 0) {
    for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
      for (const std::uint32_t v : mesh.triangles[t]) facesAt_[v].push_back(t);
    }
  }

  Crossings run(double withinMm) {
    withinMm_ = withinMm;
    std::set<Numbers> wrong = wrongIn(mesh_, tree_, threads_, monitor_);
    for (const double share : {1e-3, 1e-2, 0.1, 0.5}) {
      mostMm_ = withinMm * share;
      if (wrong.size() > kMostWrong) break;
      for (bool better = true; better && !monitor_.cancelled();) {
        better = false;
        for (const Numbers& some : std::set<Numbers>(wrong)) {
          if (monitor_.cancelled() || !isWrong(some) || !mend(some)) continue;
          better = true;
        }
        wrong = stillWrong(wrong);
      }
      if (wrong.empty()) break;
    }
    dropWhatIsGone(mesh_, facesAt_);
    return countOf(wrong);
  }

 private:
  /// What an edit changes: enough to take it back.
  struct Before {
    std::map<std::uint32_t, Triangle> triangles;
    std::map<std::uint32_t, Numbers> facesAt;
    std::optional<std::pair<std::uint32_t, Vector3d>> corner;
  };
  /// An edit of the triangles round a place.
  struct Edit {
    enum class Kind { join, turn, shift } kind = Kind::turn;
    std::uint32_t a = 0, b = 0;  ///< join: a goes to b; turn: the edge; shift: a.
    Vector3d to = Vector3d::Zero();
  };

  bool isGone(std::uint32_t t) const { return mesh_.triangles[t][0] == mesh_.triangles[t][1]; }
  bool isWrong(const Numbers& some) const {
    if (std::any_of(some.begin(), some.end(), [&](std::uint32_t t) { return isGone(t); }))
      return false;
    const auto& t = mesh_.triangles;
    return some.size() == 1 ? isFlat(mesh_, t[some[0]])
                            : meetBeyondShared(mesh_, t[some[0]], t[some[1]]);
  }

  /// Of what was wrong and of all that has been changed.
  std::set<Numbers> stillWrong(const std::set<Numbers>& before) const {
    std::set<Numbers> wrong;
    for (const Numbers& some : before) {
      if (isWrong(some)) wrong.insert(some);
    }
    for (const std::uint32_t t : changed_) {
      if (!isGone(t)) forWrongAt(t, [&](Numbers some) { wrong.insert(std::move(some)); });
    }
    return wrong;
  }

  BoxTree::Box boxOf(std::uint32_t t) const {
    BoxTree::Box box(mesh_.corner(t, 0));
    box.extend(mesh_.corner(t, 1)).extend(mesh_.corner(t, 2));
    return box;
  }

  template <typename Visit>
  void forWrongAt(std::uint32_t t, const Visit& visit) const {
    if (isFlat(mesh_, mesh_.triangles[t])) visit(Numbers{t});
    const BoxTree::Box box = boxOf(t);
    const auto look = [&](std::uint32_t other) {
      if (other == t || isGone(other) ||
          !meetBeyondShared(mesh_, mesh_.triangles[t], mesh_.triangles[other]))
        return;
      visit(Numbers{std::min(t, other), std::max(t, other)});
    };
    tree_.forNear(box, [&](std::uint32_t other) {
      if (!isChanged_[other]) look(other);
    });
    for (const std::uint32_t other : changed_) {
      if (!isGone(other) && boxOf(other).intersects(box)) look(other);
    }
  }

  std::size_t wrongAt(const std::set<std::uint32_t>& triangles) const {
    std::set<Numbers> wrong;
    for (const std::uint32_t t : triangles) {
      if (!isGone(t)) forWrongAt(t, [&](Numbers some) { wrong.insert(std::move(some)); });
    }
    return wrong.size();
  }

  /// The best of the edits round what is wrong, if one leaves less wrong there.
  bool mend(const Numbers& some) {
    std::optional<Edit> best = bestOf(editsAt(some));
    if (!best) best = bestOf(shiftsAt(some));
    if (!best) return false;
    Before before;
    apply(*best, before);
    const double offMm = offOf(before);
    for (const auto& [t, old] : before.triangles) {
      markChanged(t);
      offMm_[t] = offMm;
    }
    return true;
  }

  std::optional<Edit> bestOf(const std::vector<Edit>& edits) {
    std::optional<Edit> best;
    std::ptrdiff_t bestGain = 0;
    for (const Edit& edit : edits) {
      if (monitor_.cancelled()) return std::nullopt;
      const auto gain = gainOf(edit);
      if (!gain || *gain <= bestGain) continue;
      bestGain = *gain;
      best = edit;
    }
    return best;
  }

  /// How far what an edit makes may be off the surface as it was.
  double offOf(const Before& before) const {
    double offMm = 0;
    for (const auto& [t, old] : before.triangles) offMm = std::max(offMm, offMm_[t]);
    return offMm + mostMm_;
  }

  std::vector<Edit> editsAt(const Numbers& some) const {
    std::vector<Edit> edits;
    for (const std::uint32_t t : some) {
      const Triangle& face = mesh_.triangles[t];
      for (std::size_t i = 0; i < 3; ++i) {
        const std::uint32_t a = face[i], b = face[(i + 1) % 3];
        edits.push_back({Edit::Kind::turn, a, b});
        if ((mesh_.vertices[a] - mesh_.vertices[b]).norm() > mostMm_) continue;
        edits.push_back({Edit::Kind::join, a, b});
        edits.push_back({Edit::Kind::join, b, a});
      }
    }
    return edits;
  }

  std::vector<Edit> shiftsAt(const Numbers& some) const {
    std::vector<Edit> edits;
    std::set<std::uint32_t> corners;
    for (const std::uint32_t t : some)
      corners.insert(mesh_.triangles[t].begin(), mesh_.triangles[t].end());
    for (const std::uint32_t v : corners) {
      if (facesAt_[v].size() <= kMostFaces) addShifts(v, edits);
    }
    return edits;
  }

  void addShifts(std::uint32_t v, std::vector<Edit>& edits) const {
    for (int i = 0; i < 27; ++i) {
      const Vector3d way(i % 3 - 1, i / 3 % 3 - 1, i / 9 - 1);
      const Vector3d to = inFilePrecision(mesh_.vertices[v] + 0.57 * mostMm_ * way);
      if (to != mesh_.vertices[v]) edits.push_back({Edit::Kind::shift, v, 0, to});
    }
  }

  std::optional<std::ptrdiff_t> gainOf(const Edit& edit) {
    Before before;
    if (!apply(edit, before)) return std::nullopt;
    if (offOf(before) > withinMm_) {
      takeBack(before);
      return std::nullopt;
    }
    std::set<std::uint32_t> triangles;
    for (const auto& [t, old] : before.triangles) triangles.insert(t);
    const std::vector<std::uint32_t> changed = changed_;
    for (const std::uint32_t t : triangles) markChanged(t);
    const std::size_t now = wrongAt(triangles);
    takeBack(before);
    const std::size_t then = wrongAt(triangles);
    for (std::size_t i = changed.size(); i < changed_.size(); ++i) isChanged_[changed_[i]] = false;
    changed_ = changed;
    return static_cast<std::ptrdiff_t>(then) - static_cast<std::ptrdiff_t>(now);
  }

  void markChanged(std::uint32_t t) {
    if (isChanged_[t]) return;
    isChanged_[t] = true;
    changed_.push_back(t);
  }

  bool apply(const Edit& edit, Before& before) {
    switch (edit.kind) {
      case Edit::Kind::join:
        return join(edit.a, edit.b, before);
      case Edit::Kind::turn:
        return turn(edit.a, edit.b, before);
      case Edit::Kind::shift:
        return shift(edit.a, edit.to, before);
    }
    return false;
  }

  void takeBack(const Before& before) {
    for (const auto& [t, old] : before.triangles) mesh_.triangles[t] = old;
    for (const auto& [v, old] : before.facesAt) facesAt_[v] = old;
    if (before.corner) mesh_.vertices[before.corner->first] = before.corner->second;
  }

  void keep(std::uint32_t t, Before& before) const {
    before.triangles.try_emplace(t, mesh_.triangles[t]);
    for (const std::uint32_t v : mesh_.triangles[t]) before.facesAt.try_emplace(v, facesAt_[v]);
  }

  bool shift(std::uint32_t v, const Vector3d& to, Before& before) {
    for (const std::uint32_t t : facesAt_[v]) keep(t, before);
    before.corner = {v, mesh_.vertices[v]};
    mesh_.vertices[v] = to;
    return true;
  }

  std::set<std::uint32_t> neighboursOf(std::uint32_t v) const {
    std::set<std::uint32_t> all;
    for (const std::uint32_t t : facesAt_[v])
      all.insert(mesh_.triangles[t].begin(), mesh_.triangles[t].end());
    all.erase(v);
    return all;
  }

  bool join(std::uint32_t gone, std::uint32_t stays, Before& before) {
    const auto a = neighboursOf(gone), b = neighboursOf(stays);
    if (std::count_if(a.begin(), a.end(), [&](std::uint32_t v) { return b.contains(v); }) != 2)
      return false;
    if (a.size() < 3 || b.size() < 3 || (a.size() == 3 && b.size() == 3)) return false;
    for (const std::uint32_t t : facesAt_[gone]) keep(t, before);
    for (const std::uint32_t t : Numbers(facesAt_[gone])) {
      Triangle& face = mesh_.triangles[t];
      if (std::find(face.begin(), face.end(), stays) != face.end()) {
        for (const std::uint32_t v : face) std::erase(facesAt_[v], t);
        face = kGone;
      } else {
        std::replace(face.begin(), face.end(), gone, stays);
        facesAt_[stays].push_back(t);
      }
    }
    facesAt_[gone].clear();
    return true;
  }

  /// The triangle in which b follows a; none after a careless edit.
  std::optional<std::uint32_t> faceAlong(std::uint32_t a, std::uint32_t b) const {
    for (const std::uint32_t t : facesAt_[a]) {
      const Triangle& face = mesh_.triangles[t];
      for (std::size_t i = 0; i < 3; ++i) {
        if (face[i] == a && face[(i + 1) % 3] == b) return t;
      }
    }
    return std::nullopt;
  }
  static std::uint32_t thirdOf(const Triangle& face, std::uint32_t a, std::uint32_t b) {
    return face[0] != a && face[0] != b   ? face[0]
           : face[1] != a && face[1] != b ? face[1]
                                          : face[2];
  }

  /// The edge ab between abc and bad gives way to cd. They are nowhere farther apart than the two
  /// edges are.
  bool turn(std::uint32_t a, std::uint32_t b, Before& before) {
    const auto left = faceAlong(a, b), right = faceAlong(b, a);
    if (!left || !right) return false;
    const std::uint32_t c = thirdOf(mesh_.triangles[*left], a, b),
                        d = thirdOf(mesh_.triangles[*right], a, b);
    if (c == d || neighboursOf(c).contains(d) || facesAt_[a].size() < 4 || facesAt_[b].size() < 4)
      return false;
    if (!(apartMm(a, b, c, d) <= mostMm_)) return false;
    keep(*left, before);
    keep(*right, before);
    mesh_.triangles[*left] = {a, d, c};
    mesh_.triangles[*right] = {d, b, c};
    std::erase(facesAt_[b], *left);
    std::erase(facesAt_[a], *right);
    facesAt_[d].push_back(*left);
    facesAt_[c].push_back(*right);
    return true;
  }

  double apartMm(std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d) const {
    const auto& p = mesh_.vertices;
    return segmentsApart(p[a], p[b], p[c], p[d]);
  }
  /// Least distance of two segments, by their nearest points.
  static double segmentsApart(const Vector3d& a, const Vector3d& b, const Vector3d& c,
                              const Vector3d& d) {
    const Vector3d u = b - a, v = d - c, w = c - a;
    const double uu = u.squaredNorm(), vv = v.squaredNorm(), uv = u.dot(v), det = uu * vv - uv * uv;
    double s = det > 0 ? std::clamp((u.dot(w) * vv - v.dot(w) * uv) / det, 0.0, 1.0) : 0.0;
    const double r = vv > 0 ? std::clamp((uv * s - v.dot(w)) / vv, 0.0, 1.0) : 0.0;
    s = uu > 0 ? std::clamp(u.dot(w + r * v) / uu, 0.0, 1.0) : 0.0;
    return (w + r * v - s * u).norm();
  }

  TriangleMesh& mesh_;
  unsigned threads_;
  const WorkMonitor& monitor_;
  BoxTree tree_;
  std::vector<Numbers> facesAt_;
  std::vector<bool> isChanged_;
  Numbers changed_;            ///< Triangles that are no more what the tree has.
  std::vector<double> offMm_;  ///< By triangle: most that it may be off the surface as it was.
  double withinMm_ = 0;
  double mostMm_ = 0;  ///< Of one edit.
};

}  // namespace

Vector3d inFilePrecision(const Vector3d& p) {
  constexpr double kStepsPerMm = 1e6;
  Vector3d rounded;
  for (int d = 0; d < 3; ++d)
    rounded[d] = static_cast<float>(std::round(p[d] * kStepsPerMm) / kStepsPerMm) + 0.0f;
  return rounded;
}

Crossings crossingsIn(const TriangleMesh& mesh, unsigned threads, const WorkMonitor& monitor) {
  return countOf(wrongIn(mesh, BoxTree(mesh), threads, monitor));
}

Crossings repairCrossings(TriangleMesh& mesh, double withinMm, unsigned threads,
                          const WorkMonitor& monitor) {
  return Repair(mesh, threads, monitor).run(withinMm);
}

}  // namespace swingroom
