#include "tests/random/dense_reference.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <random>

namespace swingroom::random_suite {
namespace {

constexpr double kMeetsBelowMm = 1e-4;  ///< Nearer than this CGAL says whether they meet ...
constexpr double kExactBelowMm = 1e-6;  ///< ... and nearer than this how near they are.
constexpr double kNarrowest = 2e-6;  ///< Of the sequence: contacts' ends are closed in on to this.
constexpr int kGoldenRounds = 36;
const double kGolden = (std::sqrt(5.0) - 1) / 2;

}  // namespace

GapReference::GapReference(const TriangleMesh& a, const TriangleMesh& b)
    : modelA_(a), modelB_(b), exactA_(a), exactB_(b) {}

double GapReference::quickGap(const Pose& X_AB, double capMm) const {
  return gapBetween(modelA_, modelB_, X_AB, capMm).gapMm;
}

bool GapReference::oneInside(const Pose& X_AB) const {
  const Pose X_BA = X_AB.inverse();
  for (const auto& corner : exactB_.shellCorners()) {
    if (exactA_.contains(X_AB * corner)) return true;
  }
  for (const auto& corner : exactA_.shellCorners()) {
    if (exactB_.contains(X_BA * corner)) return true;
  }
  return false;
}

Sample GapReference::at(const Pose& X_AB, double capMm, double guessMm) const {
  Sample sample;
  const double within = std::min(capMm, guessMm);
  sample.gapMm = quickGap(X_AB, within);
  if (sample.gapMm >= within && within < capMm) sample.gapMm = quickGap(X_AB, capMm);
  if (sample.gapMm < kExactBelowMm) return exactlyAt(X_AB);
  sample.meets = sample.gapMm < kMeetsBelowMm && meets(exactA_, exactB_, X_AB);
  if (sample.meets) sample.gapMm = 0;
  sample.inside = !sample.meets && oneInside(X_AB);
  return sample;
}

Sample GapReference::exactlyAt(const Pose& X_AB) const {
  Sample sample;
  const double guess = quickGap(X_AB, std::numeric_limits<double>::max());
  sample.meets = meets(exactA_, exactB_, X_AB);
  if (!sample.meets) sample.gapMm = exactGap(exactA_, exactB_, X_AB, std::max(guess, 1e-9));
  if (std::abs(guess - sample.gapMm) > 1e-7) ++disagreements_;
  sample.inside = !sample.meets && oneInside(X_AB);
  return sample;
}

DenseReference::DenseReference(const GapReference& gaps, const PairKinematics& motion,
                               double carefulBelowMm, double toldApartBelowMm)
    : gaps_(gaps), motion_(motion), carefulBelowMm_(carefulBelowMm) {
  double fastest = 0;
  for (std::size_t s = 0; s < motion.steps(); ++s) {
    speeds_.push_back(motion.speedBound(s) * static_cast<double>(motion.steps()));
    fastest = std::max(fastest, speeds_.back());
  }
  capMm_ = std::max(toldApartBelowMm, fastest / 40);
}

/// What the gap can be at most, by its neighbours and the parts' speed.
double DenseReference::highestAt(double instant, std::vector<Sample>::const_iterator next) const {
  double highest = capMm_;
  const auto bound = [&](const Sample& near) {
    if (near.gapMm >= capMm_) return;
    const double fastest = *std::max_element(speeds_.begin(), speeds_.end());
    highest = std::min(highest, near.gapMm + std::abs(near.instant - instant) * fastest + 1e-6);
  };
  if (next != samples_.begin()) bound(*std::prev(next));
  if (next != samples_.end()) bound(*next);
  return highest;
}

const Sample& DenseReference::look(double instant) {
  const auto place =
      std::lower_bound(samples_.begin(), samples_.end(), instant,
                       [](const Sample& sample, double t) { return sample.instant < t; });
  if (place != samples_.end() && place->instant == instant) return *place;
  Sample sample = gaps_.at(motion_.at(instant), capMm_, highestAt(instant, place));
  sample.instant = instant;
  return *samples_.insert(place, sample);
}

Sample DenseReference::exactlyAt(double instant) const {
  Sample sample = gaps_.exactlyAt(motion_.at(instant));
  sample.instant = instant;
  return sample;
}

/// Lowest that the gap can be between two instants of one step, by the whole parts' speed.
double DenseReference::lowestBetween(const Sample& left, const Sample& right) const {
  const double middle = 0.5 * (left.instant + right.instant);
  const auto step = std::min(static_cast<std::size_t>(middle * static_cast<double>(speeds_.size())),
                             speeds_.size() - 1);
  return 0.5 *
         (left.judgedMm() + right.judgedMm() - speeds_[step] * (right.instant - left.instant));
}

void DenseReference::halve(int halvings) {
  struct Gap {
    double lowest;
    Sample left, right;
    bool operator<(const Gap& other) const { return lowest > other.lowest; }
  };
  std::priority_queue<Gap> open;
  double best = std::numeric_limits<double>::infinity();
  for (const Sample& sample : samples_) best = std::min(best, sample.judgedMm());
  const auto add = [&](const Sample& left, const Sample& right) {
    if (left.clash() && right.clash()) return;
    if (right.instant - left.instant < kNarrowest) return;
    const double lowest = lowestBetween(left, right);
    if (lowest < std::max(best - 1e-3, carefulBelowMm_)) open.push({lowest, left, right});
  };
  for (std::size_t i = 0; i + 1 < samples_.size(); ++i) add(samples_[i], samples_[i + 1]);
  for (int i = 0; i < halvings && !open.empty(); ++i) {
    const Gap gap = open.top();
    open.pop();
    const Sample middle = look(0.5 * (gap.left.instant + gap.right.instant));
    best = std::min(best, middle.judgedMm());
    add(gap.left, middle);
    add(middle, gap.right);
  }
}

Sample DenseReference::golden(double low, double high) {
  double left = high - kGolden * (high - low), right = low + kGolden * (high - low);
  Sample atLeft = look(left), atRight = look(right);
  for (int i = 0; i < kGoldenRounds && !atLeft.clash() && !atRight.clash(); ++i) {
    if (atLeft.gapMm <= atRight.gapMm) {
      high = right, right = left, atRight = atLeft;
      left = high - kGolden * (high - low);
      atLeft = look(left);
    } else {
      low = left, left = right, atLeft = atRight;
      right = low + kGolden * (high - low);
      atRight = look(right);
    }
  }
  return atLeft.judgedMm() <= atRight.judgedMm() ? atLeft : atRight;
}

void DenseReference::refine(int evenPerStep, int halvings) {
  const auto count = evenPerStep * static_cast<int>(motion_.steps());
  for (int i = 0; i <= count; ++i) look(static_cast<double>(i) / count);
  halve(halvings);
  std::vector<std::size_t> valleys;
  for (std::size_t i = 1; i + 1 < samples_.size(); ++i) {
    const double here = samples_[i].judgedMm();
    const bool lowest = here <= samples_[i - 1].judgedMm() && here <= samples_[i + 1].judgedMm();
    if (lowest && here > 0 && here < capMm_) valleys.push_back(i);
  }
  std::sort(valleys.begin(), valleys.end(),
            [&](std::size_t i, std::size_t j) { return samples_[i].gapMm < samples_[j].gapMm; });
  std::vector<std::pair<double, double>> about;
  for (std::size_t k = 0; k < std::min<std::size_t>(valleys.size(), 3); ++k) {
    about.emplace_back(samples_[valleys[k] - 1].instant, samples_[valleys[k] + 1].instant);
  }
  for (const auto& [low, high] : about) golden(low, high);
  halve(halvings / 4);
}

Sample DenseReference::leastBetween(double from, double to, int even) {
  from = std::max(from, 0.0), to = std::min(to, 1.0);
  Sample least;
  least.gapMm = std::numeric_limits<double>::infinity();
  for (int i = 0; i <= even; ++i) {
    const Sample here = look(from + (to - from) * i / even);
    if (here.judgedMm() < least.judgedMm()) least = here;
  }
  for (const Sample& sample : samples_) {
    const bool within = sample.instant >= from && sample.instant <= to;
    if (within && sample.judgedMm() < least.judgedMm()) least = sample;
  }
  if (least.clash() || to <= from) return least;
  const double reach = (to - from) / even;
  const Sample closer =
      golden(std::max(from, least.instant - reach), std::min(to, least.instant + reach));
  return closer.judgedMm() < least.judgedMm() ? closer : least;
}

std::pair<double, double> DenseReference::runWithoutContact(double instant) {
  double low = 0, high = 1;
  bool metBefore = false, metAfter = false;
  for (const Sample& sample : samples_) {
    if (!sample.clash()) continue;
    if (sample.instant < instant) low = sample.instant, metBefore = true;
    if (sample.instant > instant) {
      high = sample.instant, metAfter = true;
      break;
    }
  }
  double from = instant, to = instant;
  for (int i = 0; i < 40 && from - low > kNarrowest; ++i) {
    const double middle = 0.5 * (low + from);
    (look(middle).clash() ? low : from) = middle;
  }
  for (int i = 0; i < 40 && high - to > kNarrowest; ++i) {
    const double middle = 0.5 * (high + to);
    (look(middle).clash() ? high : to) = middle;
  }
  return {metBefore ? from : 0, metAfter ? to : 1};
}

std::vector<FreeSample> lookAtFreeStep(const GapReference& gaps, const PairKinematics& motion,
                                       std::size_t step, std::size_t joints, double capMm,
                                       unsigned seed) {
  const std::vector<JointId> movers = motion.movers(step);
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> share(0, 1);
  std::vector<FreeSample> all;
  const auto look = [&](const std::vector<double>& shares) {
    all.push_back({shares, gaps.at(motion.at(step, shares), capMm)});
    return all.back().sample.judgedMm();
  };
  const int perAxis = movers.size() == 2 ? 13 : movers.size() == 3 ? 6 : 4;
  const auto points = static_cast<int>(std::pow(perAxis, movers.size()) + 0.5);
  std::vector<double> shares(joints, 0);
  for (int i = 0; i < points; ++i) {
    int rest = i;
    for (const JointId id : movers) {
      shares[id.index] = static_cast<double>(rest % perAxis) / (perAxis - 1);
      rest /= perAxis;
    }
    look(shares);
  }
  for (int i = 0; i < 150; ++i) {
    for (const JointId id : movers) shares[id.index] = share(random);
    look(shares);
  }
  for (int i = 0; i <= 30; ++i) look(std::vector<double>(joints, i / 30.0));
  const auto lessGap = [](const FreeSample& x, const FreeSample& y) {
    return x.sample.judgedMm() < y.sample.judgedMm();
  };
  std::stable_sort(all.begin(), all.end(), lessGap);
  // Descent: try steps along each joint and along random directions; halve them when none helps.
  const std::vector<FreeSample> starts(all.begin(), all.begin() + 5);
  for (const FreeSample& start : starts) {
    std::vector<double> here = start.shares;
    double best = start.sample.judgedMm();
    for (double stride = 0.1; stride > 1e-6 && best > 0;) {
      bool better = false;
      for (std::size_t k = 0; k < 2 * movers.size() + 2 && best > 0; ++k) {
        std::vector<double> there = here;
        for (std::size_t m = 0; m < movers.size(); ++m) {
          const double along =
              k < 2 * movers.size() ? (k / 2 == m ? (k % 2 ? 1 : -1) : 0) : 2 * share(random) - 1;
          double& value = there[movers[m].index];
          value = std::clamp(value + stride * along, 0.0, 1.0);
        }
        const double gap = look(there);
        if (gap < best) best = gap, here = there, better = true;
      }
      if (!better) stride *= 0.5;
    }
  }
  std::stable_sort(all.begin(), all.end(), lessGap);
  return all;
}

}  // namespace swingroom::random_suite
