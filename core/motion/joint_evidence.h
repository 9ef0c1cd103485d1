#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "core/mesh/ball_faces.h"
#include "core/mesh/round_faces.h"
#include "core/motion/screw.h"
#include "core/motion/surface_search.h"

namespace swingroom {

/// What one part does against another, beside standing still.
enum class ScrewKind { turn, travel, both };

/// The screw of displacement `X`; one that turns at most 0.01 degrees is a travel, that of the
/// point `at`.
Screw jointScrewOf(const Pose& X, const Vector3d& at);

/// A turn if it travels at most 0.01 mm along its axis, a travel if it turns at most 0.01 degrees.
ScrewKind kindOf(const Screw& screw);

/// A part made ready for questions of how it hangs on others.
struct PartShape {
  PartShape(const TriangleMesh& meshInFirst, const Pose& displacement);

  const TriangleMesh* mesh;  ///< As in the first mode, assembly frame.
  Pose D;                    ///< To the second.
  std::shared_ptr<const SurfaceSearch> inFirst;
  std::shared_ptr<const SurfaceSearch> inSecond;
};

/// A pin of one part in a hole of another, about their common screw axis. Lengths in mm.
struct PinInHole {
  bool pinIsFirst = false;  ///< The pin is the first part's.
  double pinRadiusMm = 0;
  double holeRadiusMm = 0;
  double leastGapMm = 0;  ///< A side, facets and corners counted; negative: they overlap.
  /// Where they are in each other in either mode, along the axis from the screw's point.
  double fromMm = 0;
  double toMm = 0;
  bool inBothModes = false;
};

/// A ball of one part in a socket of another, centred on their common screw axis. Lengths in mm.
struct BallInSocket {
  bool ballIsFirst = false;  ///< The ball is the first part's.
  double ballRadiusMm = 0;
  double socketRadiusMm = 0;
  double leastGapMm = 0;  ///< As of a pin.
  double centreMm = 0;    ///< Along the axis from the screw's point.
};

/// Faces of one part that a screw's axis runs through the middle of.
struct AxisFaces {
  std::vector<RoundFace> round;
  std::vector<BallFace> balls;
};

/// None for a travel, balls only for a turn.
AxisFaces axisFacesOf(const TriangleMesh& mesh, const Screw& screw);

/// Signs that two parts hang on each other by their relative screw.
struct JointEvidence {
  std::vector<PinInHole> pins;       ///< Balls in sockets too, if there are two on the axis.
  std::optional<BallInSocket> ball;  ///< And then no pins.
  bool nearInFirst = false;          ///< Nearer than 1 mm somewhere in that mode.
  bool nearInSecond = false;
  /// How near to the axis they are near each other, in the worse mode; none for a travel.
  std::optional<double> fromAxisMm;
  /// Surface that is near the other part in both modes and along which the motion runs, mm2.
  double slidingAreaMm2 = 0;

  /// A pin in a hole or a ball in a socket.
  bool isHeld() const { return ball || !pins.empty(); }

  /// Pins in holes and balls in sockets count most, then nearness at the axis and sliding faces. 0:
  /// no sign at all.
  double score(ScrewKind kind) const;
};

/// @param screw Of b against a, as seen with both in the first mode.
/// @param facesA, facesB  As `axisFacesOf` has them.
JointEvidence evidenceBetween(const PartShape& a, const PartShape& b, const Screw& screw,
                              const AxisFaces& facesA, const AxisFaces& facesB);

/// Parts farther apart than this do not hang on each other, mm.
constexpr double kNearMm = 1.0;

}  // namespace swingroom
