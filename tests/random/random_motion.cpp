#include "tests/random/random_motion.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include "tests/random/dense_reference.h"
#include "tests/support/shapes.h"

namespace swingroom::random_suite {
namespace {

using Eigen::Vector3d;

/// Well mixed from both (the finaliser of SplitMix64).
std::uint64_t mixed(std::uint64_t seed, std::uint64_t number) {
  std::uint64_t z = seed + 0x9e3779b97f4a7c15u * (number + 1);
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return z ^ (z >> 31);
}

class CaseMaker {
 public:
  CaseMaker(std::uint64_t suiteSeed, int number) {
    case_.number = number;
    case_.seed = mixed(suiteSeed, static_cast<std::uint64_t>(number));
    case_.kind = kindOf(number);
    random_.seed(case_.seed);
    sizeMm_ = logUniform(random_, 1, 100);
    const double required[] = {0.05, 0.1, 0.3, 0.3, 0.5, 1.0};
    case_.parts.requiredGapMm = required[random_() % 6];
  }

  RandomCase make() {
    switch (case_.kind) {
      case MotionKind::coaxial:
        makeCoaxial();
        break;
      case MotionKind::thin:
        makeThin();
        break;
      case MotionKind::curving:
        makeCurving();
        break;
      default:
        makeScattered();
    }
    if (chance(random_, 0.5)) wide_ = true;
    addSequence();
    if (case_.kind == MotionKind::curving) placePlate();
    if (aimed_) aim();
    describe();
    return case_;
  }

 private:
  PartId addPart(const RandomPart& part, const Pose& X_WP) {
    Part added;
    added.name = "part " + std::to_string(case_.parts.parts.size() + 1);
    added.mesh = std::make_shared<const TriangleMesh>(part.mesh);
    added.X_WP_home = X_WP;
    case_.parts.parts.push_back(added);
    case_.description += (case_.description.empty() ? "" : ", ") + part.name + " of " +
                         std::to_string(part.mesh.triangles.size()) + " triangles";
    return PartId{case_.parts.parts.size() - 1};
  }

  Joint& addJoint(JointType type, PartId child, std::optional<PartId> parent,
                  const Vector3d& through, const Vector3d& along) {
    Joint joint;
    joint.name = "joint " + std::to_string(case_.parts.joints.size() + 1);
    joint.type = type;
    joint.child = child;
    joint.parent = parent;
    joint.through = through;
    joint.along = along.normalized();
    case_.parts.joints.push_back(joint);
    return case_.parts.joints.back();
  }

  Vector3d randomPoint(double reach) {
    return reach *
           Vector3d(uniform(random_, -1, 1), uniform(random_, -1, 1), uniform(random_, -1, 1));
  }

  /// Random, or square to the frame, as parts are drawn.
  Pose randomPlace(double reach) {
    if (chance(random_, 0.25)) return translation(randomPoint(reach));
    return shapes::randomPose(random_, reach);
  }
  Vector3d randomAxis() {
    return chance(random_, 0.25) ? Vector3d(Vector3d::Unit(static_cast<int>(random_() % 3)))
                                 : randomDirection(random_);
  }

  void addRandomJoint(JointType type, PartId child, std::optional<PartId> parent) {
    addJoint(type, child, parent, randomPoint(sizeMm_), randomAxis());
  }

  JointType hingeOrSlide() { return chance(random_, 0.6) ? JointType::hinge : JointType::slide; }

  /// Two or three parts in random places.
  void makeScattered() {
    const bool nested = chance(random_, 0.08);  // Small and near the middle of the other.
    const PartId a = addPart(randomPart(random_, sizeMm_), randomPlace(nested ? 0 : 0.2 * sizeMm_));
    const double other =
        sizeMm_ * (nested ? uniform(random_, 0.02, 0.2) : logUniform(random_, 0.1, 1.5));
    const PartId b =
        addPart(randomPart(random_, other), randomPlace((nested ? 0.1 : 0.8) * sizeMm_));
    aimed_ = !nested;
    switch (case_.kind) {
      case MotionKind::hinge:
        addRandomJoint(JointType::hinge, b, a);
        break;
      case MotionKind::slide:
        addRandomJoint(JointType::slide, b, chance(random_, 0.5) ? std::optional(a) : std::nullopt);
        break;
      case MotionKind::ball:
        addRandomJoint(JointType::ball, b, a);
        if (chance(random_, 0.4)) addRandomJoint(hingeOrSlide(), a, std::nullopt);
        if (chance(random_, 0.4)) addRandomJoint(hingeOrSlide(), b, a);
        break;
      default:
        makeChain(a, b);
    }
  }

