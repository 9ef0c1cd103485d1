#include "app/session/room/growth_board.h"

#include "app/session/same_motion.h"

namespace swingroom {

GrowthBoard::GrowthBoard(Session& session, QObject* parent) : QObject(parent), session_(session) {
  connect(&session, &Session::sceneChanged, this, &GrowthBoard::takeScene);
}

GrowthBoard::~GrowthBoard() {
  if (run_) run_->monitor.cancel();
}

void GrowthBoard::cancel() {
  if (run_) run_->monitor.cancel();
  run_.reset();
}

void GrowthBoard::stop() {
  if (!run_) return;
  cancel();
  Q_EMIT changed();
}

void GrowthBoard::drop() {
  cancel();
  const bool had = part_.has_value();
  part_.reset();
  scene_.reset();
  scale_.reset(), offset_.reset();
  if (had) Q_EMIT changed();
}

void GrowthBoard::ask(PartId part, const Vector3d& centre_P) {
  cancel();
  const ScenePtr scene = session_.scene();
  if (!scene || part.index >= scene->geometry.size() || !scene->geometry[part.index]) return drop();
  const bool same = scene == scene_ && part == part_;
  if (!same) offset_.reset();
  if (!same || centre_P != centre_P_) scale_.reset();
  scene_ = scene, part_ = part, centre_P_ = centre_P;
  failure_.clear();
  run_ = std::make_shared<Run>();
  const bool needsOffset = !offset_, needsScale = !scale_;
  const auto back = [this, run = run_](const QString& failure) {
    QMetaObject::invokeMethod(
        this, [this, run, failure] { end(run, failure); }, Qt::QueuedConnection);
  };
  worker_.ask(
      [this, back, run = run_, scene, part, centre_P, needsOffset, needsScale,
       settings = settings_] {
        stepBack();  // Someone waits for it.
        const RoomSubject subject{scene->assembly(), scene->ways, scene->geometry, part};
        const auto give = [&](Limit GrowthBoard::*which, const GrowthLimit& limit) {
          if (run->monitor.cancelled()) return;
          QMetaObject::invokeMethod(
              this, [this, run, which, limit] { take(run, which, limit); }, Qt::QueuedConnection);
        };
        if (needsOffset && !run->monitor.cancelled())
          give(&GrowthBoard::offset_, offsetLimit(subject, settings, run->monitor));
        if (needsScale && !run->monitor.cancelled())
          give(&GrowthBoard::scale_, scaleLimit(subject, centre_P, settings, run->monitor));
        back({});
      },
      [back](const std::string& why) { back(QString::fromStdString(why)); });
  Q_EMIT changed();
}

void GrowthBoard::take(const std::shared_ptr<Run>& run, Limit GrowthBoard::*which,
                       const GrowthLimit& limit) {
  if (run != run_) return;
  this->*which = limit;
  Q_EMIT changed();
}

void GrowthBoard::end(const std::shared_ptr<Run>& run, const QString& failure) {
  if (run != run_) return;
  cancel();
  failure_ = failure;
  Q_EMIT changed();
}

void GrowthBoard::takeScene() {
  if (!part_) return;
  const ScenePtr& now = session_.scene();
  if (!now || !sameAskedOf(*part_, *scene_, *now)) return drop();
  scene_ = now;
  Q_EMIT changed();
}

}  // namespace swingroom
