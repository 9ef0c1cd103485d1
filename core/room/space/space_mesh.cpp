#include "core/room/space/space_mesh.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <limits>
#include <set>
#include <stdexcept>

#include "core/mesh/health.h"
#include "core/mesh/mass_properties.h"
#include "core/room/space/crossing_repair.h"
#include "core/room/space/solid_merge.h"

namespace swingroom {
namespace {

/// A few steps of single precision at the size of what is printed.
constexpr double kShortestMm = 3e-5;

/// No two corners in one place.
void roundApart(TriangleMesh& mesh) {
  std::set<std::array<double, 3>> taken;
  for (Vector3d& p : mesh.vertices) {
    p = inFilePrecision(p);
    for (int d = 0; !taken.insert({p.x(), p.y(), p.z()}).second; d = (d + 1) % 3) {
      const auto next = std::nextafter(static_cast<float>(p[d]), std::numeric_limits<float>::infinity());
      p[d] = std::max<double>(next, inFilePrecision(Vector3d::Constant(p[d] + 1e-6)).x());
    }
  }
}

std::string roundedUp(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2g", std::ceil(mm * 100) / 100);
  return text;
}

}  // namespace

std::optional<Problem> gridProblem(const SpaceSubject& subject, const Eigen::AlignedBox3d& box, double pitchMm) {
  if (!(box.sizes().minCoeff() > 0)) return spaceProblem(subject, "the box for its room is empty", "");
  const double nodes = SpaceGrid::nodesIn(box, pitchMm);
  if (nodes <= kMostGridNodes) return std::nullopt;
  char what[128];
  std::snprintf(what, sizeof what, "at a pitch of %g mm the grid would have %.0f million points, more than %.0f million",
                pitchMm, nodes / 1e6, kMostGridNodes / 1e6);
  const double larger = pitchMm * std::cbrt(nodes / kMostGridNodes) * 1.02;
  return spaceProblem(subject, what, "choose a pitch of " + roundedUp(larger) + " mm or more, or a smaller box");
}

void requireAskable(const SpaceSubject& subject, const SpaceSettings& settings) {
  if (!subject.geometry.at(subject.part.index)) throw std::invalid_argument("SpaceSubject: the part has no mesh");
  if (!(settings.pitchMm > 0)) throw std::invalid_argument("SpaceSettings: pitchMm has to be above 0");
  const auto* grown = std::get_if<WithinGrown>(&settings.within);
  if (grown && !(grown->byMm > 0)) throw std::invalid_argument("WithinGrown: byMm has to be above 0");
}

Problem spaceProblem(const SpaceSubject& subject, const std::string& what, const std::string& hint) {
  return {subject.assembly.part(subject.part).name, what, hint};
}

Problem stoppedProblem(const SpaceSubject& subject) { return spaceProblem(subject, "was stopped", ""); }

std::vector<double> volumesOf(const LatticeSurface& surface, std::uint32_t regions) {
  std::vector<double> volumes(regions + 1, 0);
  for (std::size_t t = 0; t < surface.mesh.triangles.size(); ++t) {
    const Vector3d& a = surface.mesh.corner(t, 0);
    volumes[surface.regions[t]] += a.dot(surface.mesh.corner(t, 1).cross(surface.mesh.corner(t, 2))) / 6;
  }
  return volumes;
}

std::optional<MeshForFiles> readyForFiles(TriangleMesh mesh, const Eigen::Affine3d& X_FileSpace, unsigned threads,
                                          const WorkMonitor& monitor) {
  const double volumeMm3 = massProperties(mesh).volumeMm3;
  const double scale = std::cbrt(std::abs(X_FileSpace.linear().determinant()));
  if (!X_FileSpace.matrix().isIdentity(0)) mesh = transformed(mesh, X_FileSpace);
  joinShortEdges(mesh, kShortestMm);
  if (monitor.cancelled()) return std::nullopt;
  roundApart(mesh);
  const Crossings left = repairCrossings(mesh, kRepairedMm * scale, threads, monitor);
  if (monitor.cancelled()) return std::nullopt;
  const MeshHealth health = examine(mesh);
  if (!health.closed() || health.nonManifoldEdges > 0) return std::nullopt;
  return MeshForFiles{std::move(mesh), volumeMm3, left.pairs + left.flats};
}

}  // namespace swingroom
