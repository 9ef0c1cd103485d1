#include "core/print/cautions/pair_fingers.h"

#include <algorithm>
#include <cmath>

#include "core/motion/relative_motion.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

constexpr double kLookMm = 3;  // moved between two looks
constexpr std::size_t kMostLooks = 48;
constexpr double kFacing = 0.5;  // cosine of 60 degrees
/// Nearer than this no direction is told from the two points.
constexpr double kTouchMm = 0.3;
constexpr double kNearHingeMm = 12;
constexpr std::size_t kMostRoomTests = 12;  // a pair and way

/// The nearest point of the other part, from one spot.
struct Opening {
  double mm = kFingerLookMm;
  Vector3d other_B = Vector3d::Zero();  ///< In the other part's frame.
  bool faces = false;
};

class PairFingers {
 public:
  PairFingers(const PrintSubject& subject, const FingerRods& rods, const FingerRoom& room,
              const std::vector<FingerSpot>& spots, const PairStep& at)
      : subject_(subject),
        rods_(rods),
        room_(room),
        spots_(spots),
        at_(at),
        step_(at.sequence->steps[at.step]),
        motion_(*subject.assembly, step_, at.spotsOf, at.other),
        tree_(subject.geometry->at(at.other.index)->surface->tree) {}

  /// Null: nothing in this step.
  std::optional<FingerGap> find() {
    if (motion_.isConstant() || step_.order == StepOrder::replug) return std::nullopt;
    const std::size_t looks = looksNeeded();
    if (staysFar(looks)) return std::nullopt;
    for (std::size_t i = 0; i <= looks; ++i) {
      parts_.push_back(static_cast<double>(i) / static_cast<double>(looks));
    }
    openings_.assign(spots_.size(), {});
    for (std::size_t s = 0; s < spots_.size(); ++s) follow(s);
    folds_ = foldsAboutOneHinge();
    const auto mouth = folds_ ? hingeMouth() : std::nullopt;
    const auto others = openingsElsewhere();
    if (!mouth) return others;
    return mouth;
  }

 private:
  /// The fastest corner of the spots' box against the other part tells how often to look.
  std::size_t looksNeeded() const {
    const BoundingTree::Node& box = treeOfSpots().root();
    std::vector<Vector3d> before;
    double travelMm = 0;
    constexpr int kChords = 16;
    for (int i = 0; i <= kChords; ++i) {
      const Pose X_BA = motion_.at(i / double{kChords}).X_AB.inverse();
      std::vector<Vector3d> now;
      for (int c = 0; c < 8; ++c) {
        const Vector3d sign((c & 1) ? 1 : -1, (c & 2) ? 1 : -1, (c & 4) ? 1 : -1);
        now.push_back(X_BA * (box.centre + box.axes * box.half.cwiseProduct(sign)));
      }
      double most = 0;
      for (std::size_t c = 0; !before.empty() && c < 8; ++c) {
        most = std::max(most, (now[c] - before[c]).norm());
      }
      travelMm += most;
      before = now;
    }
    return std::clamp<std::size_t>(static_cast<std::size_t>(travelMm / kLookMm) + 1, 2, kMostLooks);
  }

  const BoundingTree& treeOfSpots() const {
    return subject_.geometry->at(at_.spotsOf.index)->surface->tree;
  }

  bool staysFar(std::size_t looks) const {
    const BoundingTree::Node &a = treeOfSpots().root(), &b = tree_.root();
    for (std::size_t i = 0; i <= looks; ++i) {
      const Pose X_AB = motion_.at(static_cast<double>(i) / static_cast<double>(looks)).X_AB;
      if ((X_AB * b.centre - a.centre).norm() - a.radius - b.radius < rods_.thickMm + kLookMm)
        return false;
    }
    return true;
  }

  void follow(std::size_t s) {
    PointHints hints;
    hints.withinMm = kFingerLookMm;
    for (const double part : parts_) {
      openings_[s].push_back(lookFrom(s, part, hints));
    }
  }

