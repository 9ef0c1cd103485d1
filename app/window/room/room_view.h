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

 private:
  void refresh();
  void hover(const std::optional<PaintPick>& pick);

  Session& session_;
  RoomBoard& board_;
  RoomPanel& panel_;
  Viewport& view_;
  PaintLegend* legend_;
  std::shared_ptr<const RoomMap> map_;  ///< That `surface_` shows.
  std::shared_ptr<const PaintedSurface> surface_;
  bool isShown_ = false;
};

}  // namespace swingroom
