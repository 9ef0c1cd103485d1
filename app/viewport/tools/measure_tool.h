#pragma once

#include <QObject>
#include <functional>
#include <optional>
#include <vector>

#include "app/viewport/tools/measure_snap.h"

namespace swingroom {

class Viewport;

/// Measuring in the view: two clicks, and what lies between. While it is on, clicks choose no
/// parts; turning and zooming go on. A third click begins anew; Escape ends it, Ctrl+C copies the
/// figures.
class MeasureTool : public QObject {
  Q_OBJECT

 public:
  /// @param snap  What a place in the widget points at.
  MeasureTool(Viewport& view, std::function<std::optional<SnapPoint>(const QPointF&)> snap,
              std::function<void()> changed);

  void setOn(bool on);
  bool isOn() const { return on_; }
  void setAxes(const Vector3d& up, const Vector3d& front);
  /// Takes a click; false: it is off, and the click is for others.
  bool click(const QPointF& place);
  /// Forgets its points: the parts stand elsewhere now.
  void clear();

  /// What is measured; none: not two points yet.
  std::optional<Measured> figures() const;
  /// The same in words, or nothing.
  QString text() const;
  /// What the view shows: its line, and marks at the points.
  std::optional<ViewDimension> dimension() const;
  std::vector<SnapPoint> marks() const;

 Q_SIGNALS:
  void onChanged(bool on);
  /// The second point is there, or there are no longer two.
  void measuredChanged();

 protected:
  bool eventFilter(QObject* object, QEvent* event) override;

 private:
  Viewport& view_;
  std::function<std::optional<SnapPoint>(const QPointF&)> snap_;
  std::function<void()> changed_;
  bool on_ = false;
  Vector3d up_ = Vector3d::UnitZ(), front_ = Vector3d::UnitX();
  std::vector<SnapPoint> taken_;  ///< Two at most.
  std::optional<SnapPoint> under_;
};

}  // namespace swingroom
