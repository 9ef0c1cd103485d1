#pragma once

#include <map>

#include "app/viewport/view_frame.h"
#include "app/viewport/view_stage.h"

namespace swingroom {

/// What the section adds to a picture. Cuts are kept until a part or the plane moves.
class SectionView {
 public:
  /// Cut faces get their hatchings from where the parts stand now: the same until the section is
  /// switched on again, or the scene is another.
  void begin(const ViewStage& stage);
  /// Tells the drawn part which side it is on, and its cut.
  void place(std::size_t part, const ViewStage& stage, DrawnPart& drawn);
  /// Four corners round all that is visible, in order; none without anything visible.
  static std::vector<Vector3d> frameOf(const ViewStage& stage);
  /// At the frame's edge that is seen highest; moved into the picture if all are outside.
  static std::optional<SectionHandle> handleOf(const std::vector<Vector3d>& frame_W,
                                               const ViewSection& section,
                                               const ViewProjection& projection);

 private:
  struct Kept {
    const Surface* surface = nullptr;
    Pose X_WP = Pose::Identity();
    ViewSection section;
    std::shared_ptr<const SectionCut> cut;
  };
  std::map<std::size_t, Kept> cuts_;
  std::vector<int> hatchings_;
};

}  // namespace swingroom
