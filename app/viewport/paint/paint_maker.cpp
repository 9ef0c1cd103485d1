#include "app/viewport/paint/paint_maker.h"

#include <exception>
#include <utility>

namespace swingroom {

PaintMaker::PaintMaker(QObject* parent) : QObject(parent) {
  pool_.setMaxThreadCount(1);
}

PaintMaker::~PaintMaker() {
  ++asked_;
  pool_.waitForDone();
}

void PaintMaker::make(const std::vector<std::pair<Mesh, Surface>>& wanted) {
  const int asked = ++asked_;
  for (const auto& [mesh, surface] : wanted) {
    pool_.start([this, asked, mesh = mesh, surface = surface] {
      if (asked != asked_) return;
      auto paint = std::make_shared<PaintMesh>();
      try {
        *paint = makePaintMesh(*mesh, surface);
      } catch (const std::exception&) {  // No memory: the part stays plain.
        paint->surface = surface;
      }
      {
        const std::lock_guard lock(mutex_);
        made_.push_back(std::move(paint));
      }
      Q_EMIT ready();
    });
  }
}

std::vector<std::shared_ptr<const PaintMesh>> PaintMaker::take() {
  const std::lock_guard lock(mutex_);
  return std::exchange(made_, {});
}

std::vector<std::shared_ptr<const PaintMesh>> PaintMaker::finish() {
  pool_.waitForDone();
  return take();
}

}  // namespace swingroom