  /// Two or three joints between the parts: on one mount, on either side of the ground, or by way
  /// of a third part.
  void makeChain(PartId a, PartId b) {
    const bool third = chance(random_, 0.4);
    switch (random_() % 3) {
      case 0:
        addRandomJoint(hingeOrSlide(), b, a);
        addRandomJoint(hingeOrSlide(), b, a);
        if (third) addRandomJoint(hingeOrSlide(), b, a);
        break;
      case 1:
        addRandomJoint(hingeOrSlide(), a, std::nullopt);
        addRandomJoint(hingeOrSlide(), b, std::nullopt);
        if (third) addRandomJoint(hingeOrSlide(), b, std::nullopt);
        break;
      default: {
        const double size = sizeMm_ * logUniform(random_, 0.1, 1);
        const PartId between = addPart(randomPart(random_, size), randomPlace(sizeMm_));
        addRandomJoint(hingeOrSlide(), between, a);
        addRandomJoint(hingeOrSlide(), b, between);
        if (third) addRandomJoint(hingeOrSlide(), a, std::nullopt);
      }
    }
  }

  int facets(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }

  /// Round parts about one axis, close to each other all the way.
  void makeCoaxial() {
    const Pose X_WF = randomPlace(sizeMm_);
    const Vector3d through = X_WF.translation(), along = X_WF.linear().col(2);
    const double hole = sizeMm_ * uniform(random_, 0.1, 0.4),
                 wall = sizeMm_ * uniform(random_, 0.03, 0.2);
    const double gap = std::min(0.5 * hole, logUniform(random_, 0.02, 1));
    const double tall = sizeMm_ * uniform(random_, 0.1, 1);
    const TriangleMesh outer = shapes::tube(hole + wall, hole, -tall / 2, tall / 2, facets(6, 64));
    const double inner = hole - gap;
    const TriangleMesh pin = chance(random_, 0.5)
                                 ? shapes::cylinder(inner, -tall, tall, facets(5, 64))
                                 : shapes::tube(inner, 0.7 * inner, -tall, tall, facets(5, 64));
    // Off the axis, or tilted, by some of the gap.
    Pose X_FP = translation(Vector3d(chance(random_, 0.5) ? uniform(random_, 0, gap) : 0, 0,
                                     chance(random_, 0.5) ? uniform(random_, -tall, tall) : 0));
    if (chance(random_, 0.3)) {
      X_FP = X_FP * Eigen::AngleAxisd(uniform(random_, 0, 0.5 * gap / tall), Vector3d::UnitX());
    }
    const PartId a = addPart({"tube", asInFile(outer)}, X_WF);
    const PartId b = addPart({"pin", asInFile(pin)}, X_WF * X_FP);
    aimed_ = false;
    reach_ = tall;
    switch (random_() % 4) {
      case 0:
        addJoint(JointType::hinge, a, std::nullopt, through, along);
        addJoint(JointType::hinge, b, std::nullopt, through, along);
        break;
      case 1:
        addJoint(JointType::slide, b, a, through, along);
        break;
      case 2:
        addJoint(JointType::slide, b, a, through, along);
        addJoint(JointType::hinge, b, a, through, along);
        break;
      default:
        addJoint(JointType::hinge, b, a, through, along);
        addJoint(JointType::hinge, b, a, through, along);
        if (chance(random_, 0.5)) addJoint(JointType::slide, a, std::nullopt, through, along);
    }
  }

