#include "app/session/check/close_look.h"

namespace swingroom {
namespace {

constexpr CurveDetail kCloseDetail{160, 24};

}  // namespace

void CloseLook::ask(const ScenePtr& scene, std::size_t way, std::size_t pair,
                    const PairResult& result) {
  const std::size_t number = ++asked_;
  cancel();
  monitor_ = std::make_shared<WorkMonitor>();
  worker_.ask([this, number, scene, way, pair, result, monitor = monitor_] {
    stepBack();
    const CheckedPair checked{&scene->assembly(), &scene->ways[way], &scene->geometry, &result,
                              scene->assembly().resolutionMm()};
    auto curve = measureCurve(checked, kCloseDetail, monitor.get());
    if (monitor->cancelled()) return;
    QMetaObject::invokeMethod(
        this,
        [this, number, scene, way, pair, curve = std::move(curve)] {
          if (number == asked_) Q_EMIT measured(scene, way, pair, curve);
        },
        Qt::QueuedConnection);
  });
}

}  // namespace swingroom
