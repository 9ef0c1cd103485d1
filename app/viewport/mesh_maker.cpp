#include "app/viewport/mesh_maker.h"

#include <algorithm>
#include <exception>
#include <utility>

#include "core/base/parallel.h"

namespace swingroom {

MeshMaker::MeshMaker(QObject* parent) : QObject(parent) {
  // One processor is left to the window.
  pool_.setMaxThreadCount(std::max(1, static_cast<int>(defaultThreads()) - 1));
}

MeshMaker::~MeshMaker() {
  {
    const std::lock_guard lock(mutex_);
    wanted_.clear();
  }
  pool_.waitForDone();
}

void MeshMaker::make(const std::vector<Source>& sources) {
  const std::lock_guard lock(mutex_);
  wanted_.clear();
  for (const Source& source : sources) {
    wanted_.insert(source.get());
    if (waitsToBeTaken(source) || !underWay_.insert(source.get()).second) continue;
    pool_.start([this, source] { makeOne(source); });
  }
}

bool MeshMaker::waitsToBeTaken(const Source& source) const {
  return std::any_of(made_.begin(), made_.end(),
                     [&](const Made& made) { return made.source == source; });
}

void MeshMaker::makeOne(const Source& source) {
  bool wanted = false;
  {
    const std::lock_guard lock(mutex_);
    wanted = wanted_.contains(source.get());
    if (!wanted) underWay_.erase(source.get());
  }
  if (!wanted) return;
  auto mesh = std::make_shared<ViewMesh>();
  try {
    *mesh = makeViewMesh(*source);
  } catch (const std::exception&) {  // No memory: the part is not drawn.
    *mesh = ViewMesh();
  }
  {
    const std::lock_guard lock(mutex_);
    underWay_.erase(source.get());
    made_.push_back({source, std::move(mesh)});
  }
  Q_EMIT ready();
}

std::vector<MeshMaker::Made> MeshMaker::take() {
  const std::lock_guard lock(mutex_);
  return std::exchange(made_, {});
}

std::vector<MeshMaker::Made> MeshMaker::finish() {
  pool_.waitForDone();
  return take();
}

}  // namespace swingroom
