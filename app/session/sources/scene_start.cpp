#include "app/session/sources/scene_start.h"

#include <memory>

#include "app/session/sources/new_file_place.h"
#include "core/base/parallel.h"

namespace swingroom {
namespace {

SceneStart::Made makeOf(const SceneStart::Wish& wish, const MeshReader& reader,
                        const WorkMonitor& monitor) {
  NewAssemblyWish asked;
  asked.source = wish.source;
  asked.file = placeForNew(wish.source);
  asked.mmPerUnit = wish.mmPerUnit;
  asked.requiredGapMm = wish.requiredGapMm;
  asked.ground = wish.ground;
  asked.poses = wish.poses;
  asked.threads = defaultThreads();
  asked.monitor = &monitor;
  return {newAssembly(asked, reader), asked.file};
}

}  // namespace

void SceneStart::look(const std::filesystem::path& source) {
  const int asked = ++asked_;
  const auto give = [this, asked](Outcome<SceneLook> look) {
    auto shared = std::make_shared<const Outcome<SceneLook>>(std::move(look));
    QMetaObject::invokeMethod(
        this,
        [this, asked, shared] {
          if (asked == asked_) Q_EMIT looked(*shared);
        },
        Qt::QueuedConnection);
  };
  worker_.ask(
      [this, give, source] {
        const Outcome<SceneFile> scene = reader_.readScene(source, &monitor_);
        give(scene.ok() ? Outcome<SceneLook>(lookAt(*scene)) : scene.problems());
      },
      [give, source](const std::string& why) {
        give(Problem{source.string(), "could not be read: " + why, ""});
      });
}

void SceneStart::make(const Wish& wish) {
  const int asked = ++asked_;
  const auto give = [this, asked](Made result) {
    auto shared = std::make_shared<const Made>(std::move(result));
    QMetaObject::invokeMethod(
        this,
        [this, asked, shared] {
          if (asked == asked_) Q_EMIT made(*shared);
        },
        Qt::QueuedConnection);
  };
  worker_.ask([this, give, wish] { give(makeOf(wish, reader_, monitor_)); },
              [give, wish](const std::string& why) {
                give({Problem{wish.source.string(), "could not be read: " + why, ""}, {}});
              });
}

}  // namespace swingroom
