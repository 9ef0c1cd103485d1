#pragma once

#include <QFrame>
#include <QLabel>
#include <QListView>
#include <QWidget>

#include "app/models/history/comparison_model.h"
#include "app/models/history/history_model.h"
#include "app/session/check/check_history.h"

namespace swingroom {

/// The checks of the open assembly, newest first, and what turned between two of them: the newest
/// and the one before, one that is clicked, or two that are chosen together.
class HistoryPanel : public QWidget {
  Q_OBJECT

 public:
  HistoryPanel(Session& session, CheckHistory& history, QWidget* parent = nullptr);

  QListView& checks() { return *checks_; }
  QListView& turns() { return *turns_; }
  QString heading() const { return heading_->text(); }
  /// The newest against the one before again.
  void showNewest();

 private:
  QListView* makeList(QAbstractItemModel& model, const QString& name);
  void build();
  void showChecks();
  void compareChosen();
  std::vector<int> chosenRows() const;

  Session& session_;
  CheckHistory& history_;
  HistoryModel checksModel_;
  ComparisonModel turnsModel_;
  QLabel* about_;
  QLabel* heading_;
  QLabel* summary_;
  QListView* checks_;
  QListView* turns_;
  QFrame* line_;  ///< Between the two lists.
  bool filling_ = false;
};

}  // namespace swingroom
