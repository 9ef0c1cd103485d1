#include "core/room/space/triangle_meeting.h"

#include <algorithm>

#include "core/room/space/exact_sign.h"

namespace swingroom {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;
using Face = std::array<Vector3d, 3>;

Vector2d withoutAxis(const Vector3d& p, int axis) {
  return {p[(axis + 1) % 3], p[(axis + 2) % 3]};
}

/// The axis along which a triangle is seen widest; -1 if it is a line from each.
int axisAcross(const Face& t) {
  const Vector3d normal = (t[1] - t[0]).cross(t[2] - t[0]).cwiseAbs();
  int best = 0;
  normal.maxCoeff(&best);
  for (int i = 0; i < 3; ++i) {
    const int axis = (best + i) % 3;
    if (exact::turn(withoutAxis(t[0], axis), withoutAxis(t[1], axis), withoutAxis(t[2], axis)) != 0)
      return axis;
  }
  return -1;
}

/// Of points in line.
bool isBetween(const Vector2d& p, const Vector2d& a, const Vector2d& b) {
  return (p.array() >= a.cwiseMin(b).array()).all() && (p.array() <= a.cwiseMax(b).array()).all();
}

bool segmentsMeet(const Vector2d& a, const Vector2d& b, const Vector2d& c, const Vector2d& d) {
  const int ca = exact::turn(c, d, a), cb = exact::turn(c, d, b), ac = exact::turn(a, b, c),
            ad = exact::turn(a, b, d);
  if (ca * cb < 0 && ac * ad < 0) return true;
  return (ca == 0 && isBetween(a, c, d)) || (cb == 0 && isBetween(b, c, d)) ||
         (ac == 0 && isBetween(c, a, b)) || (ad == 0 && isBetween(d, a, b));
}

bool meetInPlane(const Vector3d& p, const Vector3d& q, const Face& t) {
  const int axis = axisAcross(t);
  if (axis < 0) return false;
  const Vector2d from = withoutAxis(p, axis), to = withoutAxis(q, axis);
  const std::array<Vector2d, 3> corners{withoutAxis(t[0], axis), withoutAxis(t[1], axis),
                                        withoutAxis(t[2], axis)};
  int left = 0, right = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    if (segmentsMeet(from, to, corners[i], corners[(i + 1) % 3])) return true;
    const int turn = exact::turn(corners[i], corners[(i + 1) % 3], from);
    left += turn > 0;
    right += turn < 0;
  }
  return left == 3 || right == 3;
}

std::array<int, 3> sidesOf(const Face& plane, const Face& of) {
  std::array<int, 3> sides;
  for (std::size_t i = 0; i < 3; ++i) sides[i] = exact::side(plane[0], plane[1], plane[2], of[i]);
  return sides;
}
bool allOnOneSide(const std::array<int, 3>& s) {
  return s[0] != 0 && s[0] == s[1] && s[1] == s[2];
}

/// @param sideP, sideQ  On which sides of the triangle's plane the ends are.
bool meets(const Vector3d& p, const Vector3d& q, int sideP, int sideQ, const Face& t) {
  if (sideP * sideQ > 0) return false;
  if (sideP == 0 && sideQ == 0) return meetInPlane(p, q, t);
  int left = 0, right = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const int turn = exact::side(p, q, t[i], t[(i + 1) % 3]);
    left += turn > 0;
    right += turn < 0;
  }
  return left == 0 || right == 0;
}

Face facesCorners(const TriangleMesh& mesh, const Triangle& t) {
  return {mesh.vertices[t[0]], mesh.vertices[t[1]], mesh.vertices[t[2]]};
}

/// Turned so that corner i of `a` and j of `b`, which are one, come first in both.
bool meetBeyondCorner(const Face& a, const Face& b, std::size_t i, std::size_t j) {
  const auto ofA = sidesOf(b, a), ofB = sidesOf(a, b);
  const std::size_t a1 = (i + 1) % 3, a2 = (i + 2) % 3, b1 = (j + 1) % 3, b2 = (j + 2) % 3;
  return meets(a[a1], a[a2], ofA[a1], ofA[a2], b) || meets(b[b1], b[b2], ofB[b1], ofB[b2], a);
}

/// Two triangles on one edge: they meet beyond it only where one is folded onto the other.
bool areFolded(const Face& a, const Face& b, std::size_t ia, std::size_t ib) {
  if (exact::side(a[0], a[1], a[2], b[ib]) != 0) return false;
  const int axis = axisAcross(a);
  if (axis < 0) return false;
  const Vector2d from = withoutAxis(a[(ia + 1) % 3], axis), to = withoutAxis(a[(ia + 2) % 3], axis);
  return exact::turn(from, to, withoutAxis(a[ia], axis)) ==
         exact::turn(from, to, withoutAxis(b[ib], axis));
}

}  // namespace

bool isFlat(const TriangleMesh& mesh, const Triangle& t) {
  return axisAcross(facesCorners(mesh, t)) < 0;
}

bool meetBeyondShared(const TriangleMesh& mesh, const Triangle& ta, const Triangle& tb) {
  const Face a = facesCorners(mesh, ta), b = facesCorners(mesh, tb);
  std::size_t shared = 0, lastA = 0, lastB = 0, sumA = 0, sumB = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      if (ta[i] != tb[j]) continue;
      ++shared;
      sumA += lastA = i;
      sumB += lastB = j;
    }
  }
  if (shared == 3) return true;
  if (shared == 2) return areFolded(a, b, 3 - sumA, 3 - sumB);
  if (shared == 1) return meetBeyondCorner(a, b, lastA, lastB);
  const auto ofB = sidesOf(a, b);
  if (allOnOneSide(ofB)) return false;
  const auto ofA = sidesOf(b, a);
  if (allOnOneSide(ofA)) return false;
  for (std::size_t i = 0; i < 3; ++i) {
    const std::size_t j = (i + 1) % 3;
    if (meets(a[i], a[j], ofA[i], ofA[j], b) || meets(b[i], b[j], ofB[i], ofB[j], a)) return true;
  }
  return false;
}

}  // namespace swingroom
