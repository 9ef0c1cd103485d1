#pragma once

#include <QObject>
#include <QTimer>
#include <memory>
#include <vector>

#include "app/session/choice.h"
#include "app/session/latest_worker.h"
#include "app/session/rig/joint_ranges.h"
#include "app/session/stand.h"
#include "core/sweep/free_travel.h"

namespace swingroom {

/// How far the chosen part's joints go each way before parts touch, worked out in the background as
/// soon as everything stands still for a moment.
class FreeSpans : public QObject {
  Q_OBJECT

 public:
  /// @param stand, choice  Outlive this.
  FreeSpans(Stand& stand, Choice& choice, QObject* parent = nullptr);
  ~FreeSpans() override;

  /// Null: not known as everything stands now. What is known of a joint holds while it alone moves
  /// within what is free; its touches are then of where it stood when it was asked.
  const FreeTravel* of(const JointDrive& drive) const;
  /// Asks at once, this one first, unless it is on its way already.
  void askNow(const DriveRange& first);

 Q_SIGNALS:
  /// More is known, or less.
  void changed();

 private:
  struct Known {
    JointDrive drive;
    FreeTravel travel;
  };
  /// What is asked or known, and how everything stood.
  struct Asked {
    ScenePtr scene;
    Configuration standing;
    std::vector<DriveRange> drives;
  };

  void onMoved();
  void ask(std::vector<DriveRange> drives);
  std::vector<DriveRange> wanted() const;
  bool holds(const Known& known) const;
  void take(std::size_t number, const Known& known);

  Stand& stand_;
  Choice& choice_;
  QTimer calm_;
  Asked asked_;
  std::vector<Known> known_;
  std::size_t number_ = 0;  ///< Of the last question.
  std::shared_ptr<WorkMonitor> monitor_;
  LatestWorker worker_;
};

}  // namespace swingroom
