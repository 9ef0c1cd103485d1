#include "app/session/scene_loader.h"

#include "core/base/parallel.h"

namespace swingroom {

SceneLoader::SceneLoader(MeshReader reader, QObject* parent)
    : QObject(parent), reader_(std::move(reader)) {}

void SceneLoader::load(const AssemblyDocument& document, const std::filesystem::path& file,
                       ScenePtr before) {
  const std::size_t number = ++asked_;
  worker_.ask([this, number, document, file, before = std::move(before)] {
    const MeshSource source{&reader_, defaultThreads(), &memory_};
    auto outcome =
        std::make_shared<const Outcome<ScenePtr>>(makeScene(document, file, source, before.get()));
    QMetaObject::invokeMethod(
        this, [this, number, outcome] { answer(number, *outcome); }, Qt::QueuedConnection);
  });
}

void SceneLoader::answer(std::size_t number, const Outcome<ScenePtr>& outcome) {
  if (number != asked_) return;  // A newer document waits.
  answered_ = number;
  if (outcome.ok()) {
    Q_EMIT loaded(*outcome);
  } else {
    Q_EMIT failed(outcome.problems());
  }
}

}  // namespace swingroom
