#pragma once

#include <QObject>
#include <optional>
#include <vector>

#include "app/edits/joint_edits.h"
#include "app/session/session.h"
#include "app/viewport/view_handle.h"
#include "app/viewport/view_scene.h"

namespace swingroom {

/// Grips at the zones of the joints by which a part hangs: both ends along the axis and the mantle.
/// What is dragged is shown at once and becomes one edit when it is let go.
class ZoneGrips : public QObject {
  Q_OBJECT

 public:
  explicit ZoneGrips(Session& session, QObject* parent = nullptr);

  /// Of the part as everything stands; remembers which grip is which.
  std::vector<ViewHandle> gripsOf(PartId part);
  /// Puts what is being dragged into the zones of the same part, in the order of `jointMarks`.
  void showPreview(std::vector<ViewZone>& zones) const;

  void press(std::size_t grip);
  void drag(std::size_t grip, double value);
  void release();
  void cancel();

 Q_SIGNALS:
  /// Another size is to be shown.
  void changed();

 private:
  enum class End { from, to, radius };
  struct Grip {
    JointId joint;
    std::size_t place = 0;   ///< Among the joint's zones.
    std::size_t number = 0;  ///< Among all zones of the part.
    End end = End::radius;
  };
  struct Preview {
    Grip grip;
    edits::ZoneSize size;
    bool done = false;  ///< Written; shown until the scene has it.
  };

  edits::ZoneSize sizeOf(const Grip& grip, const JointZone& zone, bool isBall) const;
  ViewHandle handleOf(const Grip& grip, const Joint& joint, const JointZone& zone,
                      const Pose& D) const;

  Session& session_;
  std::vector<Grip> grips_;
  std::optional<Preview> preview_;
};

}  // namespace swingroom
