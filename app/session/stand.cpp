#include "app/session/stand.h"

#include <algorithm>
#include <cmath>

#include "app/session/place_on_way.h"
#include "app/session/same_motion.h"
#include "core/motion/joint_drive.h"

namespace swingroom {
namespace {

constexpr int kFrameMs = 16;
constexpr double kSecondsAStep = 1.2;  ///< Slow enough to follow one move with the eye.

}  // namespace

double nextBead(double instant, std::size_t steps, bool forward) {
  const double count = static_cast<double>(std::max<std::size_t>(1, steps));
  const double at = instant * count;
  constexpr double kOnBead = 1e-6;
  const double bead = forward ? std::floor(at + kOnBead) + 1 : std::ceil(at - kOnBead) - 1;
  return std::clamp(bead / count, 0.0, 1.0);
}

Stand::Stand(QObject* parent) : QObject(parent) {
  timer_.setInterval(kFrameMs);
  timer_.setTimerType(Qt::PreciseTimer);
  connect(&timer_, &QTimer::timeout, this, &Stand::tick);
}

std::size_t Stand::steps() const {
  return scene_ ? scene_->ways[way_].steps.size() : 1;
}

void Stand::setScene(ScenePtr scene) {
  std::optional<WayPlace> place;
  if (scene_ && scene) place = samePlace(*scene_, {way_, instant_}, *scene);
  // An edit leaves the joints where a hand has put them.
  if (!scene_ || !scene || !place || !sameAssembly(*scene_, *scene)) byHand_.reset();
  scene_ = std::move(scene);
  way_ = place ? place->way : 0;
  instant_ = place ? place->instant : 0;
  if (byHand_) {
    // It may have brought the way to where they are.
    if (const auto there = instantOf(scene_->assembly(), scene_->ways[way_], *byHand_)) {
      instant_ = *there;
      byHand_.reset();
    }
  }
  Q_EMIT wayChanged();
  refresh();
}

void Stand::showWay(std::size_t way) {
  if (!scene_ || way >= scene_->ways.size() || way == way_) return;
  setRunning(false);
  way_ = way;
  instant_ = 0;
  byHand_.reset();
  Q_EMIT wayChanged();
  refresh();
  Q_EMIT wayChosen();
}

void Stand::standIn(ModeId mode) {
  if (!scene_) return;
  std::vector<std::size_t> order{way_};
  for (std::size_t w = 0; w < scene_->ways.size(); ++w) order.push_back(w);
  for (const std::size_t w : order) {
    const Sequence& way = scene_->ways[w];
    if (way.from != mode && way.to != mode) continue;
    const bool isStart = way.from == mode;  // The way may go with another scene.
    setRunning(false);
    showWay(w);
    moveTo(isStart ? 0 : 1);
    return;
  }
}

void Stand::moveTo(double instant) {
  if (!std::isfinite(instant)) return;
  instant = std::clamp(instant, 0.0, 1.0);
  if (instant == instant_ && !byHand_) return;
  instant_ = instant;
  byHand_.reset();
  refresh();
}

void Stand::moveJoint(JointId joint, const JointValue& value) {
  if (!scene_ || joint.index >= standing_.values.size() || !value.allFinite()) return;
  if (standing_.values[joint.index] == value) return;
  setRunning(false);
  byHand_ = standing_;
  byHand_->values[joint.index] = value;
  letFollow(scene_->assembly(), *byHand_);
  refresh();
}

void Stand::refresh() {
  if (!scene_) {
    standing_ = {};
  } else {
    standing_ =
        byHand_ ? *byHand_ : configurationAt(scene_->assembly(), scene_->ways[way_], instant_);
  }
  Q_EMIT moved();
}

void Stand::setRunning(bool running) {
  if (running == timer_.isActive() || (running && !scene_)) return;
  if (running) {
    if (instant_ >= 1) moveTo(0);
    sinceTick_.start();
    timer_.start();
  } else {
    timer_.stop();
  }
  Q_EMIT runningChanged(running);
}

void Stand::tick() {
  // A slow frame must not become a jump over what there is to see.
  const double seconds = std::min(0.1, static_cast<double>(sinceTick_.restart()) / 1000.0);
  const double wholeWay = kSecondsAStep * static_cast<double>(steps());
  const double next = instant_ + seconds / wholeWay;
  moveTo(next);
  if (next >= 1) setRunning(false);
}

}  // namespace swingroom