  /// A thin bar that is swung or pushed past thin posts.
  void makeThin() {
    const double thickness = sizeMm_ * logUniform(random_, 0.004, 0.05);
    std::vector<TriangleMesh> posts;
    const int count = facets(1, 4);
    for (int i = 0; i < count; ++i) {
      const double turn = uniform(random_, 0, 2 * kPi), away = sizeMm_ * uniform(random_, 0.3, 1);
      const double thick = thickness * uniform(random_, 0.3, 2),
                   tall = sizeMm_ * uniform(random_, 0.1, 0.6);
      const TriangleMesh post = chance(random_, 0.5)
                                    ? shapes::cylinder(thick, -tall, 0, facets(5, 24))
                                    : shapes::box({-thick, -thick, -tall}, {thick, thick, 0});
      // Far enough from the others not to cross them: each has a sector of its own.
      const double sector = (i + 0.2 + 0.6 * turn / (2 * kPi)) * 2 * kPi / count;
      posts.push_back(shapes::moved(
          post, translation({away * std::cos(sector), away * std::sin(sector),
                             chance(random_, 0.3) ? 0.0 : uniform(random_, -0.5, 1) * tall})));
    }
    const double length = sizeMm_ * uniform(random_, 0.3, 1.1);
    const TriangleMesh bar =
        chance(random_, 0.6)
            ? shapes::box({0, -thickness, 0}, {length, thickness, thickness})
            : shapes::moved(shapes::cylinder(thickness, 0, length, facets(5, 20)),
                            rotationAbout(Vector3d::Zero(), Vector3d::UnitY(), kPi / 2));
    const Pose X_WF = randomPlace(sizeMm_);
    const Pose X_FB = translation(Vector3d(0, 0, thickness * uniform(random_, -2, 3)));
    const PartId a = addPart({"posts", asInFile(shapes::joined(posts))}, X_WF);
    const PartId b = addPart({"bar", asInFile(bar)}, X_WF * X_FB);
    const Vector3d through = X_WF.translation(), up = X_WF.linear().col(2);
    wide_ = true;
    aimed_ = chance(random_, 0.6);
    aimAlong_ = chance(random_, 0.7) ? up : Vector3d(X_WF.linear().col(0));
    switch (random_() % 4) {
      case 0:
      case 1:
        addJoint(JointType::hinge, b, a, through, up);
        break;
      case 2:
        addJoint(JointType::slide, b, a, through, X_WF.linear().col(1));
        break;
      default:
        addJoint(JointType::hinge, b, a, through, up);
        addJoint(JointType::slide, b, a, through, X_WF.linear().col(0));
    }
  }

  /// A small part, far from its axes, whose way curves into a plate: see `placePlate`.
  void makeCurving() {
    aimed_ = false;
    const double half = sizeMm_ * uniform(random_, 0.5, 3);
    addPart({"plate", asInFile(boxOf({half, half, 0.05 * sizeMm_}))}, Pose::Identity());
    const double small = sizeMm_ * logUniform(random_, 0.01, 0.2);
    const Pose X_WB = shapes::randomPose(random_, sizeMm_);
    const PartId b = addPart(randomPart(random_, small), X_WB);
    const int joints = chance(random_, 0.5) ? 1 : facets(2, 3);
    for (int j = 0; j < joints; ++j) {
      const JointType type = joints == 1 ? JointType::hinge : hingeOrSlide();
      addRandomJoint(chance(random_, 0.15) ? JointType::ball : type, b, std::nullopt);
    }
  }

  /// Unit, across `velocity`: along the acceleration, or across that too, where only higher terms
  /// of the motion count, or any.
  Vector3d bendDirection(const Vector3d& velocity, const Vector3d& acceleration) {
    const Vector3d along = velocity.normalized();
    const double pick = uniform(random_, 0, 1);
    Vector3d n = pick < 0.5 ? acceleration : randomDirection(random_);
    if (pick > 0.7) n = along.cross(acceleration);
    n -= along * along.dot(n);
    return n.normalized();
  }

