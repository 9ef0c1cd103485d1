#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <optional>

#include "core/mesh/health.h"
#include "core/mesh/mass_properties.h"
#include "core/room/space/room_space.h"
#include "core/sweep/sweep.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {

/// A mechanism ready to be asked for spaces.
struct SpaceCase {
  explicit SpaceCase(const Mechanism& mechanism, PartId part, unsigned threads = 1)
      : assembly(mechanism.assembly()),
        modes(mechanism.modes()),
        ways(waysToCheck(modes, {mechanism.sequence()})),
        geometry(prepareGeometry(assembly, threads)),
        subject{assembly, modes, ways, geometry, part} {
    settings.threads = threads;
  }

  Outcome<SpaceMesh> room() const {
    WorkMonitor monitor;
    return roomSpace(subject, settings, monitor);
  }
  Outcome<SpaceMesh> swept(std::optional<PartId> in = std::nullopt) const {
    WorkMonitor monitor;
    return sweptSpace(subject, in, settings, monitor);
  }

  /// The worst verdict of all pairs in all ways with `mesh` in the part's place.
  Verdict verdictWith(const TriangleMesh& mesh) const {
    AssemblyParts parts{assembly.name(),   0.3,
                        assembly.resolutionMm(), assembly.parts(),
                        assembly.joints(), assembly.pairRules()};
    parts.requiredGapMm = requiredMm;
    parts.parts[subject.part.index].mesh = std::make_shared<const TriangleMesh>(mesh);
    const Assembly changed(std::move(parts));
    const AssemblyGeometry with = prepareGeometry(changed, 1, geometry);
    Verdict worst = Verdict::clear;
    WorkMonitor monitor;
    for (const Sequence& way : ways) {
      for (const PairResult& pair : sweep(changed, modes, way, with, {}, monitor).pairs) {
        worst = std::min(worst, pair.verdict);
      }
    }
    return worst;
  }

  Assembly assembly;
  std::vector<Mode> modes;
  std::vector<Sequence> ways;
  AssemblyGeometry geometry;
  SpaceSubject subject;
  SpaceSettings settings;
  double requiredMm = 0.3;  ///< Of the mechanism.
};

inline void expectSound(const TriangleMesh& mesh) {
  const MeshHealth health = examine(mesh);
  EXPECT_TRUE(health.closed());
  EXPECT_EQ(health.openEdges, 0u);
  EXPECT_EQ(health.nonManifoldEdges, 0u);
  EXPECT_EQ(health.repeatedTriangles, 0u);
  EXPECT_EQ(health.insideOutShells, 0u);
}

}  // namespace swingroom
