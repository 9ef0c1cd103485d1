#include "app/session/check/live_gaps.h"

#include "core/sweep/deepest.h"

namespace swingroom {
namespace {

PairNow gapNow(const LiveGaps::Question& question) {
  const auto [a, b] = *question.pair;
  PairNow now;
  now.pair = {a, b};
  const auto gap = question.scene->gaps.gapOf(question.standing, a, b, 1e6);
  if (!gap) return now;
  now.meets = gap->meets;
  if (gap->meets) return now;
  now.gapMm = gap->gapMm;
  now.points_W = gap->points_W;
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
  latest_ = question;
  if (!question.scene) return;
  if (question.pair) pairWorker_.ask([this, question, number] { answerPair(question, number); });
  if (question.all) allWorker_.ask([this, question] { answerAll(question); });
}

void LiveGaps::give(const Question& question, const PairNow& now) {
  QMetaObject::invokeMethod(
      this,
      [this, scene = question.scene, standing = question.standing, answer = now] {
        if (scene != latest_.scene || latest_.pair != answer.pair) return;
        PairNow told = answer;
        told.late = standing != latest_.standing;
        Q_EMIT pairMeasured(told);
      },
      Qt::QueuedConnection);
}

void LiveGaps::answerPair(const Question& question, std::size_t number) {
  const auto& geometry = question.scene->geometry;
  const auto [a, b] = *question.pair;
  if (!geometry.at(a.index) || !geometry.at(b.index)) return;
  PairNow now = gapNow(question);
  give(question, now);
  if (!now.meets || number != asked_) return;
  depthWorker_.ask([this, question, number, now] {
    stepBack();
    PairNow deep = now;
    if (number == asked_) addDepth(question, deep);
    if (deep.depthMm && number == asked_) give(question, deep);
  });
}

void LiveGaps::answerAll(const Question& question) {
  stepBack();
  // While a needle is dragged every answer is late; one now and then is still of use.
  if (question.scene != remembered_) {
    memory_ = {};
    remembered_ = question.scene;
  }
  auto near = question.scene->gaps.nearPairs(question.standing, kMattersAboveRequiredMm, &memory_);
  QMetaObject::invokeMethod(
      this,
      [this, scene = question.scene, near = std::move(near)] {
        if (scene == latest_.scene)
          Q_EMIT allMeasured(near);  // Ids of another scene mean other parts.
      },
      Qt::QueuedConnection);
}

}  // namespace swingroom
