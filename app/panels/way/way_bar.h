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
