#include "app/session/room/room_board.h"

#include <atomic>

#include "app/session/same_motion.h"

namespace swingroom {
namespace {

constexpr int kPulseMs = 150;

}  // namespace

/// What the worker's thread and the window's share.
struct RoomBoard::Run {
  std::atomic<double> share = 0;
  WorkMonitor monitor{[this](std::size_t done, std::size_t total) {
    share = total > 0 ? static_cast<double>(done) / static_cast<double>(total) : 0;
  }};
};

RoomBoard::RoomBoard(Session& session, QObject* parent) : QObject(parent), session_(session) {
  pulse_.setInterval(kPulseMs);
  connect(&pulse_, &QTimer::timeout, this, &RoomBoard::progressed);
  connect(&session, &Session::sceneChanged, this, &RoomBoard::takeScene);
}

RoomBoard::~RoomBoard() {
  if (run_) run_->monitor.cancel();
}

double RoomBoard::share() const {
  return run_ ? run_->share.load() : state_ == State::done ? 1 : 0;
}

std::optional<PartId> RoomBoard::partNow() const {
  const ScenePtr& now = session_.scene();
  if (!part_ || !now) return std::nullopt;
  if (now == scene_) return part_;
  return now->assembly().findPart(scene_->assembly().part(*part_).name);
}

void RoomBoard::cancel() {
  if (run_) run_->monitor.cancel();
  run_.reset();
  pulse_.stop();
}

void RoomBoard::ask(PartId part, double resolutionMm) {
  cancel();
  const ScenePtr scene = session_.scene();
  if (!scene || part.index >= scene->geometry.size() || !scene->geometry[part.index]) return drop();
  if (isOld() || scene_ != scene || part_ != part) map_.reset();
  scene_ = scene;
  part_ = part;
  wantedMm_ = resolutionMm;
  isOld_ = false;
  failure_.clear();
  state_ = State::looking;
  run_ = std::make_shared<Run>();
  pulse_.start();
  const auto back = [this, run = run_](const QString& failure) {
    QMetaObject::invokeMethod(
        this, [this, run, failure] { end(run, failure); }, Qt::QueuedConnection);
  };
  worker_.ask(
      [this, back, run = run_, scene, part, resolutionMm] {
        stepBack();  // Someone waits for it.
        const RoomSubject subject{scene->assembly(), scene->ways, scene->geometry, part};
        RoomSettings settings;
        settings.resolutionMm = resolutionMm;
        const auto give = [&](const RoomMap& stage) {
          QMetaObject::invokeMethod(
              this,
              [this, run, map = std::make_shared<const RoomMap>(stage)] { takeStage(run, map); },
              Qt::QueuedConnection);
        };
        if (!run->monitor.cancelled()) roomMap(subject, settings, run->monitor, give);
        back({});
      },
      [back](const std::string& why) { back(QString::fromStdString(why)); });
  Q_EMIT changed();
}

void RoomBoard::takeStage(const std::shared_ptr<Run>& run,
                          const std::shared_ptr<const RoomMap>& map) {
  if (run != run_) return;  // Something else is wanted by now.
  // A finer one of the same place stays while the first, coarse ones come again.
  const bool finer = !map_ || map_->resolutionMm == 0 || map->done ||
                     (map->resolutionMm > 0 && map->resolutionMm <= map_->resolutionMm);
  if (!finer) return;
  map_ = map;
  Q_EMIT changed();
}

void RoomBoard::end(const std::shared_ptr<Run>& run, const QString& failure) {
  if (run != run_) return;
  cancel();
  failure_ = failure;
  state_ = failure.isEmpty() ? State::done : State::failed;
  Q_EMIT changed();
}

void RoomBoard::stop() {
  if (!run_) return;
  cancel();
  state_ = State::stopped;
  Q_EMIT changed();
}

void RoomBoard::drop() {
  cancel();
  const bool had = part_.has_value();
  part_.reset();
  scene_.reset();
  map_.reset();
  state_ = State::empty;
  if (had) Q_EMIT changed();
}

void RoomBoard::takeScene() {
  if (!part_) return;
  const ScenePtr& now = session_.scene();
  const auto part = partNow();
  const bool sameSurface =
      part && now->geometry[part->index] &&
      now->geometry[part->index]->surface == scene_->geometry[part_->index]->surface;
  if (!sameSurface && state_ != State::looking) return drop();  // It could not be shown on it.
  if (!part) return drop();
  if (!isOld_ && sameSurface && sameAskedOf(*part_, *scene_, *now)) {
    scene_ = now;
    if (map_) part_ = part;
    return Q_EMIT changed();
  }
  if (state_ == State::looking) return ask(*part, wantedMm_);
  isOld_ = true;
  Q_EMIT changed();
}

}  // namespace swingroom
