#pragma once

#include <QObject>

#include "app/models/rig_rows.h"
#include "app/viewport/viewport.h"

namespace swingroom {

/// Points out in the view what the page of the rig or the joint's card is about: its axis, its zone,
/// its parts.
class RigGuides : public QObject {
  Q_OBJECT

 public:
  RigGuides(RigEditor& editor, Viewport& view, QObject* parent = nullptr);

  /// A row of the page; none: none.
  void point(const std::optional<RigRow>& row);
  /// What is being picked or edited, before any row; none: the row again.
  void preview(const std::optional<ViewGuides>& guides);

 private:
  void show();
  ViewGuides ofRow(const RigRow& row) const;

  RigEditor& editor_;
  Viewport& view_;
  std::optional<RigRow> row_;
  std::optional<ViewGuides> preview_;
};

/// How far an axis is drawn: past the parts' boxes, mm along `along_W` from `through_W`.
std::pair<double, double> axisReach(const Viewport& view, const std::vector<PartId>& parts,
                                    const Vector3d& through_W, const Vector3d& along_W);

}  // namespace swingroom
