#pragma once

#include <QObject>

#include "app/panels/print/print_panel.h"
#include "app/viewport/viewport.h"
#include "app/window/paint/paint_legend.h"
#include "core/print/walls/wall_figures.h"

namespace swingroom {

/// Thickness as a painted surface; piece and place have the same index.
std::shared_ptr<const PaintedSurface> paintedWalls(const WallMap& map);

/// The wall thickness of a part in the view: while a finding of walls is open, or while it is
/// wanted for the part that is chosen.
class WallsView : public QObject {
  Q_OBJECT

 public:
  WallsView(Session& session, PrintBoard& board, PrintPanel& panel, Viewport& view,
            QObject* parent = nullptr);

  /// Colours of the theme that is applied now.
  void showTheme() { refresh(); }
  bool isShown() const { return isShown_; }

 Q_SIGNALS:
  /// It takes the view's paint, or gives it back.
  void shownChanged(bool shown);

 private:
  void refresh();
  std::optional<PartId> partWanted() const;
  void show(PartId part);
  void hide();
  void hover(const std::optional<PaintPick>& pick);

  Session& session_;
  PrintBoard& board_;
  PrintPanel& panel_;
  Viewport& view_;
  PaintLegend* legend_;
  std::shared_ptr<const WallMap> map_;  ///< That `surface_` shows.
  std::shared_ptr<const PaintedSurface> surface_;
  PrintProcess process_;  ///< Of the part.
  bool isShown_ = false;
};

}  // namespace swingroom
