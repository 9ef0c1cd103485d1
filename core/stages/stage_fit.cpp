#include "core/stages/stage_fit.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/stages/stage_lay.h"

namespace swingroom {
namespace {

using Eigen::Affine3d;
using Eigen::Matrix3d;
using Eigen::Vector3d;

constexpr std::size_t kFew = 120, kMany = 900;
constexpr double kMuchBetter = 0.5;     ///< Undoing a mistake takes off at least so much.
constexpr double kNothingMm = 0.02;     ///< Nothing to explain.
constexpr double kGrossShare = 0.015;   ///< Of the size: more than most sculpting.
constexpr double kGoodShare = 0.035;    ///< Of the size: with this the part is known again.
constexpr double kOtherShare = 0.055;   ///< Of the size, capped places at 0.1: hardly anything lies near.

/// A way in which the block may have become the detail: `Y` undoes it.
struct Guess {
  Affine3d Y = Affine3d::Identity();
  double apartMm = 0;
  int oddness = 0;  ///< Simpler ones are preferred.
};

/// Quarter turns about the axes, then the same with a reflection; the identity first.
std::vector<Matrix3d> signedAxes() {
  std::vector<Matrix3d> found;
  std::array<int, 3> order{0, 1, 2};
  do {
    for (int signs = 0; signs < 8; ++signs) {
      Matrix3d R = Matrix3d::Zero();
      for (int i = 0; i < 3; ++i) R(i, order[static_cast<std::size_t>(i)]) = signs & (1 << i) ? -1 : 1;
      found.push_back(R);
    }
  } while (std::next_permutation(order.begin(), order.end()));
  const auto oddness = [](const Matrix3d& R) {
    return (R.determinant() < 0 ? 10 : 0) + (3 - static_cast<int>(std::lround(R.trace())));
  };
  std::stable_sort(found.begin(), found.end(), [&](const Matrix3d& a, const Matrix3d& b) {
    return oddness(a) < oddness(b);
  });
  return found;
}

bool boxesAlike(const Vector3d& a, const Vector3d& b) {
  for (int i = 0; i < 3; ++i) {
    const double more = std::abs(a[i] - b[i]);
    if (more > 0.3 * std::max(a[i], b[i]) + 2) return false;
  }
  return true;
}

/// All exchanges of axes, about the origin and about the middles.
std::vector<Guess> axisGuesses(const StageLay& lay, const Vector3d& blockSizes,
                               const Vector3d& detailSizes) {
  std::vector<Guess> guesses;
  int oddness = 0;
  for (const Matrix3d& R : signedAxes()) {
    oddness += 1;
    if (!boxesAlike(blockSizes, (R * detailSizes).cwiseAbs())) continue;
    Guess guess;
    guess.oddness = 2 * oddness;
    guess.Y.linear() = R;
    guess.apartMm = lay.apartMm(guess.Y, kFew);
    guesses.push_back(guess);
    guess.oddness += 1;
    guess.Y.translation() = lay.blockMiddle() - R * lay.detailMiddle();
    guess.apartMm = lay.apartMm(guess.Y, kFew);
    guesses.push_back(guess);
  }
  return guesses;
}

/// The best of all guesses; a simpler one if it is nearly as good.
Guess bestGuess(const StageLay& lay, std::vector<Guess> guesses) {
  std::stable_sort(guesses.begin(), guesses.end(), [](const Guess& a, const Guess& b) {
    return a.apartMm < b.apartMm;
  });
  constexpr std::size_t kTried = 6;
  if (guesses.size() > kTried) guesses.resize(kTried);
  for (Guess& guess : guesses) {
    guess.Y = lay.laid(guess.Y, 12, kMany / 2);
    guess.apartMm = lay.apartMm(guess.Y, kMany);
  }
  std::stable_sort(guesses.begin(), guesses.end(), [](const Guess& a, const Guess& b) {
    return a.oddness < b.oddness;
  });
  const auto least = std::min_element(
      guesses.begin(), guesses.end(),
      [](const Guess& a, const Guess& b) { return a.apartMm < b.apartMm; });
  const double enough = 1.1 * least->apartMm + kNothingMm / 2;
  return *std::find_if(guesses.begin(), guesses.end(),
                       [&](const Guess& guess) { return guess.apartMm <= enough; });
}

/// The ratio of two units that a ratio of sizes is nearest to; of sizes that cannot be told from
/// sculpting, 1; of others the ratio itself.
double factorOf(double ratio) {
  constexpr double kSculptedRatio = 1.6, kAlike = 1.3;
  if (ratio < kSculptedRatio && ratio > 1 / kSculptedRatio) return 1;
  for (const double unit : {10.0, 25.4, 1000.0, 100.0, 2.54, 39.37007874015748, 304.8, 12.0}) {
    for (const double exact : {unit, 1 / unit}) {
      if (std::abs(std::log(ratio / exact)) < std::log(kAlike)) return exact;
    }
  }
  return ratio;
}

Matrix3d nearestSignedAxes(const Matrix3d& R) {
  Matrix3d nearest = Matrix3d::Identity();
  double most = -4;
  for (const Matrix3d& candidate : signedAxes()) {
    const double likeness = (candidate.transpose() * R).trace();
    if (likeness > most) most = likeness, nearest = candidate;
  }
  return nearest;
}

StageFitKind kindOf(const Affine3d& X) {
  if (X.linear().determinant() < 0) return StageFitKind::mirrored;
  constexpr double kNoTurnRad = 0.005;
  if (Eigen::AngleAxisd(X.linear()).angle() < kNoTurnRad) return StageFitKind::shifted;
  const Matrix3d rest = X.linear() * nearestSignedAxes(X.linear()).transpose();
  const bool isQuarters = Eigen::AngleAxisd(rest).angle() < 0.03;
  const bool isNone = nearestSignedAxes(X.linear()).isIdentity();
  return isQuarters && !isNone ? StageFitKind::swapped : StageFitKind::turned;
}

/// Rounding of a fit must not be shown as a turn or a shift.
Affine3d cleaned(const Affine3d& X, StageFitKind kind, double sizeMm) {
  Affine3d clean = X;
  const Matrix3d exact = nearestSignedAxes(X.linear());
  if (kind != StageFitKind::turned && (X.linear() - exact).norm() < 0.03) clean.linear() = exact;
  if (clean.translation().norm() < 0.002 * sizeMm && kind != StageFitKind::shifted) {
    clean.translation().setZero();
  }
  return clean;
}

/// The same with axes that are exchanged exactly and only shifted, if that is about as good: what
/// was sculpted pulls at a free fit.
Guess withExactAxes(const StageLay& lay, const Guess& guess) {
  constexpr double kNearRad = 0.1;
  const Matrix3d R = nearestSignedAxes(guess.Y.linear());
  if (Eigen::AngleAxisd(Matrix3d(guess.Y.linear() * R.transpose())).angle() > kNearRad) return guess;
  Guess exact = guess;
  exact.Y.linear() = R;
  exact.Y.translation() = guess.Y * lay.detailMiddle() - R * lay.detailMiddle();
  exact.Y = lay.laid(exact.Y, 8, kMany / 2, StageLay::By::shifts);
  exact.apartMm = lay.apartMm(exact.Y, kMany);
  return exact.apartMm < 1.15 * guess.apartMm + kNothingMm / 4 ? exact : guess;
}

}  // namespace

StageFit stageFitOf(const StageSurface& block, const StageSurface& detail) {
  StageFit fit;
  if (block.tree().empty() || detail.tree().empty()) return fit;
  const Vector3d blockSizes = block.bounds().sizes();
  fit.factor = factorOf(blockSizes.norm() / std::max(1e-12, detail.bounds().sizes().norm()));
  const StageLay lay(block, detail, fit.factor);
  Guess asItIs;
  asItIs.apartMm = fit.apartMm = fit.apartUndoneMm = lay.apartMm(asItIs.Y, kMany);
  if (fit.apartMm < kNothingMm) return fit;
  Guess moved = asItIs;
  moved.Y = lay.laid(asItIs.Y, 12, kMany / 2);
  moved.apartMm = lay.apartMm(moved.Y, kMany);
  Guess best = moved;
  const double sizeMm = lay.sizeMm();
  if (fit.apartMm > kGrossShare * sizeMm) {
    std::vector<Guess> guesses = axisGuesses(lay, blockSizes, fit.factor * detail.bounds().sizes());
    guesses.push_back(moved);
    best = bestGuess(lay, std::move(guesses));
  }
  const bool isBetter = best.apartMm < kMuchBetter * fit.apartMm && best.apartMm < kGoodShare * sizeMm;
  if (isBetter) {
    best = withExactAxes(lay, best);
    const Affine3d X = best.Y.inverse(Eigen::Isometry);
    fit.kind = kindOf(X);
    fit.X = cleaned(X, fit.kind, sizeMm);
    fit.apartUndoneMm = best.apartMm;
    constexpr double kLeastShiftMm = 0.03;
    if (fit.kind == StageFitKind::shifted && fit.X.translation().norm() < kLeastShiftMm) {
      fit.kind = StageFitKind::fits;
      fit.X.setIdentity();
    }
  } else if (std::min(best.apartMm, fit.apartMm) > kOtherShare * sizeMm) {
    fit.kind = StageFitKind::other;
    fit.apartUndoneMm = best.apartMm;
  }
  return fit;
}

double meanApartMm(const StageSurface& a, const StageSurface& b) {
  if (a.tree().empty() || b.tree().empty()) return 0;
  return StageLay(a, b, 1).apartMm(Eigen::Affine3d::Identity(), 300);
}

}  // namespace swingroom
