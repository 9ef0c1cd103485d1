#pragma once

#include <QWidget>
#include <optional>
#include <utility>

#include "app/models/ribbon_row.h"
#include "app/models/way_line.h"
#include "app/panels/way/gap_rows.h"
#include "app/panels/way/way_axis.h"

namespace swingroom {

class LineOfSteps;
class RibbonHead;
class WayOverview;

/// The spine of the window: the line from mode to mode, under it the gap ribbon on the same axis,
/// one needle through both. Shows values and reports wishes; changes nothing by itself: whoever
/// owns it answers a wish by `setInstant` or `setChosen`.
///
/// Mouse: press or drag on the line scrubs, sticking to beads within 4 px unless Alt is held; a
/// station or its name goes to that mode; a cell chooses its pair at that instant and drags on from
/// there; a label chooses its pair at its worst place, or its part. The wheel scrolls rows, with
/// Ctrl it goes closer and farther about the pointer; Shift or a wheel to the side moves what is
/// seen. Keys: as `instantAfter`; Up and Down choose the neighbouring row; Page Up and Page Down
/// scroll; Plus and Minus open and fold the chosen part, Return does either; Ctrl with Plus, Minus
/// and 0 goes closer, farther, back to the whole way; Space runs.
class WayRibbon : public QWidget {
  Q_OBJECT

 public:
  explicit WayRibbon(QWidget* parent = nullptr);

  void setWay(const WayLine& way);
  void setRibbon(const Ribbon& ribbon);
  /// Clamped to 0 to 1.
  void setInstant(double instant);
  /// In either order of the two. Scrolls to the pair's row if there is one.
  /// @param part  The part that is chosen, alone or with the pair.
  void setChosen(const std::optional<PartPair>& chosen,
                 const std::optional<PartId>& part = std::nullopt);
  /// Whose rows "only what is chosen" means.
  void setKeptPart(const QString& name);
  /// The gap of the chosen pair as it stands: "0.34 mm".
  void setFigureNow(const QString& figure) { rows_->setFigureNow(figure); }
  void setGapThere(GapRows::GapThere gapThere) { rows_->setGapThere(std::move(gapThere)); }
  /// Closer by a factor above 1, farther below it, about the needle, else the middle.
  void zoomBy(double factor);
  void showWholeWay();

  double instant() const { return instant_; }
  const WayAxis& axis() const { return axis_; }
  const GapRows& rows() const { return *rows_; }
  const LineOfSteps& line() const { return *line_; }
  RibbonHead& head() { return *head_; }
  WayOverview& overview() { return *overview_; }
  bool onlyChosen() const;
  LineOfSteps& line() { return *line_; }

 Q_SIGNALS:
  void instantWanted(double instant);
  void pairWanted(PartId a, PartId b, double instant);
  void partWanted(PartId part);
  void runWanted();
  /// Whether only rows of what is chosen are wanted.
  void onlyChosenChanged(bool only);

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
  bool takeZoomKey(const QKeyEvent& event);
  bool takeFoldKey(int key);
  void chooseNeighbour(int direction);
  void setAxis(const WayAxis& axis);
  void arrange();
  void describe();
  void showFocus(bool shown);

  WayLine way_;
  WayAxis axis_;
  double instant_ = 0;
  LineOfSteps* line_;
  GapRows* rows_;
  RibbonHead* head_;
  WayOverview* overview_;
  QWidget* legend_;
  QWidget* ring_;  ///< Lies over the others and shows the keyboard's focus.
};

}  // namespace swingroom