  /// Across the way at one instant, so near that the way bends into the plate after a while: little
  /// of that is seen in the speed at the instant; only true bounds of the higher terms help. The
  /// instant is a middle of halved intervals, and the while about as long as half of one.
  void placePlate() {
    const Assembly assembly = case_.assembly();
    const PairKinematics motion(assembly, case_.sequence, PartId{0}, PartId{1});
    const int halvings = facets(1, 5);
    const double wide = std::pow(0.5, halvings);
    const double middle = wide * (2 * facets(0, (1 << halvings) / 2 - 1) + 1);
    const double off = chance(random_, 0.5) ? 0 : uniform(random_, -0.2, 0.2) * wide;
    const double t = std::clamp(middle + off, 0.01, 0.99), d = 1e-3;
    const auto place = [&](double at) { return Vector3d(motion.at(at).translation()); };
    const Vector3d velocity = (place(t + d) - place(t - d)) / (2 * d);
    const Vector3d acceleration = (place(t + d) + place(t - d) - 2 * place(t)) / (d * d);
    Vector3d normal = bendDirection(velocity, acceleration);
    const double half = wide * uniform(random_, 0.4, 1.1);
    const auto along = [&](double at) {
      return normal.dot(place(std::clamp(at, 0.0, 1.0)) - place(t));
    };
    const auto farther = [](double x, double y) { return std::abs(x) > std::abs(y) ? x : y; };
    const double bend = farther(along(t - half), along(t + half));
    if (!normal.allFinite() || std::abs(bend) < 1e-4 * sizeMm_) return;
    if (bend < 0) normal = -normal;
    const double gap = std::abs(bend) * uniform(random_, 0.3, 1.1);
    double foremost = -std::numeric_limits<double>::infinity();
    for (const Vector3d& v : case_.parts.parts[1].mesh->vertices) {
      foremost = std::max(foremost, normal.dot(motion.at(t) * v));
    }
    const double thick = boundsOf(*case_.parts.parts[0].mesh).max().z();
    Pose X_WA = Pose::Identity();
    X_WA.linear() =
        Eigen::Quaterniond::FromTwoVectors(Vector3d::UnitZ(), normal).toRotationMatrix();
    X_WA.translation() = place(t) + normal * (foremost - normal.dot(place(t)) + gap + thick);
    case_.parts.parts[0].X_WP_home = X_WA;
  }

  JointValue randomValue(const Joint& joint) {
    const double turn = wide_ || chance(random_, 0.3) ? 3.1 : logUniform(random_, 0.02, 2.5);
    const double way = reach_ > 0 ? reach_ : sizeMm_ * logUniform(random_, 0.02, 1.5);
    switch (joint.type) {
      case JointType::hinge:
        return {uniform(random_, -1, 1) * turn, 0, 0};
      case JointType::slide:
        return {uniform(random_, -1, 1) * way, 0, 0};
      case JointType::ball:
        return std::min(turn, 1.3) * uniform(random_, 0.1, 1) * randomDirection(random_);
      case JointType::fixed:
        break;
    }
    return JointValue::Zero();
  }

  void addSequence() {
    const bool isFree = case_.kind == MotionKind::free;
    const int steps = chance(random_, 0.7) ? 1 : facets(2, 3);
    const Configuration home = case_.assembly().home();
    std::vector<Configuration> stations(static_cast<std::size_t>(steps) + 1, home);
    for (std::size_t s = chance(random_, 0.5) ? 1 : 0; s < stations.size(); ++s) {
      for (std::size_t j = 0; j < case_.parts.joints.size(); ++j) {
        stations[s].values[j] = randomValue(case_.parts.joints[j]);
        if (s > 0 && steps > 1 && chance(random_, 0.3))
          stations[s].values[j] = stations[s - 1].values[j];
      }
    }
    case_.modes = {{"start", stations.front()}, {"end", stations.back()}};
    case_.sequence = {"way", ModeId{0}, ModeId{1}, {}};
    for (std::size_t s = 0; s + 1 < stations.size(); ++s) {
      const StepOrder order =
          isFree && chance(random_, 0.9) ? StepOrder::free : StepOrder::together;
      case_.sequence.steps.push_back(
          {"step " + std::to_string(s + 1), order, stations[s], stations[s + 1]});
    }
  }

