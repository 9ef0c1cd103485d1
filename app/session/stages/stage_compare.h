#pragma once

#include <QObject>
#include <memory>
#include <string>

#include "app/session/latest_worker.h"
#include "app/session/session.h"
#include "core/measure/stage_gaps.h"
#include "core/stages/round_change.h"
#include "core/stages/surface_change.h"

namespace swingroom {

/// A part's two stages, compared. Fixed once made. mm, in the part's frame.
struct ComparedStages {
  std::string part;
  std::shared_ptr<const TriangleMesh> block, detail;
  SurfaceChange ofDetail;  ///< The detail's places against the block: + is outward.
  SurfaceChange ofBlock;   ///< The block's places against the detail: + is material that is gone.
  std::vector<RoundChange> rounds;  ///< Those that changed.
  std::optional<double> blockMm3, detailMm3;  ///< Of closed ones whose shells keep apart.
  Problems notes;                             ///< What is wrong with the detail.
};

/// Compares a part's block and detail in the background: first the surfaces, then holes and pins,
/// then the gaps of its pairs with the one and with the other.
class StageCompare : public QObject {
  Q_OBJECT

 public:
  enum class State { none, surfaces, gaps, done, failed };

  /// @param session  Outlives this. A comparison ends when its part, or one of its files, changes.
  StageCompare(Session& session, MeshReader reader, std::shared_ptr<ResultStore> results,
               QObject* parent = nullptr);
  ~StageCompare() override;

  /// By its name: it goes on when the scene is made anew.
  void compare(const std::string& part);
  void close();

  State state() const { return state_; }
  const std::string& part() const { return part_; }
  /// Null: not yet.
  const std::shared_ptr<const ComparedStages>& compared() const { return compared_; }
  /// Empty until it is `done`.
  const std::vector<GapChange>& gaps() const { return gaps_; }
  const Problems& problems() const { return problems_; }
  /// Which of the two is in use in the scene: the view shows that one.
  bool showsDetail() const;

 Q_SIGNALS:
  void changed();

 private:
  struct Run;

  void begin();
  void onScene();
  static void work(StageCompare* self, const std::shared_ptr<Run>& run);
  void give(const std::shared_ptr<Run>& run, const std::function<void()>& take);
  void fail(const Problems& problems);

  Session& session_;
  MeshReader reader_;
  std::shared_ptr<ResultStore> results_;
  MeshMemory memory_;
  State state_ = State::none;
  std::string part_;
  std::shared_ptr<const ComparedStages> compared_;
  std::vector<GapChange> gaps_;
  Problems problems_;
  std::shared_ptr<Run> run_;
  LatestWorker worker_;
};

}  // namespace swingroom
