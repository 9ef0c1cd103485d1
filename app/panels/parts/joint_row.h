#pragma once

#include <QLabel>
#include <QWidget>

#include "app/panels/parts/travel_slider.h"
#include "app/session/session.h"

class QDoubleSpinBox;

namespace swingroom {

/// One joint, or one number of a ball: its slider, its number, and how far it goes.
class JointRowView : public QWidget {
  Q_OBJECT

 public:
  /// @param name  As shown.
  /// @param follows  Another joint moves it.
  JointRowView(Session& session, const DriveRange& range, const QString& name, bool follows,
               QWidget* parent = nullptr);

  TravelSlider& slider() { return *slider_; }
  QDoubleSpinBox& number() { return *box_; }
  const QLabel& words() const { return *words_; }
  /// As everything stands now.
  void showStand();
  /// What is known of how far it goes.
  void showTravel();

 Q_SIGNALS:
  /// A number was typed, in degrees or mm: by it one may go anywhere in the range.
  void numberTyped(double value);

 private:
  double shareOf(double number) const;
  void connectSlider();

  Session& session_;
  DriveRange range_;
  bool isAngle_;
  TravelSlider* slider_;
  QDoubleSpinBox* box_;
  QLabel* words_;
  bool following_ = false;
};

}  // namespace swingroom
