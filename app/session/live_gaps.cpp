#include "app/session/live_gaps.h"

#include "core/sweep/deepest.h"

namespace swingroom {
namespace {

PairNow gapNow(const LiveGaps::Question& question) {
  const auto [a, b] = *question.pair;
  PairNow now{{a, b}, false, 0, std::nullopt, std::nullopt};
  const auto gap = question.scene->gaps.gapOf(question.standing, a, b, 1e6);
  if (!gap) return now;
  now.meets = gap->meets;
  now.gapMm = gap->gapMm;
  if (!gap->meets) now.points_W = gap->points_W;
  return now;
}

void addDepth(const LiveGaps::Question& question, PairNow& now) {
  const auto [a, b] = now.pair;
  const StandingGaps& gaps = question.scene->gaps;
  const JudgedSurfaces& surfaces = gaps.surfacesOf(question.standing, a, b);
  const OverlapProbe probe{surfaces.a.get(), surfaces.b.get(), &gaps.solidOf(a), &gaps.solidOf(b)};
  if (!probe.canMeasure()) return;
  const auto X_WPs = posesOf(question.scene->assembly(), question.standing);
  const Pose& X_WA = X_WPs[a.index];
  const Overlap overlap = overlapAt(probe, X_WA.inverse() * X_WPs[b.index], 0, 0.02);
  if (overlap.depthMm <= 0) return;
  now.depthMm = overlap.depthMm;
  now.points_W = {X_WA * overlap.point_A, X_WA * overlap.nearest_A};
}

}  // namespace

void LiveGaps::ask(const Question& question) {
  const std::size_t number = ++asked_;
  if (!question.scene || (!question.pair && !question.all)) return;
  worker_.ask([this, question, number] { answer(question, number); });
}

template <typename Emit>
void LiveGaps::post(std::size_t number, Emit emitSignal) {
  QMetaObject::invokeMethod(
      this,
      [this, number, emitSignal] {
        if (number == asked_) emitSignal();
      },
      Qt::QueuedConnection);
}

void LiveGaps::answer(const Question& question, std::size_t number) {
  const auto& geometry = question.scene->geometry;
  const bool measurable = question.pair && geometry.at(question.pair->first.index) &&
                          geometry.at(question.pair->second.index);
  PairNow now;
  if (measurable) {
    now = gapNow(question);
    post(number, [this, now] { Q_EMIT pairMeasured(now); });
  }
  if (question.all && number == asked_) {
    auto near = question.scene->gaps.nearPairs(question.standing);
    post(number, [this, near = std::move(near)] { Q_EMIT allMeasured(near); });
  }
  if (measurable && now.meets && number == asked_) {
    addDepth(question, now);
    if (now.depthMm) post(number, [this, now] { Q_EMIT pairMeasured(now); });
  }
}

}  // namespace swingroom
