#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/mesh/features.h"
#include "core/stages/stage_surface.h"

namespace swingroom {

enum class RoundKind { pin, hole, ball, socket };

/// A pin, hole, ball or socket of one stage. mm, in the part's frame.
struct RoundPlace {
  RoundKind kind = RoundKind::pin;
  Eigen::Vector3d at = Eigen::Vector3d::Zero();      ///< Middle of its axis; of a ball, the centre.
  Eigen::Vector3d along = Eigen::Vector3d::UnitZ();  ///< Unit; of a ball, nothing.
  double radiusMm = 0;    ///< Of the corners: facets lie inside it.
  double lengthMm = 0;    ///< Along the axis; of a ball 0.
  double residualMm = 0;  ///< Greatest distance of a corner from the fit.
  double coverage = 0;    ///< Of a turn, or of the sphere; 0 to 1.

  bool isRound() const { return kind == RoundKind::ball || kind == RoundKind::socket; }
};

/// A joint of the part, in the part's frame.
struct JointLine {
  std::string name;
  JointType type = JointType::fixed;
  Eigen::Vector3d through = Eigen::Vector3d::Zero();
  Eigen::Vector3d along = Eigen::Vector3d::UnitZ();  ///< Unit.
};

/// All joints that the part has with others, as parent or child; fixed ones have no line.
std::vector<JointLine> jointLinesOf(const Assembly& assembly, PartId part);

/// What became of a pin, hole, ball or socket between two stages.
struct RoundChange {
  std::optional<RoundPlace> before, after;  ///< One is missing: gone, or new.
  Eigen::Vector3d moved = Eigen::Vector3d::Zero();  ///< Across the axis; of a ball, at all.
  double turnedRad = 0;                             ///< Of the axis.
  double widerMm = 0;                               ///< On the diameter.
  /// How far both fits' corners are off them together: smaller changes mean nothing.
  double accuracyMm = 0;
  bool filled = false;                ///< A hole whose axis is inside the material now.
  std::vector<std::string> joints;    ///< Those on whose axis (in whose centre) it is, or was.

  double movedMm() const { return moved.norm(); }
  /// By more than the fits are off and 0.03 mm, or 0.5 degrees.
  bool isMoved() const;
  bool isTurned() const;
  bool isResized() const;
  bool isChanged() const { return !before || !after || isMoved() || isTurned() || isResized(); }
};

/// Those of at least a third of a turn (of a tenth of a sphere), in the order of their triangles.
std::vector<RoundPlace> roundPlacesOf(const Features& features);

/// Found by fits, of the whole surface: about a second for 100 000 triangles of a free form.
std::vector<RoundPlace> roundPlacesOf(const StageSurface& stage);
/// Near a known place only: quick.
std::vector<RoundPlace> roundPlacesNear(const StageSurface& stage, const RoundPlace& place);

/// Matches by kind, place and size: of each the nearest that is not another's.
/// @param afterSurface  Tells a hole that was filled from one that is not round any more.
std::vector<RoundChange> roundChanges(const std::vector<RoundPlace>& before,
                                      const std::vector<RoundPlace>& after,
                                      const StageSurface& afterSurface,
                                      const std::vector<JointLine>& joints);

/// Those of the block's that lie on a joint's axis, each against what is near it in the detail, and
/// all holes that were filled. Quick: what else is in the detail is not looked for.
std::vector<RoundChange> jointPlaceChanges(const StageSurface& block, const StageSurface& detail,
                                           const std::vector<JointLine>& joints);

}  // namespace swingroom
