#include "app/session/check/free_spans.h"

#include <algorithm>

namespace swingroom {
namespace {

constexpr int kCalmMs = 40;
constexpr double kSameStand = 1e-9;  ///< Rad or mm: rounding on the way there and back.

bool isSame(const Configuration& a, const Configuration& b) {
  if (a.values.size() != b.values.size() || a.mounts != b.mounts) return false;
  for (std::size_t j = 0; j < a.values.size(); ++j) {
    if ((a.values[j] - b.values[j]).cwiseAbs().maxCoeff() > kSameStand) return false;
  }
  return true;
}

}  // namespace

FreeSpans::FreeSpans(Stand& stand, Choice& choice, QObject* parent)
    : QObject(parent), stand_(stand), choice_(choice) {
  calm_.setSingleShot(true);
  calm_.setInterval(kCalmMs);
  connect(&calm_, &QTimer::timeout, this, [this] { ask(wanted()); });
  connect(&stand_, &Stand::moved, this, &FreeSpans::onMoved);
  connect(&choice_, &Choice::changed, this, &FreeSpans::onMoved);
}

FreeSpans::~FreeSpans() {
  if (monitor_) monitor_->cancel();
}

std::vector<DriveRange> FreeSpans::wanted() const {
  const ScenePtr& scene = stand_.scene();
  const auto part = choice_.part();
  if (!scene || !part || choice_.parts().size() != 1 || stand_.isRunning()) return {};
  std::vector<DriveRange> drives = drivesOf(*scene, stand_.standing(), *part);
  for (std::size_t i = 0; i < drives.size(); ++i) {
    const JointId joint = drives[i].drive.joint;
    if (scene->assembly().joint(joint).type != JointType::ball || drives[i].drive.component != 2)
      continue;
    const auto turns = ballTurnsOf(*scene, joint);
    drives.insert(drives.end(), turns.begin(), turns.end());
  }
  return drives;
}

bool FreeSpans::holds(const Known& known) const {
  if (asked_.scene != stand_.scene() || !asked_.scene) return false;
  if (isSame(asked_.standing, stand_.standing())) return true;
  if (known.drive.about) return false;  // Its number is of where it stood.
  const double now = driven(known.drive, stand_.standing());
  if (now < known.travel.down.freeTo - kSameStand || now > known.travel.up.freeTo + kSameStand)
    return false;
  return isSame(drivenTo(asked_.scene->assembly(), asked_.standing, known.drive, now),
                stand_.standing());
}

const FreeTravel* FreeSpans::of(const JointDrive& drive) const {
  for (const Known& known : known_) {
    if (known.drive == drive) return holds(known) ? &known.travel : nullptr;
  }
  return nullptr;
}

void FreeSpans::onMoved() {
  const std::vector<DriveRange> drives = wanted();
  const bool all = !drives.empty() &&
                   std::all_of(drives.begin(), drives.end(),
                               [&](const DriveRange& range) { return of(range.drive) != nullptr; });
  if (all) return;
  if (monitor_) monitor_->cancel();
  if (drives.empty()) {
    calm_.stop();
    if (known_.empty()) return;
    known_.clear();
    Q_EMIT changed();
  } else {
    calm_.start();
  }
}

void FreeSpans::askNow(const DriveRange& first) {
  const auto has = [&](const std::vector<DriveRange>& drives) {
    return std::find(drives.begin(), drives.end(), first) != drives.end();
  };
  const bool same = asked_.scene == stand_.scene() && isSame(asked_.standing, stand_.standing());
  if (same && has(asked_.drives) && !monitor_->cancelled()) return;
  std::vector<DriveRange> drives = wanted();
  if (!has(drives)) drives = {first};
  std::stable_partition(drives.begin(), drives.end(),
                        [&](const DriveRange& range) { return range == first; });
  calm_.stop();
  ask(std::move(drives));
}

void FreeSpans::ask(std::vector<DriveRange> drives) {
  const std::size_t number = ++number_;
  if (monitor_) monitor_->cancel();
  const bool knew = !known_.empty();
  known_.clear();
  asked_ = {stand_.scene(), stand_.standing(), std::move(drives)};
  if (knew) Q_EMIT changed();
  if (!asked_.scene || asked_.drives.empty()) return;
  monitor_ = std::make_shared<WorkMonitor>();
  worker_.ask([this, number, asked = asked_, monitor = monitor_] {
    stepBack();
    const Scene& scene = *asked.scene;
    for (const auto& [drive, least, greatest] : asked.drives) {
      Known known{drive, freeTravel(scene.assembly(), scene.gaps, asked.standing,
                                    {drive, least, greatest}, *monitor)};
      if (monitor->cancelled()) return;
      QMetaObject::invokeMethod(
          this, [this, number, known = std::move(known)] { take(number, known); },
          Qt::QueuedConnection);
    }
  });
}

void FreeSpans::take(std::size_t number, const Known& known) {
  if (number != number_) return;
  known_.push_back(known);
  Q_EMIT changed();
}

}  // namespace swingroom
