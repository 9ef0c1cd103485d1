#pragma once

#include <QSlider>
#include <optional>
#include <vector>

namespace swingroom {

/// What a slider of a joint shows besides where it stands: shares of its range, 0 to 1.
struct TravelMarks {
  /// Proven free; none: not known.
  std::optional<double> freeFrom, freeTo;
  bool touchesBelow = false,
       touchesAbove = false;  ///< What ends the free span; else the range does.
  std::vector<double> clicks;

  bool operator==(const TravelMarks&) const = default;
};

/// A slider of a joint: its range as a groove, what is proven free as a band, the touching ends as
/// marks, clicks as notches. Where it stands is told by its owner; it only says what is wanted.
class TravelSlider : public QSlider {
  Q_OBJECT

 public:
  static constexpr int kNotches = 1000;  ///< Over the range.

  explicit TravelSlider(QWidget* parent = nullptr);

  void setMarks(const TravelMarks& marks);
  const TravelMarks& marks() const { return marks_; }
  /// Where the joint stands, as a share of the range.
  void setStand(double share);
  double stand() const { return stand_; }
  /// Place of a share, in the slider's own pixels.
  double xAt(double share) const;
  bool isTaken() const { return taken_; }

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 Q_SIGNALS:
  void taken();
  /// By the mouse between `taken` and `letGo`, or alone by a key.
  void wanted(double share);
  void letGo();
  /// Escape while the mouse holds it.
  void putBackWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  bool event(QEvent* event) override;

 private:
  double shareAt(double x) const;
  void paintGroove(QPainter& painter) const;
  void paintHandle(QPainter& painter) const;

  TravelMarks marks_;
  double stand_ = 0;
  bool taken_ = false;
  double grabbedOffPx_ = 0;
};

}  // namespace swingroom
