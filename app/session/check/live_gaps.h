#pragma once

#include <QObject>
#include <memory>
#include <optional>

#include "app/session/choice.h"
#include "app/session/latest_worker.h"
#include "app/session/scene.h"

namespace swingroom {

/// The chosen pair as it stands.
struct PairNow {
  PartPair pair;
  bool meets = false;
  std::optional<double> gapMm;    ///< None: it meets, or no surface is left to measure.
  std::optional<double> depthMm;  ///< Of the overlap, within 0.02 mm; none: not (yet) known.
  /// On the first and the second part; in an overlap the deepest point and its way out. None where
  /// not known.
  std::optional<std::array<Vector3d, 2>> points_W;
  bool late = false;  ///< Of how everything stood before; the answer for now comes after it.
};

/// Measures in the background how the assembly stands now. A newer question replaces one that
/// waits, so that the answers keep up with a needle that is dragged.
class LiveGaps : public QObject {
  Q_OBJECT

 public:
  explicit LiveGaps(QObject* parent = nullptr) : QObject(parent) {}

  struct Question {
    ScenePtr scene;
    Configuration standing;
    std::optional<PartPair> pair;  ///< Measured first, at any distance.
    bool all = false;              ///< All near pairs too.
  };
  void ask(const Question& question);

 Q_SIGNALS:
  /// First the gap, then, for an overlap, once more with its depth. While a needle is dragged an
  /// answer may be late: that is better than none.
  void pairMeasured(const PairNow& now);
  void allMeasured(const std::vector<StandingGap>& near);

 private:
  void answerPair(const Question& question, std::size_t number);
  void answerAll(const Question& question);
  void give(const Question& question, const PairNow& now);

  std::atomic<std::size_t> asked_ = 0;
  Question latest_;  ///< For this object's thread.
  GapMemory memory_;     ///< For `allWorker_`'s thread, as the scene it is of.
  ScenePtr remembered_;
  LatestWorker depthWorker_;  ///< Some depths take seconds: gaps must not wait for them.
  LatestWorker pairWorker_;
  LatestWorker allWorker_;  ///< Steps back: the chosen pair must not wait for it.
};

}  // namespace swingroom
