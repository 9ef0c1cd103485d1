#pragma once

#include <QObject>
#include <optional>
#include <vector>

#include "app/viewport/viewport.h"
#include "core/base/standard_view.h"

namespace swingroom {

/// The mouse on a drawing in the view, while the eye looks at its side in parallel: drags it, or
/// picks two points of it. Turned away, the mouse does in the view what it always does.
class DrawingHand : public QObject {
  Q_OBJECT

 public:
  enum class Use { none, move, points };

  /// Belongs to its owner, not to the view.
  explicit DrawingHand(Viewport& view);

  void setAxes(const ViewAxes& axes) { axes_ = axes; }
  void setUse(Use use);
  Use use() const { return use_; }
  /// Of those picked, mm in the view; two at most.
  const std::vector<Eigen::Vector2d>& points() const { return points_; }

 Q_SIGNALS:
  void useChanged();
  /// From where it was pressed, mm in the view.
  void dragged(const Eigen::Vector2d& by);
  void dropped();
  void pointsChanged();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  bool isFaced() const;
  Eigen::Vector2d placeOf(const QPointF& pixel) const;
  bool press(const QPointF& pixel);

  Viewport& view_;
  ViewAxes axes_{Vector3d::UnitX(), Vector3d::UnitZ(), Vector3d::UnitY()};
  Use use_ = Use::none;
  std::optional<Eigen::Vector2d> held_;
  bool pressed_ = false;
  std::vector<Eigen::Vector2d> points_;
};

}  // namespace swingroom
