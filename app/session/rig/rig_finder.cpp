#include "app/session/rig/rig_finder.h"

#include "core/base/parallel.h"

namespace swingroom {

RigFinder::RigFinder(Session& session, QObject* parent) : QObject(parent), session_(session) {
  connect(&session, &Session::sceneChanged, this, [this] {
    ask();
    Q_EMIT changed();  // What was found is of another scene by now.
  });
  connect(&session, &Session::boardChanged, this, &RigFinder::askContacts);
}

RigFinder::~RigFinder() {
  if (monitor_) monitor_->cancel();
}

bool RigFinder::isCurrent() const {
  return scene_ && scene_ == session_.scene() && !session_.isLoading();
}

void RigFinder::setWanted(bool wanted) {
  wanted_ = wanted;
  if (!wanted) return;  // What is being looked for is still of use.
  ask();
  askContacts();
}

void RigFinder::setGround(const std::string& part) {
  if (part == ground_) return;
  ground_ = part;
  ask();
}

void RigFinder::ask() {
  const ScenePtr& scene = session_.scene();
  if (!wanted_ || !scene || (askedScene_ == scene && askedGround_ == ground_)) return;
  askedScene_ = scene;
  askedGround_ = ground_;
  if (monitor_) monitor_->cancel();
  monitor_ = std::make_shared<WorkMonitor>();
  const std::size_t number = ++number_;
  looking_ = 1;
  failure_.clear();
  worker_.ask(
      [this, scene, number, monitor = monitor_, ground = ground_] {
        stepBack();
        if (monitor->cancelled()) return;
        const Assembly& assembly = scene->assembly();
        known_ = rigPartsOf(assembly, defaultThreads(), known_);
        RigQuestion question;
        question.parts = known_;
        question.joints = assembly.joints();
        question.ground = assembly.findPart(ground);
        question.requiredGapMm = scene->document.requiredGap;
        question.threads = defaultThreads();
        question.monitor = monitor.get();
        auto rig = std::make_shared<RigSuggestion>(suggestRig(question));
        if (monitor->cancelled()) return;
        QMetaObject::invokeMethod(
            this, [this, number, scene, rig] { take(number, scene, std::move(*rig)); },
            Qt::QueuedConnection);
      },
      [this, number](const std::string& why) {
        QMetaObject::invokeMethod(
            this,
            [this, number, why] {
              if (number != number_) return;
              looking_ = 0;
              failure_ = QString::fromStdString(why);
              Q_EMIT changed();
            },
            Qt::QueuedConnection);
      });
  Q_EMIT changed();
}

void RigFinder::take(std::size_t number, const ScenePtr& scene, RigSuggestion&& rig) {
  if (number != number_) return;
  looking_ = 0;
  if (scene != scene_) contacts_.clear();
  scene_ = scene;
  rig_ = std::move(rig);
  askContacts();
  Q_EMIT changed();
}

/// Once every pair is known: a part of the results would suggest what others take back.
void RigFinder::askContacts() {
  const ScenePtr& scene = session_.scene();
  const CheckBoard& board = session_.board();
  if (!wanted_ || !scene || scene != scene_ || contactsOf_ == scene || !board.isComplete()) return;
  if (board.scene() != scene) return;
  contactsOf_ = scene;
  const std::size_t number = ++contactsNumber_;
  contactsWorker_.ask([this, scene, number, results = board.report().results] {
    stepBack();
    auto found = std::make_shared<std::vector<SuggestedContact>>(
        suggestContacts(scene->assembly(), scene->loaded.modes, scene->ways, results,
                        scene->geometry, defaultThreads()));
    QMetaObject::invokeMethod(
        this, [this, number, found] { takeContacts(number, std::move(*found)); },
        Qt::QueuedConnection);
  });
}

void RigFinder::takeContacts(std::size_t number, std::vector<SuggestedContact>&& contacts) {
  if (number != contactsNumber_ || contactsOf_ != scene_) return;
  contacts_ = std::move(contacts);
  Q_EMIT changed();
}

}  // namespace swingroom
