#pragma once

#include <array>
#include <optional>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/assembly/part_tree.h"
#include "core/sweep/interval_gap.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/plan.h"

namespace swingroom {

/// Of live gaps, mm: far below what is shown. Where two flats, or a pin and its hole, are about
/// equally near everywhere, telling the nearest of all places would take most of the time.
constexpr double kLiveSlackMm = 1e-4;

/// The gap of two parts where everything stands still.
struct StandingGap {
  PartId a, b;  ///< a before b.
  /// Never less than the gap, nor more than it by `kLiveSlackMm` or a twentieth of it.
  /// 0: they touch, cross, or one is wholly inside the other.
  double gapMm = 0;
  bool meets = false;
  bool inside = false;  ///< One is wholly inside the other's material.
  std::array<Vector3d, 2> points_W{Vector3d::Zero(), Vector3d::Zero()};  ///< Not set if `meets`.
};

/// What the last looks at the pairs of one assembly left behind. While something is dragged most pairs
/// stand to each other as they did, or are too far to have come near since: these are not measured
/// again. What is answered is the same with and without it, within the slack.
/// For one `StandingGaps`; not for two threads at once.
class GapMemory {
 private:
  friend class StandingGaps;

  /// The last look at one pair.
  struct Look {
    const JudgedSurfaces* surfaces = nullptr;  ///< What was looked at; null: nothing yet.
    Pose X_AB = Pose::Identity();
    double withinMm = 0;
    std::optional<StandingGap> answer;  ///< Its points in A's frame.
    double apartMm = 0;                 ///< Proven; neither is inside the other.
    std::optional<TrianglePair> nearest;
  };

  std::vector<Look> looks_;
};

/// Answers for any way in which an assembly may stand: while a joint is dragged, or on the way. Of
/// the surfaces that the required gap is about: joint zones are cut away, contacts are not looked
/// at. What is found says nothing about the instants between.
/// Keeps its own copy of what it needs; const, safe from several threads.
class StandingGaps {
 public:
  StandingGaps(const Assembly& assembly, const AssemblyGeometry& geometry, unsigned threads = 1);

  /// Pairs nearer than their required gap + `aboveMm`, nearest to it (or deepest below it) first.
  /// @param memory  Of calls before, for this one and the next; or null.
  std::vector<StandingGap> nearPairs(const Configuration& standing,
                                     double aboveMm = kMattersAboveRequiredMm,
                                     GapMemory* memory = nullptr) const;

  /// @returns Nothing if the pair is not nearer than `withinMm`, or a part has no mesh.
  std::optional<StandingGap> gapOf(const Configuration& standing, PartId a, PartId b,
                                   double withinMm) const;

  /// Both parts have meshes.
  bool hasSurfaces(PartId a, PartId b) const { return geometry_.at(a.index) && geometry_.at(b.index); }
  /// The surfaces that are judged while the pair stands so. Both parts have meshes.
  const JudgedSurfaces& surfacesOf(const Configuration& standing, PartId a, PartId b) const;
  const Solid& solidOf(PartId part) const { return geometry_.at(part.index)->solid; }

 private:
  struct WholePair {
    PartId a, b;
    JudgedSurfaces surfaces;
    double requiredMm = 0;
  };

  struct Question {
    const Configuration* standing;
    const PartTree* tree;
  };

  std::optional<StandingGap> answerFor(const Question& question, const WholePair& pair,
                                       double withinMm, GapMemory::Look* look) const;
  const WholePair& wholePair(PartId a, PartId b) const;
  GapMemory::Look lookAt(const WholePair& pair, const JudgedSurfaces& surfaces, const Pose& X_AB,
                         double withinMm, const GapMemory::Look* before) const;
  bool isInside(const WholePair& pair, const Pose& X_AB) const;
  bool anyInside(PartId inner, PartId outer, const Pose& X_OuterInner) const;

  Assembly assembly_;
  AssemblyGeometry geometry_;
  std::vector<std::vector<JudgedSurfaces>> hung_;  ///< By child and mount: lower id first.
  std::vector<WholePair> whole_;                   ///< All pairs with meshes, uncut, in order.
  std::vector<std::size_t> placeOfPair_;           ///< In `whole_`, by a * parts + b.
};

}  // namespace swingroom
