#pragma once

#include <QWidget>

#include "app/models/stages/stage_gaps_model.h"
#include "app/models/stages/stage_story.h"

class QLabel;
class QPushButton;
class QScrollArea;
class QTableView;
class QVBoxLayout;

namespace swingroom {

/// The comparison of a part's block and detail: largest changes with their places, holes that
/// moved, and the gaps of its pairs with both. It stands where the findings are, until it is closed.
class StagePanel : public QWidget {
  Q_OBJECT

 public:
  StagePanel(Session& session, StageCompare& compare, QWidget* parent = nullptr);

  const StageStory& story() const { return story_; }
  QTableView& gaps() { return *table_; }
  StageGapsModel& gapsModel() { return gapsModel_; }
  QPushButton& closeButton() { return *close_; }
  QPushButton& switchButton() { return *switch_; }
  /// In the order of the lines that have a place.
  std::vector<QPushButton*> placeButtons() const;

 Q_SIGNALS:
  void closeWanted();
  /// The part's other stage is to be put in use.
  void switchWanted();
  /// It has a place.
  void placeWanted(const StageLine& line);

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void build();
  void show();
  void addHeading(const QString& words);
  void addLine(const StageLine& line, const char* role);

  Session& session_;
  StageCompare& compare_;
  StageStory story_;
  StageGapsModel gapsModel_;
  QLabel* title_;
  QLabel* doing_;
  QPushButton* close_;
  QPushButton* switch_;
  QScrollArea* scroll_;
  QWidget* lines_ = nullptr;  ///< Made anew with each story.
  QVBoxLayout* column_ = nullptr;
  QLabel* gapsHeading_;
  QTableView* table_;
};

}  // namespace swingroom
