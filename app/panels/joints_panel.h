#pragma once

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <QWidget>
#include <vector>

#include "app/models/joints_model.h"
#include "app/models/near_rows.h"
#include "app/session/session.h"

class QDoubleSpinBox;
class QSlider;

namespace swingroom {

class NearList;

/// Sliders for the chosen part's joints, and the gaps that are nearest as everything stands.
class JointsPanel : public QWidget {
  Q_OBJECT

 public:
  explicit JointsPanel(Session& session, QWidget* parent = nullptr);

  JointsModel& model() { return model_; }
  QSlider* slider(int row) const { return rows_.at(static_cast<std::size_t>(row)).slider; }
  NearList& nearList() { return *near_; }

 private:
  struct Row {
    QSlider* slider;
    QDoubleSpinBox* box;
  };
  void rebuild();
  void addRow(int row);
  void showValues();
  void showStanding();

  Session& session_;
  JointsModel model_;
  std::vector<Row> rows_;
  QWidget* sliders_;
  QLabel* heading_;
  QLabel* hint_;
  QPushButton* back_;
  QLabel* nearHeading_;
  NearList* near_;
  bool following_ = false;
};

}  // namespace swingroom