  Opening lookFrom(std::size_t s, double part, PointHints& hints) const {
    const Pose X_BA = motion_.at(part).X_AB.inverse();
    const Vector3d p = X_BA * spots_[s].point;
    const auto nearest = closestPoint(tree_, p, hints);
    if (!nearest) return {};
    hints.triangle = nearest->triangle;
    Opening opening;
    opening.mm = nearest->distanceMm;
    opening.other_B = nearest->point;
    const Vector3d n = X_BA.linear() * spots_[s].normal;
    const TriangleCorners& face = tree_.triangles()[nearest->triangle];
    const Vector3d m = (face[1] - face[0]).cross(face[2] - face[0]).normalized();
    const Vector3d way = nearest->point - p;
    if (opening.mm < kTouchMm) {
      opening.faces = n.dot(m) < -kFacing;
      return opening;
    }
    const double onSpot = n.dot(way), onOther = -m.dot(way);
    opening.faces = n.dot(m) < -kFacing && std::min(onSpot, onOther) > kFacing * opening.mm;
    // Past a rim the way is slanting; the opening is not wider for that.
    if (opening.faces) opening.mm = std::max(onSpot, onOther);
    return opening;
  }

  /// One hinge moves the two against each other, nothing else.
  bool foldsAboutOneHinge() {
    const MotionAtInstant start = motion_.at(0);
    if (start.axes.size() != 1 || start.axes[0].turnRateRad == 0) return false;
    axis_ = start.axes[0];
    return true;
  }

  /// How far from the hinge's line, in the spots' frame: it moves with neither part.
  double offHinge(const Vector3d& p_A) const {
    const Vector3d off = p_A - axis_.point;
    return (off - axis_.direction * axis_.direction.dot(off)).norm();
  }

  std::size_t closedAt(std::size_t s) const {
    const auto& row = openings_[s];
    return static_cast<std::size_t>(
        std::min_element(row.begin(), row.end(),
                         [](const Opening& a, const Opening& b) { return a.mm < b.mm; }) -
        row.begin());
  }

  /// The two faces of a fold meet there at some instant.
  bool closes(std::size_t s) const {
    const Opening& closed = openings_[s][closedAt(s)];
    return closed.faces && closed.mm < rods_.thinMm;
  }

  /// Between two points that face each other when it is closed.
  double mouthMm(std::size_t s, double part) const {
    return (motion_.at(part).X_AB * openings_[s][closedAt(s)].other_B - spots_[s].point).norm();
  }

  /// At the rim: of the spots that are farthest from the hinge the first that a finger has room at.
  std::optional<FingerGap> hingeMouth() {
    std::vector<std::size_t> rim;
    for (std::size_t s = 0; s < spots_.size(); ++s) {
      if (closes(s)) rim.push_back(s);
    }
    std::stable_sort(rim.begin(), rim.end(), [&](std::size_t x, std::size_t y) {
      return offHinge(spots_[x].point) > offHinge(spots_[y].point) + 1e-9;
    });
    for (std::size_t i = 0; i < std::min(rim.size(), kMostRoomTests); ++i) {
      FingerGap gap = started(FingerPlace::hingeMouth);
      if (!spanOf([&](double part) { return mouthMm(rim[i], part); }, gap)) continue;
      gap.spots = 1;
      const double middle = partOf(gap.instant);
      const Vector3d other = openings_[rim[i]][closedAt(rim[i])].other_B;
      gap.at_W = X_WA(middle) * ((spots_[rim[i]].point + motion_.at(middle).X_AB * other) / 2);
      if (hasRoom(gap.at_W, middle)) return gap;
    }
    return std::nullopt;
  }

  std::optional<FingerGap> openingsElsewhere() {
    std::optional<FingerGap> gap;
    std::size_t tests = 0;
    for (std::size_t s = 0; s < spots_.size(); ++s) {
      if (folds_ && closes(s)) continue;
      std::size_t best = parts_.size();
      for (std::size_t i = 0; i < parts_.size(); ++i) {
        const Opening& opening = openings_[s][i];
        if (!opening.faces || !catchesFinger(opening.mm, rods_)) continue;
        if (best == parts_.size() || offMiddle(opening.mm) < offMiddle(openings_[s][best].mm))
          best = i;
      }
      if (best == parts_.size()) continue;
      const Pose X = X_WA(parts_[best]);
      const Vector3d middle_W =
          X * ((spots_[s].point + motion_.at(parts_[best]).X_AB * openings_[s][best].other_B) / 2);
      if (!gap) {
        if (++tests > kMostRoomTests) break;
        if (!hasRoom(middle_W, parts_[best])) continue;
        const bool line = folds_ && offHinge(spots_[s].point) < kNearHingeMm;
        gap = started(line ? FingerPlace::hingeLine : FingerPlace::between);
        gap->at_W = middle_W;
        gap->instant = instantOf(parts_[best]);
        PointHints hints;
        hints.withinMm = kFingerLookMm;
        spanOf([&](double part) { return lookFrom(s, part, hints).mm; }, *gap);
      }
      ++gap->spots;
    }
    return gap;
  }

