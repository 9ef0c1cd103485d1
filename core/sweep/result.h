#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/assembly/assembly.h"

namespace swingroom {

/// Of a pair, worst first: the first that applies is the pair's.
enum class Verdict { clash, tight, loose, unproven, clear, allowed };

/// Where a joint stands.
struct JointStand {
  JointId joint;
  JointValue value = JointValue::Zero();

  bool operator==(const JointStand&) const = default;
};

/// A stretch of the sequence, in instants 0 to 1, with one verdict: clash, tight or unproven.
struct Stretch {
  Verdict verdict = Verdict::unproven;
  double from = 0;
  double to = 0;
  std::optional<double> depthMm;      ///< Clash: the deepest overlap; none where inside is not defined.
  std::optional<double> deepestAt;    ///< Its instant.
  std::optional<Vector3d> point_W;    ///< Its place.
  std::optional<JointId> mover;       ///< The joint that brings the parts together at `from`.
  /// Found in a step whose joints move in any order, away from the way in which all move together: where the
  /// joints between the two parts stand then. The stretch is the whole step.
  std::vector<JointStand> combination;

  bool operator==(const Stretch&) const = default;
};

/// lower <= true least gap <= upper, mm, over the whole sequence.
struct GapBracket {
  double lowerMm = 0;
  std::optional<double> upperMm;      ///< None: farther than matters.
  std::optional<double> instant;      ///< Of the upper bound; in overlap, of the greatest depth.
  std::optional<std::array<Vector3d, 2>> points_W;  ///< On the first and the second part.
  std::vector<JointStand> combination;  ///< As a stretch's; then `instant` only names the step.

  bool operator==(const GapBracket&) const = default;
};

struct ModeGap {
  ModeId mode;
  double lowerMm = 0;
  std::optional<double> upperMm;      ///< None: farther than matters.

  bool operator==(const ModeGap&) const = default;
};

/// How two parts stand inside the zones of the joint between them.
struct JointResult {
  JointId joint;
  Verdict verdict = Verdict::clear;
  GapBracket gap;
  double excusedAreaMm2 = 0;          ///< Surface of both parts inside the zones.

  bool operator==(const JointResult&) const = default;
};

/// A contact that does not do what it should in one mode.
struct LooseContact {
  ModeId mode;
  std::string sentence;

  bool operator==(const LooseContact&) const = default;
};

struct PairResult {
  PartId a, b;
  Verdict verdict = Verdict::unproven;
  double requiredGapMm = 0;
  GapBracket gap;
  std::vector<ModeGap> modes;
  std::optional<JointResult> joint;
  std::vector<Stretch> stretches;     ///< By `from`.
  /// Both parts are closed, so that one wholly inside the other would have been seen.
  bool insideJudged = true;
  std::vector<LooseContact> looseContacts;
  std::uint64_t nodeTests = 0;  ///< What the proof took: pairs of boxes and triangles that were compared.

  bool operator==(const PairResult&) const = default;
};

struct SequenceResult {
  std::string name;
  ModeId from, to;
  std::vector<PairResult> pairs;      ///< In file order of the parts.

  bool operator==(const SequenceResult&) const = default;
};

}  // namespace swingroom
