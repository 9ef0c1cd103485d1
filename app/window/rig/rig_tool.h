#pragma once

#include <QObject>
#include <map>

#include "app/session/rig/rig_editor.h"
#include "app/viewport/viewport.h"
#include "app/window/rig/axis_at.h"
#include "app/window/rig/joint_card.h"
#include "app/window/rig/rig_guides.h"

namespace swingroom {

/// Joints by picking: the card of one joint, and what places in the view say of it. Fits are made
/// ready in the background as the pointer comes to a part.
class RigTool : public QObject {
  Q_OBJECT

 public:
  RigTool(RigEditor& editor, Viewport& view, RigGuides& guides, QObject* parent = nullptr);

  JointCard& card() { return card_; }
  /// For a part that is chosen, if one is.
  void openNew();
  void openFor(const std::string& joint);
  void close() { card_.hide(); }
  /// What the pointer is at says of the axis; none: nothing (yet).
  const std::optional<AxisAt>& under() const { return under_; }

 Q_SIGNALS:
  void openChanged(bool open);

 private:
  using Finder = std::shared_ptr<const FeatureFinder>;

  void open(const DocumentJoint& joint, bool isThere);
  void onHover(const std::optional<PickSpot>& spot);
  void onClick(const PickSpot& spot);
  void onChoice();
  void takeAxis(const AxisAt& axis, PartId part);
  std::optional<AxisAt> between(const Vector3d& from_W, const PickSpot& to) const;
  std::optional<AxisAt> axisOf(const PickSpot& spot);
  Finder finderFor(PartId part, bool wait);
  void showUnder();
  void showPreview();
  void showStops();
  void takeStops();
  void take(const DocumentJoint& joint);
  QString partName(PartId part) const;

  RigEditor& editor_;
  Session& session_;
  Viewport& view_;
  RigGuides& guides_;
  JointCard& card_;  ///< The view owns it.
  std::optional<PickSpot> spot_;
  std::optional<AxisAt> under_;
  std::optional<Vector3d> first_W_;  ///< The first of two corners that a slide goes by.
  bool choosing_ = false;
  struct Known {
    std::shared_ptr<const TriangleMesh> mesh;
    Finder finder;
  };
  std::map<const TriangleMesh*, Known> known_;
  const TriangleMesh* making_ = nullptr;
  LatestWorker worker_;
};

}  // namespace swingroom
