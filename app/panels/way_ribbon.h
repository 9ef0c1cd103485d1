#pragma once

#include <QWidget>
#include <optional>
#include <utility>

#include "app/models/ribbon_row.h"
#include "app/models/way_line.h"
#include "app/panels/gap_rows.h"
#include "app/panels/way_axis.h"

namespace swingroom {

class LineOfSteps;

/// The spine of the window: the line from mode to mode, under it the gap ribbon on the same axis,
/// one needle through both. Shows values and reports wishes; changes nothing by itself: whoever
/// owns it answers a wish by `setInstant` or `setChosen`.
///
/// Mouse: press or drag on the line scrubs, sticking to beads within 4 px unless Alt is held; a
/// station or its name goes to that mode; a cell chooses its pair at that instant and drags on from
/// there; a label chooses its pair at its worst place. Keys: as `instantAfter`; Up and Down choose
/// the neighbouring pair; Page Up and Page Down scroll; Space runs.
class WayRibbon : public QWidget {
  Q_OBJECT

 public:
  explicit WayRibbon(QWidget* parent = nullptr);

  void setWay(const WayLine& way);
  void setRibbon(const Ribbon& ribbon);
  /// Clamped to 0 to 1.
  void setInstant(double instant);
  /// In either order of the two. Scrolls to the pair's row if there is one.
  void setChosen(const std::optional<PartPair>& chosen);

  double instant() const { return instant_; }
  const WayAxis& axis() const { return axis_; }
  const GapRows& rows() const { return *rows_; }
  const LineOfSteps& line() const { return *line_; }

 Q_SIGNALS:
  void instantWanted(double instant);
  void pairWanted(PartId a, PartId b, double instant);
  void runWanted();

 protected:
  void resizeEvent(QResizeEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  void changeEvent(QEvent* event) override;
  void paintEvent(QPaintEvent* event) override;

 private:
  void chooseNeighbour(int direction);
  void describe();
  void showFocus(bool shown);

  WayLine way_;
  WayAxis axis_;
  double instant_ = 0;
  LineOfSteps* line_;
  GapRows* rows_;
  QWidget* legend_;
  QWidget* ring_;  ///< Lies over the others and shows the keyboard's focus.
};

}  // namespace swingroom
