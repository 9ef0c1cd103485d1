#pragma once

#include <QObject>

#include "app/panels/print/print_panel.h"

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

 private:
  void bringPlace(const PrintRow& row, PartId part);
  void refreshRing();

  Session& session_;
  PrintBoard& board_;
  PrintPanel& panel_;
  ViewBridge* bridge_;
  RigGuides* guides_;
  bool isRinged_ = false;
};

}  // namespace swingroom
