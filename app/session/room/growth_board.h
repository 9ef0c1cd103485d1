#pragma once

#include <QObject>
#include <memory>
#include <optional>

#include "app/session/latest_worker.h"
#include "app/session/session.h"
#include "core/room/growth.h"

namespace swingroom {

/// How far one part may grow: as a whole about a point, and all of its surface outward. Asked for,
/// then worked out in the background. Dropped when what was asked has changed.
class GrowthBoard : public QObject {
  Q_OBJECT

 public:
  explicit GrowthBoard(Session& session, QObject* parent = nullptr);
  /// Does not wait for what is being worked out.
  ~GrowthBoard() override;

  /// What is known of the same part stays: for another point only the scale is worked out again.
  /// @param centre_P  In the part's frame.
  void ask(PartId part, const Vector3d& centre_P);
  void drop();
  /// What is under way is left; what is known stays.
  void stop();

  bool isLooking() const { return run_ != nullptr; }
  /// Whose growth is asked or known, in `scene()`.
  const std::optional<PartId>& part() const { return part_; }
  const ScenePtr& scene() const { return scene_; }
  const Vector3d& centre_P() const { return centre_P_; }
  const GrowthSettings& settings() const { return settings_; }
  /// None: not known yet.
  const std::optional<GrowthLimit>& scale() const { return scale_; }
  const std::optional<GrowthLimit>& offset() const { return offset_; }
  const QString& failure() const { return failure_; }

 Q_SIGNALS:
  void changed();

 private:
  struct Run {
    WorkMonitor monitor;
  };
  using Limit = std::optional<GrowthLimit>;
  void take(const std::shared_ptr<Run>& run, Limit GrowthBoard::*which, const GrowthLimit& limit);
  void end(const std::shared_ptr<Run>& run, const QString& failure);
  void cancel();
  void takeScene();

  Session& session_;
  GrowthSettings settings_;
  ScenePtr scene_;
  std::optional<PartId> part_;
  Vector3d centre_P_ = Vector3d::Zero();
  Limit scale_, offset_;
  QString failure_;
  std::shared_ptr<Run> run_;  ///< Null: nothing is under way.
  LatestWorker worker_;
};

}  // namespace swingroom
