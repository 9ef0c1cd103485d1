#pragma once

#include <QObject>
#include <QTimer>
#include <memory>
#include <optional>

#include "app/session/latest_worker.h"
#include "app/session/session.h"
#include "core/room/room_map.h"

namespace swingroom {

/// How much room one part has everywhere on its surface: asked for, then worked out in the
/// background, coarse first. What is known goes on being shown when the document changes: it is
/// then old, unless nothing of what was asked has changed.
class RoomBoard : public QObject {
  Q_OBJECT

 public:
  enum class State { empty, looking, stopped, done, failed };

  explicit RoomBoard(Session& session, QObject* parent = nullptr);
  /// Does not wait for what is being worked out.
  ~RoomBoard() override;

  /// Begins anew; what was being worked out is dropped. What is known of the same part as it is now
  /// stays until there is something better.
  /// @param resolutionMm  Above 0.
  void ask(PartId part, double resolutionMm);
  /// What is known so far stays.
  void stop();
  void drop();

  State state() const { return state_; }
  /// Whose room is asked or known, in `scene()`.
  const std::optional<PartId>& part() const { return part_; }
  /// By which ids mean what in the map; null: nothing was asked.
  const ScenePtr& scene() const { return scene_; }
  /// The finest stage so far; null: none yet.
  const std::shared_ptr<const RoomMap>& map() const { return map_; }
  double wantedMm() const { return wantedMm_; }
  /// Of what was asked last, 0 to 1.
  double share() const;
  /// Something of what was asked has changed since.
  bool isOld() const { return part_ && isOld_; }
  /// The part in the scene that is open now; none: it is there no more.
  std::optional<PartId> partNow() const;
  const QString& failure() const { return failure_; }

 Q_SIGNALS:
  void changed();
  /// A few times a second while it is looked.
  void progressed();

 private:
  struct Run;
  void takeScene();
  void takeStage(const std::shared_ptr<Run>& run, const std::shared_ptr<const RoomMap>& map);
  void end(const std::shared_ptr<Run>& run, const QString& failure);
  void cancel();

  Session& session_;
  State state_ = State::empty;
  ScenePtr scene_;
  std::optional<PartId> part_;
  std::shared_ptr<const RoomMap> map_;
  double wantedMm_ = 0;
  bool isOld_ = false;
  QString failure_;
  std::shared_ptr<Run> run_;  ///< Null: nothing is under way.
  QTimer pulse_;
  LatestWorker worker_;
};

}  // namespace swingroom
