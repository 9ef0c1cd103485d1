#include "app/session/check/verdict_shift.h"

#include "core/report/findings.h"

namespace swingroom {

VerdictShift::VerdictShift(Session& session, QObject* parent) : QObject(parent), session_(session) {
  connect(&session_, &Session::boardChanged, this, &VerdictShift::look);
  connect(&session_, &Session::activityChanged, this, &VerdictShift::look);
}

void VerdictShift::remember() {
  waits_ = false;
  known_ = session_.isProven();
  before_ = known_ ? verdictsNow() : Verdicts();
  scene_ = session_.scene();
}

void VerdictShift::wait() {
  awaited_ = session_.document().document();
  waits_ = true;
}

VerdictShift::Verdicts VerdictShift::verdictsNow() const {
  Verdicts verdicts;
  const CheckReport& report = session_.board().report();
  if (report.results.empty()) return verdicts;
  const std::vector<Verdict> worst = worstOfPairs(report);
  const auto& pairs = report.results.front().pairs;
  const Assembly& assembly = session_.scene()->assembly();
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    verdicts[{assembly.part(pairs[i].a).name, assembly.part(pairs[i].b).name}] = worst[i];
  }
  return verdicts;
}

void VerdictShift::look() {
  if (!waits_) return;
  if (!(session_.document().document() == awaited_)) {
    waits_ = false;
    return;
  }
  if (session_.scene() == scene_ || !session_.isProven() || session_.isChecking()) return;
  waits_ = false;
  VerdictChanges changes;
  for (const auto& [pair, verdict] : verdictsNow()) {
    const auto was = before_.find(pair);
    if (was != before_.end() && was->second != verdict) ++changes[{was->second, verdict}];
  }
  Q_EMIT told(changes, known_);
}

}  // namespace swingroom
