#pragma once

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <QWidget>
#include <vector>

#include "app/models/joints_model.h"
#include "app/models/near_rows.h"
#include "app/session/session.h"

class QCheckBox;

namespace swingroom {

class JointRowView;
class NearList;
class TravelSlider;

/// Sliders for the chosen part's joints, how far they go before parts touch, and the gaps that are
/// nearest as everything stands.
class JointsPanel : public QWidget {
  Q_OBJECT

 public:
  explicit JointsPanel(Session& session, QWidget* parent = nullptr);

  JointsModel& model() { return model_; }
  TravelSlider* slider(int row) const;
  JointRowView& row(int row) const { return *rows_.at(static_cast<std::size_t>(row)); }
  QCheckBox& stopsBox() { return *stops_; }
  NearList& nearList() { return *near_; }

 private:
  void rebuild();
  void addRow(int row);
  void showStanding();

  Session& session_;
  JointsModel model_;
  std::vector<JointRowView*> rows_;
  QWidget* sliders_;
  QLabel* heading_;
  QLabel* hint_;
  QCheckBox* stops_;
  QWidget* area_;  ///< Scrolls what does not fit.
  QPushButton* back_;
  QLabel* nearHeading_;
  NearList* near_;
};

}  // namespace swingroom
