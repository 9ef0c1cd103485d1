#include "app/session/rig/joint_hand.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace swingroom {

JointHand::JointHand(Stand& stand, FreeSpans& spans, QObject* parent)
    : QObject(parent), stand_(stand), spans_(spans) {
  connect(&spans_, &FreeSpans::changed, this, [this] {
    if (held_ && !travel_ && wanted_) follow();
  });
  connect(&stand_, &Stand::moved, this, [this] {
    if (stand_.scene() != scene_) drop();
  });
}

void JointHand::setStops(bool stops) {
  if (std::exchange(stops_, stops) == stops) return;
  Q_EMIT stopsChanged(stops);
}

void JointHand::take(const DriveRange& range) {
  drop();
  if (!stand_.scene()) return;
  stand_.setRunning(false);
  scene_ = stand_.scene();
  start_ = stand_.standing();
  wasByHand_ = stand_.isByHand();
  held_ = range;
  number_ = driven(range.drive, start_);
  stoppedBy_.reset();
  if (const FreeTravel* known = spans_.of(range.drive)) travel_ = *known;
  Q_EMIT changed();
}

void JointHand::moveTo(double wanted, bool goPast) {
  if (!held_ || !std::isfinite(wanted)) return;
  wanted_ = std::clamp(wanted, held_->least, held_->greatest);
  goPast_ = goPast || !stops_;
  follow();
}

void JointHand::follow() {
  const JointDrive& drive = held_->drive;
  double to = *wanted_;
  stoppedBy_.reset();
  if (!goPast_) {
    if (!travel_) {
      const FreeTravel* known = spans_.of(drive);
      // Till it is known how far it goes, it stands where it was taken.
      if (!known) return spans_.askNow(*held_);
      travel_ = *known;
    }
    const double stopped = std::clamp(to, travel_->down.freeTo, travel_->up.freeTo);
    if (stopped != to) stoppedBy_ = stopped < to ? travel_->up.stop : travel_->down.stop;
    to = stopped;
  }
  const JointValue moved = drivenTo(drive, start_.values[drive.joint.index], to);
  wanted_.reset();
  number_ = to;
  stand_.moveJoint(drive.joint, moved);
  if (leaving_) return drop();
  Q_EMIT changed();
}

void JointHand::letGo() {
  // A quick hand: the way there comes in a moment.
  if (held_ && wanted_ && !travel_) {
    leaving_ = true;
    return;
  }
  drop();
}

void JointHand::drop() {
  if (!held_) return;
  held_.reset();
  travel_.reset();
  wanted_.reset();
  leaving_ = false;
  Q_EMIT changed();
}

void JointHand::putBack() {
  if (!held_ || stand_.scene() != scene_) return;
  const JointDrive drive = held_->drive;
  const Configuration start = start_;
  stoppedBy_.reset();
  drop();
  if (!wasByHand_) {
    stand_.moveTo(stand_.instant());
  } else {
    stand_.moveJoint(drive.joint, start.values[drive.joint.index]);
  }
}

}  // namespace swingroom
