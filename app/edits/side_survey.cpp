#include "app/edits/side_survey.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "app/edits/edit_names.h"
#include "core/tree/mirror_image.h"

namespace swingroom::edits {
namespace {

/// A part may reach so far over the plane and still stand on its side.
constexpr double kTouchMm = 0.01;
/// Looking whether it is its own image takes about a microsecond a triangle and point.
constexpr std::size_t kMostTriangles = 20'000;

StandingSide sideOf(const Part& part, const MirrorPlane& plane) {
  StandingSide standing;
  if (!part.mesh || part.mesh->vertices.empty()) return standing;
  double low = INFINITY, high = -INFINITY;
  for (const Vector3d& p : part.mesh->vertices) {
    const double height = plane.height(part.X_WP_home * p);
    low = std::min(low, height);
    high = std::max(high, height);
  }
  standing.lowMm = low;
  standing.highMm = high;
  const bool before = low > -kTouchMm, behind = high < kTouchMm;
  standing.side = before == behind ? Side::across : before ? Side::before : Side::behind;
  return standing;
}

std::set<std::string> namesOf(const Assembly& assembly, const std::vector<StandingSide>& sides,
                              Side side) {
  std::set<std::string> names;
  for (std::size_t p = 0; p < sides.size(); ++p) {
    if (sides[p].side == side) names.insert(assembly.parts()[p].name);
  }
  return names;
}

}  // namespace

std::vector<StandingSide> sidesOf(const Assembly& assembly, const MirrorPlane& plane) {
  std::vector<StandingSide> sides;
  for (const Part& part : assembly.parts()) sides.push_back(sideOf(part, plane));
  return sides;
}

std::size_t evenParts(const Assembly& assembly, const MirrorPlane& plane) {
  std::size_t even = 0;
  for (const Part& part : assembly.parts()) {
    if (sideOf(part, plane).side != Side::across) continue;
    if (part.mesh->triangles.size() > kMostTriangles) continue;
    const Pose X_PW = part.X_WP_home.inverse();
    if (isOwnMirrorImage(*part.mesh, X_PW * plane.through(), X_PW.linear() * plane.normal()))
      ++even;
  }
  return even;
}

std::set<std::string> likelySide(const Assembly& assembly, const std::vector<StandingSide>& sides) {
  const auto before = namesOf(assembly, sides, Side::before);
  const auto behind = namesOf(assembly, sides, Side::behind);
  const auto& more = behind.size() > before.size() ? behind : before;
  // Where most are named after their side, the others are of no side: a tool in one hand.
  const SideWords words = likelyWords({more.begin(), more.end()}).front();
  std::set<std::string> named;
  for (const std::string& part : more) {
    if (hasWord(part, words.here)) named.insert(part);
  }
  return 2 * named.size() > more.size() ? named : more;
}

std::set<std::string> ownImagesOf(const Assembly& assembly, const AssemblyDocument& document,
                                  const std::set<std::string>& parts, const MirrorPlane& plane) {
  using Question = std::tuple<const TriangleMesh*, ThreeNumbers>;
  std::map<Question, bool> known;
  std::set<std::string> own;
  for (const std::string& name : parts) {
    const DocumentPart* written = findNamed(document.parts, name);
    const auto id = assembly.findPart(name);
    if (!written || !written->placement || !id) continue;
    const auto mirror = meshPlane(*written, plane);
    const TriangleMesh* mesh = assembly.part(*id).mesh.get();
    if (!mirror || !mesh || mesh->triangles.size() > kMostTriangles) continue;
    const auto [answer, isNew] = known.try_emplace({mesh, mirror->normal}, false);
    if (isNew) {
      answer->second = isOwnMirrorImage(*mesh, Vector3d(mirror->through.data()),
                                        Vector3d(mirror->normal.data()));
    }
    if (answer->second) own.insert(name);
  }
  return own;
}

std::set<std::string> partsAside(const Assembly& assembly, const std::vector<StandingSide>& sides,
                                 const std::set<std::string>& here) {
  std::set<std::string> aside;
  for (const Side side : {Side::before, Side::behind}) {
    for (const std::string& name : namesOf(assembly, sides, side)) {
      if (!here.contains(name)) aside.insert(name);
    }
  }
  return aside;
}

}  // namespace swingroom::edits