  double offMiddle(double mm) const { return std::abs(mm - (rods_.thinMm + rods_.thickMm) / 2); }

  FingerGap started(FingerPlace place) const {
    FingerGap gap;
    gap.a = std::min(at_.spotsOf, at_.other);
    gap.b = std::max(at_.spotsOf, at_.other);
    gap.place = place;
    gap.way = at_.way;
    return gap;
  }

  double instantOf(double part) const {
    return (static_cast<double>(at_.step) + part) / static_cast<double>(at_.sequence->steps.size());
  }
  double partOf(double instant) const {
    return instant * static_cast<double>(at_.sequence->steps.size()) -
           static_cast<double>(at_.step);
  }

  /// Sizes, and the instants between which fingers are caught, told to 1e-6 of a step. False:
  /// never.
  bool spanOf(const auto& size, FingerGap& gap) const {
    std::optional<std::size_t> first, last;
    std::vector<double> sizes;
    for (const double part : parts_) sizes.push_back(size(part));
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      if (!catchesFinger(sizes[i], rods_)) continue;
      if (!first) first = i;
      last = i;
    }
    gap.leastMm = *std::min_element(sizes.begin(), sizes.end());
    gap.mostMm = std::min(kFingerLookMm, *std::max_element(sizes.begin(), sizes.end()));
    if (!first) {
      // It may open so fast that no look fell between the rods.
      for (std::size_t i = 1; i < sizes.size() && !first; ++i) {
        if ((sizes[i - 1] < rods_.thinMm) == (sizes[i] < rods_.thinMm)) continue;
        const double thin = crossing(size, parts_[i - 1], parts_[i], rods_.thinMm);
        const double thick = crossing(size, parts_[i - 1], parts_[i], rods_.thickMm);
        gap.from = instantOf(std::min(thin, thick));
        gap.to = instantOf(std::max(thin, thick));
        gap.instant = (gap.from + gap.to) / 2;
        return true;
      }
      return false;
    }
    const auto edge = [&](std::size_t inside, std::size_t outside) {
      const double level = sizes[outside] < rods_.thinMm ? rods_.thinMm : rods_.thickMm;
      return instantOf(crossing(size, parts_[inside], parts_[outside], level));
    };
    gap.from = *first > 0 ? edge(*first, *first - 1) : instantOf(parts_.front());
    gap.to = *last + 1 < sizes.size() ? edge(*last, *last + 1) : instantOf(parts_.back());
    if (gap.place == FingerPlace::hingeMouth) gap.instant = instantOf(parts_[(*first + *last) / 2]);
    return true;
  }

  static double crossing(const auto& size, double a, double b, double level) {
    const bool below = size(a) < level;
    for (int i = 0; i < 24; ++i) {
      const double middle = (a + b) / 2;
      ((size(middle) < level) == below ? a : b) = middle;
    }
    return (a + b) / 2;
  }

  Pose X_WA(double part) const {
    const Configuration standing = configurationIn(*subject_.assembly, step_, part);
    return posesOf(*subject_.assembly, standing)[at_.spotsOf.index];
  }

  bool hasRoom(const Vector3d& p_W, double part) const {
    const Configuration standing = configurationIn(*subject_.assembly, step_, part);
    return room_.isOpen(posesOf(*subject_.assembly, standing), p_W, rods_.thinMm / 2);
  }

  const PrintSubject& subject_;
  const FingerRods& rods_;
  const FingerRoom& room_;
  const std::vector<FingerSpot>& spots_;
  PairStep at_;
  const Step& step_;
  RelativeMotion motion_;
  const BoundingTree& tree_;
  MovingAxis axis_;
  bool folds_ = false;
  std::vector<double> parts_;                   ///< Looks at the step, 0 to 1.
  std::vector<std::vector<Opening>> openings_;  ///< By spot and look.
};

}  // namespace

std::optional<FingerGap> fingerGapIn(const PrintSubject& subject, const FingerRods& rods,
                                     const FingerRoom& room, const std::vector<FingerSpot>& spots,
                                     const PairStep& at) {
  return PairFingers(subject, rods, room, spots, at).find();
}

}  // namespace swingroom
