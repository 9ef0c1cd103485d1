#pragma once

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QWidget>

#include "app/session/session.h"

namespace swingroom {

/// Over the line: which way is shown, run, all modes to stand in, and where the needle is.
class WayBar : public QWidget {
  Q_OBJECT

 public:
  explicit WayBar(Session& session, QWidget* parent = nullptr);

  QComboBox& chooser() { return *chooser_; }
  /// Stands in a mode: at an end of the shown way if it is one of its, else of the first that has
  /// it.
  void goToMode(ModeId mode);

 private:
  void showScene();
  void showStand();

  Session& session_;
  QComboBox* chooser_;
  QPushButton* run_;
  QHBoxLayout* modes_;
  QLabel* where_;
};

}  // namespace swingroom
