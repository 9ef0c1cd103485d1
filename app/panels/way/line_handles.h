#pragma once

#include <QWidget>
#include <optional>

class QLineEdit;

namespace swingroom {

class LineOfSteps;

/// What of the line can be taken hold of: lies over it, lets through what is not its own. A step's
/// name is edited in place by a double click, and dragged to another place among the steps; a mark
/// between the beads shows where it goes. Asks; changes nothing by itself.
class LineHandles : public QWidget {
  Q_OBJECT

 public:
  /// Lives as long as the line.
  explicit LineHandles(LineOfSteps& line);

  /// Opens the editor on a step's name, with all of it chosen.
  void editName(std::size_t step);
  /// Null while no name is edited.
  QLineEdit* nameEditor() const { return editor_; }
  /// Where a step that is being dragged would go; none: nothing is dragged, or it stays.
  std::optional<std::size_t> dropPlace() const;

 Q_SIGNALS:
  void renameWanted(std::size_t step, const QString& name);
  void moveWanted(std::size_t step, std::size_t to);
  /// @param step  By its name or its stretch. @param instant  Under the mouse, on the bead if near.
  void stepMenuWanted(std::size_t step, double instant, const QPoint& global);
  /// A station or its name.
  void stationMenuWanted(bool atEnd, const QPoint& global);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void contextMenuEvent(QContextMenuEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  std::optional<std::size_t> nameAt(const QPointF& place) const;
  void endEditing(bool take);
  void endDrag();

  LineOfSteps& line_;
  QLineEdit* editor_ = nullptr;
  std::size_t edited_ = 0;
  std::optional<std::size_t> held_;  ///< The step whose name was pressed.
  QPointF pressed_, now_;
  bool dragging_ = false;
};

}  // namespace swingroom
