#include "app/session/scene_loader.h"

#include "core/base/parallel.h"

namespace swingroom {

SceneLoader::SceneLoader(MeshReader reader, QObject* parent)
    : QObject(parent), reader_(std::move(reader)) {}

void SceneLoader::load(const AssemblyDocument& document, const std::filesystem::path& file,
                       ScenePtr before, const std::set<std::filesystem::path>& mayBeLate) {
  const std::size_t number = ++asked_;
  const auto give = [this, number](Outcome<ScenePtr> outcome, const LateMeshes& late) {
    auto shared = std::make_shared<const Outcome<ScenePtr>>(std::move(outcome));
    QMetaObject::invokeMethod(
        this, [this, number, shared, late] { answer(number, *shared, late); },
        Qt::QueuedConnection);
  };
  worker_.ask(
      [this, give, document, file, mayBeLate, before = std::move(before)] {
        LateMeshes late{mayBeLate, {}, 0};
        const MeshSource source{&reader_, defaultThreads(), &memory_, &monitor_, &late};
        Outcome<ScenePtr> scene = makeScene(document, file, source, before.get());
        give(std::move(scene), late);
      },
      [give, file](const std::string& why) {
        give(Problem{file.string(), "could not be made ready: " + why, ""}, {});
      });
}

void SceneLoader::answer(std::size_t number, const Outcome<ScenePtr>& outcome,
                         const LateMeshes& late) {
  if (number != asked_) return;  // A newer document waits.
  answered_ = number;
  late_ = late;
  if (outcome.ok()) {
    Q_EMIT loaded(*outcome);
  } else {
    Q_EMIT failed(outcome.problems());
  }
}

}  // namespace swingroom
