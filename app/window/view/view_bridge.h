#pragma once

#include <QObject>

#include "app/session/session.h"
#include "app/viewport/viewport.h"
#include "app/window/rig/joint_handles.h"

namespace swingroom {

/// Keeps the 3D view in step with the session, and takes clicks in it as choices.
class ViewBridge : public QObject {
  Q_OBJECT

 public:
  ViewBridge(Session& session, Viewport& view, QObject* parent = nullptr);

  /// Colours of the theme that is applied now.
  void showTheme();
  void showJoints(bool shown);
  /// Brings what is chosen close; with nothing chosen, all.
  void bringChosen();
  void bringAll() { view_.fit(); }
  /// Brings the place between two points close, from where the fewest parts stand in front of it.
  /// @param own  Parts that what is drawn over everything explains: they hide it less.
  void bringPlace(const std::array<Vector3d, 2>& points_W, const std::optional<PartPair>& own);

 private:
  void showScene();
  void showStand();
  void showChoice();
  void showAxes();
  void takeNow(const PairNow& now);
  void takeNear(const std::vector<StandingGap>& near);
  void askLive();

  Session& session_;
  Viewport& view_;
  JointHandles handles_;
  bool jointsShown_ = true;
  std::optional<PairNow> now_;
  bool gapShown_ = false;     ///< Of a joint that is being moved.
  bool placeWanted_ = false;  ///< The next measured place is brought close.
};

}  // namespace swingroom
