#pragma once

#include <QFrame>
#include <array>

#include "app/session/session.h"
#include "app/viewport/viewport.h"

class QDoubleSpinBox;
class QHBoxLayout;
class QPushButton;
class QSlider;

namespace swingroom {

/// A small card in the view while it is cut open: which way the plane lies, where, and which side
/// is taken away.
class SectionCard : public QFrame {
  Q_OBJECT

 public:
  /// Square to the way the assembly faces; upright, from front to back; as the bed lies.
  enum class Way { across, along, level };

  SectionCard(Session& session, Viewport& view);

  /// On: through the middle of what is chosen, or of all; the side towards the eye is taken away.
  void setOn(bool on);
  bool isOn() const { return on_; }
  void setWay(Way way);
  void flip();
  /// mm along the way's axis, from the origin; kept to where there is something.
  void setPlace(double mm);

  QPushButton& wayButton(Way way) { return *ways_[static_cast<std::size_t>(way)]; }
  QSlider& slider() { return *slider_; }
  QDoubleSpinBox& place() { return *place_; }

 Q_SIGNALS:
  void toggled(bool on);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void addWays(QHBoxLayout& row);
  void addPlace(QHBoxLayout& row);
  void addSides(QHBoxLayout& row);
  Vector3d axis_W() const;
  Vector3d across_W() const;
  void centre();
  void turnToEye();
  void takeRange();
  void showPlane();
  void standInCorner();

  Session& session_;
  Viewport& view_;
  std::array<QPushButton*, 3> ways_{};
  QSlider* slider_ = nullptr;
  QDoubleSpinBox* place_ = nullptr;
  bool on_ = false;
  Way way_ = Way::across;
  bool flipped_ = false;  ///< What lies before the plane is taken away, not what lies beyond.
  double placeMm_ = 0;
  double fromMm_ = 0, toMm_ = 0;
};

}  // namespace swingroom
