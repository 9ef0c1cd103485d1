#pragma once

#include <limits>
#include <vector>

#include "core/proximity/gap.h"
#include "tests/random/exact_surface.h"
#include "tests/random/kinematics.h"

/// The gap of two parts at very many instants, by poses of our own kinematics, FCL's distance, and
/// near zero CGAL's exact word. Samples prove nothing between them, but one can disprove what a
/// check says.
namespace swingroom::random_suite {

struct Sample {
  double instant = 0;
  double gapMm = 0;     ///< Of the surfaces; 0: they meet. At or above `capMm`: not told apart.
  bool meets = false;   ///< Exactly: the surfaces touch or cross.
  bool inside = false;  ///< They do not meet and one part is in the other's material.

  bool clash() const { return meets || inside; }
  /// What a bracket speaks of.
  double judgedMm() const { return clash() ? 0 : gapMm; }
};

/// Two parts whose gap is asked at many placements.
class GapReference {
 public:
  GapReference(const TriangleMesh& a, const TriangleMesh& b);

  /// By FCL alone, surfaces only: for finding a motion or a descent.
  double quickGap(const Pose& X_AB, double capMm) const;
  /// @param guessMm  Probably no less than the gap: a good guess makes it quick, a wrong one costs
  /// time.
  Sample at(const Pose& X_AB, double capMm,
            double guessMm = std::numeric_limits<double>::infinity()) const;
  /// The same, its gap by CGAL alone, however large.
  Sample exactlyAt(const Pose& X_AB) const;

  /// How often FCL said something else than CGAL by more than 1e-7 mm where both were asked.
  int disagreements() const { return disagreements_; }

 private:
  bool oneInside(const Pose& X_AB) const;

  GapModel modelA_, modelB_;
  ExactSurface exactA_, exactB_;
  mutable int disagreements_ = 0;
};

/// Samples over the whole sequence, in order.
class DenseReference {
 public:
  /// @param carefulBelowMm  Gaps below this are looked for most.
  /// @param toldApartBelowMm  Gaps below this are told apart.
  DenseReference(const GapReference& gaps, const PairKinematics& motion, double carefulBelowMm,
                 double toldApartBelowMm);

  /// Even samples, then halving of the intervals whose ends and whose whole-part speed leave most
  /// room for a small gap, then golden section about the least ones.
  void refine(int evenPerStep, int halvings);
  const Sample& look(double instant);
  /// Least gap in a stretch, closed in on by golden section from the least of `even` samples.
  Sample leastBetween(double from, double to, int even);
  /// The run without contact about `instant`, which is one, as far as samples and bisection tell.
  std::pair<double, double> runWithoutContact(double instant);

  const std::vector<Sample>& samples() const { return samples_; }
  double capMm() const { return capMm_; }
  Sample exactlyAt(double instant) const;

 private:
  double highestAt(double instant, std::vector<Sample>::const_iterator next) const;
  double lowestBetween(const Sample& left, const Sample& right) const;
  Sample golden(double low, double high);
  void halve(int halvings);

  const GapReference& gaps_;
  const PairKinematics& motion_;
  double carefulBelowMm_;
  double capMm_;
  std::vector<double> speeds_;  ///< mm per unit of instant, by step.
  std::vector<Sample> samples_;
};

/// A combination of joint values in a free step.
struct FreeSample {
  std::vector<double> shares;
  Sample sample;
};

/// Least judged gaps of all combinations in a free step: grid, random ones, and descent from the
/// best.
/// @returns All that were looked at, least gap first.
std::vector<FreeSample> lookAtFreeStep(const GapReference& gaps, const PairKinematics& motion,
                                       std::size_t step, std::size_t joints, double capMm,
                                       unsigned seed);

}  // namespace swingroom::random_suite