  double sampledGap(const GapReference& gaps, const Pose& X_WB) {
    case_.parts.parts[1].X_WP_home = X_WB;
    const Assembly assembly = case_.assembly();
    const PairKinematics motion(assembly, case_.sequence, PartId{0}, PartId{1});
    double least = std::numeric_limits<double>::infinity();
    const int samples = wide_ ? 60 : 24;
    for (int i = 0; i <= samples && least > 0; ++i) {
      least = std::min(least, gaps.quickGap(motion.at(static_cast<double>(i) / samples), least));
    }
    return least;
  }

  double aimedGap() {
    const double required = case_.parts.requiredGapMm;
    if (chance(random_, 0.4)) return logUniform(random_, 1e-5, 0.05);
    if (chance(random_, 0.2)) return std::max(1e-4, required + uniform(random_, -0.01, 0.01));
    return uniform(random_, 0, required + 1.5);
  }

  /// Puts the second part, joints staying where they are, so that its least gap to the first is
  /// some small one: else most motions would be far apart or deep in each other.
  void aim() {
    if (chance(random_, 0.15)) return;
    const double target = aimedGap();
    const Vector3d along = aimAlong_.isZero() ? randomDirection(random_) : aimAlong_;
    const GapReference gaps(*case_.parts.parts[0].mesh, *case_.parts.parts[1].mesh);
    const Pose X_WB = case_.parts.parts[1].X_WP_home;
    const auto gapAt = [&](double shift) {
      return sampledGap(gaps, translation(shift * along) * X_WB);
    };
    constexpr int kTries = 8;
    const double reach = (wide_ ? 0.3 : 2) * sizeMm_;
    double last = -reach, lastGap = gapAt(last), shift = 0;
    for (int i = 1; i <= kTries; ++i) {
      double next = reach * (2.0 * i / kTries - 1);
      const double nextGap = gapAt(next);
      if ((lastGap > target) != (nextGap > target)) {
        const bool rises = nextGap > target;
        for (int k = 0; k < 16; ++k) {
          const double middle = 0.5 * (last + next);
          ((gapAt(middle) > target) == rises ? next : last) = middle;
        }
        shift = 0.5 * (last + next);
        // Some a little farther, into a contact that is shallow and short.
        if (chance(random_, 0.35))
          shift -= (rises ? 1 : -1) * sizeMm_ * logUniform(random_, 1e-5, 0.1);
        break;
      }
      last = next, lastGap = nextGap;
    }
    case_.parts.parts[1].X_WP_home = translation(shift * along) * X_WB;
  }

  void describe() {
    std::string joints;
    const char* words[] = {"hinge", "slide", "ball", "fixed"};
    for (const Joint& joint : case_.parts.joints) {
      joints += std::string(joints.empty() ? "" : " + ") + words[static_cast<int>(joint.type)];
    }
    char size[80];
    std::snprintf(size, sizeof size, "%.1f mm, required %.2f mm", sizeMm_,
                  case_.parts.requiredGapMm);
    case_.description +=
        "; " + joints + "; " + std::to_string(case_.sequence.steps.size()) + " steps; " + size;
  }

  RandomCase case_;
  Random random_;
  double sizeMm_ = 0;
  double reach_ = 0;   ///< Of slides, if given, mm.
  bool wide_ = false;  ///< Hinges turn far.
  bool aimed_ = true;
  Vector3d aimAlong_ = Vector3d::Zero();
};

}  // namespace

const char* nameOf(MotionKind kind) {
  constexpr const char* names[] = {"hinge", "slide", "chain",   "coaxial",
                                   "thin",  "ball",  "curving", "free"};
  static_assert(std::size(names) == static_cast<std::size_t>(MotionKind::count));
  return names[static_cast<int>(kind)];
}

MotionKind kindOf(int number) {
  return static_cast<MotionKind>(number % static_cast<int>(MotionKind::count));
}

RandomCase randomCase(std::uint64_t suiteSeed, int number) {
  return CaseMaker(suiteSeed, number).make();
}

}  // namespace swingroom::random_suite
