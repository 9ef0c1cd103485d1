#pragma once

#include <QLabel>
#include <QPushButton>
#include <QTableView>
#include <QWidget>

#include "app/models/motion_rows.h"
#include "app/models/step_table.h"
#include "app/panels/rows_view.h"
#include "app/panels/steps/step_line.h"

class QScrollArea;
class QVBoxLayout;

namespace swingroom {

/// The page of modes and steps: all modes, all ways, the steps of the way that is edited, and for
/// its chosen step where each joint begins and ends.
class MotionPanel : public QWidget {
  Q_OBJECT

 public:
  MotionPanel(MotionEditor& editor, StepTyping& typing, QWidget* parent = nullptr);

  RowsView& modes() { return *modes_; }
  RowsView& ways() { return *ways_; }
  RowsView& steps() { return *steps_; }
  QTableView& table() { return *table_; }
  StepTable& tableModel() { return tableModel_; }
  StepLine& stepLine() { return *stepLine_; }
  QPushButton& finishButton() { return *finish_; }

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  QWidget* buildModes();
  QWidget* buildWays();
  QWidget* buildSteps();
  QWidget* buildTable();
  void refresh();
  void refreshModes();
  void placeTable();
  void bringStepIntoSight();
  void openModeMenu(int row, const QPoint& global);
  void openWayMenu(int row, const QPoint& global);
  void openStepMenu(int row, const QPoint& global);
  void openJointMenu(const QPoint& place);
  void openOtherJoints();

  MotionEditor& editor_;
  StepTyping& typing_;
  NamedRowsModel modeRows_, wayRows_, stepRows_;
  StepTable tableModel_;
  RowsView* modes_;
  RowsView* ways_;
  RowsView* steps_;
  QTableView* table_;
  StepLine* stepLine_;
  QLabel* stepsHeading_;
  QLabel* tableHeading_;
  QScrollArea* scroll_;
  std::size_t seenStep_ = 0;  ///< Brought into sight last.
  QVBoxLayout* all_;  ///< The lists, which scroll, and the table where there is room for both.
  QVBoxLayout* scrolled_;
  QWidget* stepsArea_;
  QWidget* tableArea_;
  QLabel* short_;
  QPushButton* finish_;
  QPushButton* newStep_;
  QPushButton* newWay_;
  QPushButton* endHere_;
  QPushButton* order_;
  QPushButton* other_;
  bool refreshing_ = false;
};

}  // namespace swingroom
