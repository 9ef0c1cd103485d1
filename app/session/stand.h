#pragma once

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>
#include <optional>

#include "app/session/scene.h"

namespace swingroom {

/// Where the assembly stands: at an instant of a way, or as joints were moved by hand.
class Stand : public QObject {
  Q_OBJECT

 public:
  explicit Stand(QObject* parent = nullptr);

  /// Goes on standing where it did, as far as the new scene has that: see `samePlace`.
  void setScene(ScenePtr scene);
  const ScenePtr& scene() const { return scene_; }

  std::size_t way() const { return way_; }
  double instant() const { return instant_; }
  /// Joints were moved away from the way: `instant` is where the needle was left.
  bool isByHand() const { return byHand_.has_value(); }
  /// Empty without a scene.
  const Configuration& standing() const { return standing_; }
  std::size_t steps() const;
  bool isRunning() const { return timer_.isActive(); }

  void showWay(std::size_t way);
  /// Stands in a mode: at an end of the shown way if it is one of its, else of the first that has
  /// it.
  void standIn(ModeId mode);
  /// Ends what was by hand. Clamped to 0 to 1.
  void moveTo(double instant);
  /// Moves one joint from where everything stands; parts that hang on it and followers go with it.
  void moveJoint(JointId joint, const JointValue& value);
  /// Runs from here to the end (from the end: from the start), or stops.
  void setRunning(bool running);

 Q_SIGNALS:
  /// Another way, or another scene's.
  void wayChanged();
  /// Another way of the same scene, by `showWay`.
  void wayChosen();
  void moved();
  void runningChanged(bool running);

 private:
  void refresh();
  void tick();

  ScenePtr scene_;
  std::size_t way_ = 0;
  double instant_ = 0;
  std::optional<Configuration> byHand_;
  Configuration standing_;
  QTimer timer_;
  QElapsedTimer sinceTick_;
};

/// The instant of the next bead (a step's end) in a direction, or of the way's end.
double nextBead(double instant, std::size_t steps, bool forward);

}  // namespace swingroom
