#pragma once

#include <QObject>
#include <vector>

#include "app/session/session.h"
#include "app/viewport/tools/handle_layer.h"
#include "app/window/rig/zone_grips.h"

namespace swingroom {

/// A part's joint as a handle of the view, where everything stands.
/// @param number  Where the drive stands; a turn of a ball is counted from where it was taken.
/// @param travel  How far it goes; null: not known.
ViewHandle jointHandle(const Scene& scene, const Configuration& standing, PartId part,
                       const DriveRange& range, double number, const FreeTravel* travel);

/// The handles of the chosen part's joints, which move it by the session's hand, and the grips of
/// their zones.
class JointHandles : public QObject {
  Q_OBJECT

 public:
  JointHandles(Session& session, HandleLayer& layer, QObject* parent = nullptr);

  void setShown(bool shown);
  const ZoneGrips& zones() const { return zones_; }
  /// The joints' handles come first in the layer, in this order.
  const std::vector<DriveRange>& drives() const { return drives_; }

 Q_SIGNALS:
  /// Zones are to be drawn again: one is being dragged.
  void zonesChanged();

 private:
  void show();
  void connectLayer();
  ViewHandle handleOf(PartId part, const DriveRange& range) const;

  Session& session_;
  HandleLayer& layer_;
  ZoneGrips zones_;
  bool shown_ = true;
  std::vector<DriveRange> drives_;
};

}  // namespace swingroom
