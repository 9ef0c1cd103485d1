#pragma once

#include <QObject>

#include "app/panels/room/room_panel.h"
#include "app/viewport/viewport.h"
#include "app/window/paint/paint_legend.h"

namespace swingroom {

/// The map as a painted surface; piece and place have the same index.
std::shared_ptr<const PaintedSurface> paintedRoom(const RoomMap& map);

/// Shows a part's room in the view while the page is in sight: the map on its surface, the legend,
/// and what is at the pointer. A click on a place stands there.
class RoomView : public QObject {
  Q_OBJECT

 public:
  RoomView(Session& session, RoomBoard& board, RoomPanel& panel, Viewport& view,
           QObject* parent = nullptr);

  /// Colours of the theme that is applied now.
  void showTheme();
  /// At the instant when the place has least room, with the pair chosen.
  void standAt(std::size_t place);
  /// Stands where another part comes nearest, with the pair chosen, and brings the place close.
  /// @param p_P  In the frame of the part whose room is shown.
  void showWhere(PartId other, std::size_t way, double instant, const Vector3d& p_P);
  /// The next click on the part gives a point of it.
  void pickPoint(bool wanted);
  /// While something else is painted nothing of it is shown.
  void setAside(bool aside);

 Q_SIGNALS:
  /// In the part's frame.
  void pointPicked(const Vector3d& p_P);

 private:
  void refresh();
  void hover(const std::optional<PaintPick>& pick);
  void click(const PaintPick& pick);
  void stand(PartId other, std::size_t way, double instant);

  Session& session_;
  RoomBoard& board_;
  RoomPanel& panel_;
  Viewport& view_;
  PaintLegend* legend_;
  std::shared_ptr<const RoomMap> map_;  ///< That `surface_` shows.
  std::shared_ptr<const PaintedSurface> surface_;
  bool isShown_ = false;
  bool isAside_ = false;
  bool picksPoint_ = false;
};

}  // namespace swingroom
