#pragma once

#include <QObject>

#include "app/panels/print/print_panel.h"
#include "app/viewport/view_scene.h"

namespace swingroom {

class RigGuides;
class ViewBridge;

/// Shows in the view what a finding of the print is about: its parts stand out, as they stand in
/// its mode, and its place is brought close and ringed.
class PrintView : public QObject {
  Q_OBJECT

 public:
  /// @param bridge, guides  Null without a 3D view.
  PrintView(Session& session, PrintBoard& board, PrintPanel& panel, ViewBridge* bridge,
            RigGuides* guides, QObject* parent = nullptr);

  void showRow(const PrintRow& row);
  /// The same of what was measured. How the figure stands is drawn on the floor.
  void showTableRow(PrintSection section, const PrintTableRow& row);
  /// What is chosen just now is chosen by the page: it stays in sight.
  bool isShowing() const { return isShowing_; }

 private:
  /// What a row is about, and where.
  struct Place {
    std::vector<PartId> parts;
    std::optional<ModeId> mode;
    std::optional<Vector3d> at_P;
    bool stands = false;  ///< It is about how the figure stands in the mode.
  };
  void show(const Place& place);
  void forget();
  ViewGuides guidesOf(const Place& place) const;
  void addPolygon(ModeId mode, ViewGuides& guides) const;
  void refresh();

  Session& session_;
  PrintBoard& board_;
  PrintPanel& panel_;
  ViewBridge* bridge_;
  RigGuides* guides_;
  std::optional<Place> shown_;
  PrintKnownPtr shownOf_;  ///< By which ids in `shown_` mean what.
  bool isGuided_ = false;
  bool isShowing_ = false;  ///< The choice is made here.
};

}  // namespace swingroom
