#include "tests/benchmarks/sweep_figures.h"

#include <map>

#include "tests/benchmarks/sweep_solids.h"
#include "tests/support/shapes.h"

namespace swingroom::bench {
namespace {

/// A limb of a figure. Lengths in mm, x to the left of the figure, y to its front, z up; angles in
/// degrees. A side limb is made twice, the second one mirrored at x = 0.
struct Limb {
  std::string name;
  Vector3d centre;
  Vector3d half;
  double edgeRadius;
  std::string parent;  ///< Empty: it stands still.
  JointType type;
  Vector3d through;
  Vector3d along;
  /// Where its joint stands after each step: turns about or mm along `along`; about x, y and z of
  /// a ball.
  std::vector<Vector3d> stands;
};

Vector3d turn(double angleDeg) {
  return {angleDeg, 0, 0};
}

/// A mirrored turn about an axis: its x stays, its y and z change sign.
Vector3d mirroredTurn(const Vector3d& axis) {
  return {axis.x(), -axis.y(), -axis.z()};
}

class FigureMaker {
 public:
  explicit FigureMaker(std::size_t trianglesEach) : triangles_(trianglesEach) {}

  void addMiddle(const Limb& limb) { add(limb, limb.name, limb.parent, 1); }
  void addBothSides(const Limb& limb) {
    for (const int side : {1, -1}) {
      const std::string parent = nameOn(limb.parent, side);
      add(limb, nameOn(limb.name, side), parts_.count(parent) ? parent : limb.parent, side);
    }
  }
  Mechanism finished() {
    for (const auto& moves : steps_) figure_.addStep(moves);
    return std::move(figure_);
  }

 private:
  static std::string nameOn(const std::string& name, int side) {
    return std::string(side > 0 ? "left " : "right ") + name;
  }

  void add(const Limb& limb, const std::string& name, const std::string& parent, int side) {
    const Vector3d across(side, 1, 1);
    const TriangleMesh block =
        bumpyBlock(limb.half, limb.edgeRadius, triangles_, {parts_.size() + 1, 0.25});
    const PartId part = figure_.addPart(
        name, transformed(block, Eigen::Affine3d(translation(across.cwiseProduct(limb.centre)))));
    parts_[name] = part;
    if (limb.parent.empty()) return;
    const PartId carrier = parts_.at(parent);
    const Vector3d through = across.cwiseProduct(limb.through);
    const JointId joint = addJoint(limb, part, carrier, through, side);
    steps_.resize(std::max(steps_.size(), limb.stands.size()));
    for (std::size_t s = 0; s < limb.stands.size(); ++s)
      steps_[s].emplace_back(joint, valueOf(limb, limb.stands[s], side));
  }

  JointId addJoint(const Limb& limb, PartId part, PartId carrier, const Vector3d& through,
                   int side) {
    if (limb.type == JointType::ball) return figure_.addBall(part, carrier, through);
    if (limb.type == JointType::slide) {
      return figure_.addSlide(part, carrier, Vector3d(side, 1, 1).cwiseProduct(limb.along));
    }
    return figure_.addHinge(part, carrier, through,
                            side > 0 ? limb.along : mirroredTurn(limb.along));
  }

  static JointValue valueOf(const Limb& limb, const Vector3d& stand, int side) {
    if (limb.type == JointType::slide) return stand;
    const Vector3d turned = stand * (kPi / 180);
    return limb.type == JointType::ball && side < 0 ? mirroredTurn(turned) : turned;
  }

  std::size_t triangles_;
  Mechanism figure_;
  std::map<std::string, PartId> parts_;
  std::vector<std::vector<std::pair<JointId, JointValue>>> steps_;
};

const Vector3d kX = Vector3d::UnitX();
const Vector3d kY = Vector3d::UnitY();
constexpr auto kHinge = JointType::hinge;
constexpr auto kSlide = JointType::slide;
constexpr auto kBall = JointType::ball;

}  // namespace

Mechanism figureOf16(std::size_t trianglesEach) {
  FigureMaker figure(trianglesEach);
  figure.addMiddle({"torso", {0, 0, 64}, {13, 8, 13}, 2, "", kHinge, kOrigin, kX, {}});
  figure.addMiddle({"chest",
                    {0, 11, 64},
                    {13, 1.75, 12.6},
                    1,
                    "torso",
                    kHinge,
                    {0, 9, 76},
                    kX,
                    {turn(4.5), turn(5), turn(40.5), turn(-5.5)}});
  figure.addMiddle({"head",
                    {0, 1, 86},
                    {12.6, 9.5, 8},
                    3,
                    "torso",
                    kBall,
                    {0, 0, 78},
                    kZ,
                    {{4, 4, 12}, {-7, 6.5, -6.5}, {-0.5, 3.5, -7}, {4.5, 1.5, 2}}});
  figure.addMiddle({"pelvis",
                    {0, 1, 43.5},
                    {13, 9.5, 6.5},
                    2,
                    "torso",
                    kSlide,
                    kOrigin,
                    kZ,
                    {turn(-0.5), turn(-2), turn(0.5), turn(-2.5)}});
  figure.addBothSides({"shoulder",
                       {18.7, 0, 75},
                       {4.7, 8.5, 9},
                       2,
                       "torso",
                       kHinge,
                       {14, 0, 72},
                       kX,
                       {turn(15.5), turn(90), turn(73.5), turn(30)}});
  figure.addBothSides({"upper arm",
                       {18.7, 0, 57},
                       {4.6, 7, 8},
                       2,
                       "shoulder",
                       kBall,
                       {18.7, 0, 66},
                       kZ,
                       {{12.5, -2.5, 4.5}, {0, 0, 12}, {-2.5, 4.5, -1}, {27.5, -0.5, 6}}});
  figure.addBothSides({"forearm",
                       {18.7, 0, 39},
                       {4.6, 6, 8.8},
                       2,
                       "upper arm",
                       kHinge,
                       {18.7, 0, 48.2},
                       kX,
                       {turn(29), turn(103), turn(125), turn(44)}});
  figure.addBothSides({"thigh",
                       {6.8, 0, 27.5},
                       {6.2, 7.5, 8.7},
                       2,
                       "pelvis",
                       kBall,
                       {6.8, 0, 36.5},
                       kZ,
                       {{-6.5, 2.5, -1}, {3, 2, -5.5}, {84.5, 2.5, 1}, {96, -2, 4}}});
  figure.addBothSides({"shin",
                       {6.8, 0, 10},
                       {6.2, 7, 8},
                       2,
                       "thigh",
                       kHinge,
                       {6.8, -1, 18.4},
                       kX,
                       {turn(-19.5), turn(-25.5), turn(-113.5), turn(-135)}});
  figure.addBothSides({"foot",
                       {6.8, 3, -1.7},
                       {6.1, 9.5, 3},
                       1.5,
                       "shin",
                       kHinge,
                       {6.8, -2, 1},
                       kX,
                       {turn(-7.5), turn(0), turn(-13), turn(-27.5)}});
  return figure.finished();
}

Mechanism figureOf40(std::size_t trianglesEach) {
  FigureMaker figure(trianglesEach);
  figure.addMiddle({"torso", {0, 0, 64}, {13, 8, 9}, 3, "", kHinge, kOrigin, kX, {}});
  figure.addMiddle({"chest",
                    {0, 11.2, 66},
                    {11, 2, 8},
                    1.5,
                    "torso",
                    kHinge,
                    {0, 9, 75},
                    kX,
                    {turn(0), turn(12), turn(12), turn(4)}});
  figure.addMiddle({"neck",
                    {0, 0, 76},
                    {4, 4, 2},
                    1.5,
                    "torso",
                    kSlide,
                    kOrigin,
                    kZ,
                    {turn(0), turn(1), turn(-0.5), turn(0)}});
  figure.addMiddle({"head",
                    {0, 0, 87},
                    {7.5, 7.5, 8},
                    4,
                    "neck",
                    kBall,
                    {0, 0, 78},
                    kZ,
                    {{0, 0, 40}, {0, 0, -30}, {-18, 0, 0}, {-18, 0, 0}}});
  figure.addMiddle({"visor",
                    {0, 9.6, 88},
                    {6, 1.4, 3.5},
                    1,
                    "head",
                    kHinge,
                    {0, 4, 92},
                    kX,
                    {turn(0), turn(35), turn(0), turn(0)}});
  figure.addMiddle({"waist",
                    {0, 0, 50.5},
                    {8, 6, 3.5},
                    2,
                    "torso",
                    kHinge,
                    {0, 0, 54},
                    kZ,
                    {turn(6), turn(-6), turn(0), turn(0)}});
  figure.addMiddle({"pelvis",
                    {0, 0, 41.5},
                    {11, 7.5, 4.5},
                    2.5,
                    "waist",
                    kSlide,
                    kOrigin,
                    kZ,
                    {turn(0), turn(-2), turn(-1), turn(0)}});
  figure.addMiddle({"apron",
                    {0, 9.8, 37.5},
                    {5, 1.3, 6},
                    1,
                    "pelvis",
                    kHinge,
                    {0, 8, 43},
                    kX,
                    {turn(0), turn(25), turn(80), turn(85)}});
  figure.addMiddle({"pack",
                    {0, -12, 66},
                    {9, 3, 7},
                    1.5,
                    "torso",
                    kSlide,
                    kOrigin,
                    -kY,
                    {turn(0), turn(3), turn(1), turn(0)}});
  figure.addMiddle({"tail",
                    {0, -10.5, 42},
                    {4, 2, 8},
                    1.5,
                    "pelvis",
                    kHinge,
                    {0, -8, 48},
                    kX,
                    {turn(-10), turn(-40), turn(-70), turn(-80)}});
  figure.addBothSides({"wing",
                       {14.5, -13, 66},
                       {4.5, 1.6, 10},
                       1.2,
                       "pack",
                       kHinge,
                       {9.5, -12, 66},
                       kZ,
                       {turn(0), turn(-40), turn(30), turn(0)}});
  figure.addBothSides({"shoulder",
                       {18.7, 0, 70},
                       {4.7, 6, 5},
                       2.5,
                       "torso",
                       kHinge,
                       {14, 0, 70},
                       kX,
                       {turn(20), turn(75), turn(55), turn(30)}});
  figure.addBothSides({"shoulder plate",
                       {25.2, 0, 71},
                       {1.2, 5.5, 6},
                       1,
                       "shoulder",
                       kHinge,
                       {24, 0, 76},
                       kY,
                       {turn(0), turn(-30), turn(-10), turn(0)}});
  figure.addBothSides({"upper arm",
                       {18.7, 0, 58.5},
                       {4.5, 5, 5.5},
                       2.5,
                       "shoulder",
                       kBall,
                       {18.7, 0, 64.5},
                       kZ,
                       {{0, 0, 0}, {0, 0, 12}, {0, 6, 0}, {0, 0, 0}}});
  figure.addBothSides({"elbow",
                       {18.7, 0, 50},
                       {3.6, 3.6, 2.4},
                       1.5,
                       "upper arm",
                       kHinge,
                       {18.7, 0, 51},
                       kX,
                       {turn(10), turn(45), turn(60), turn(30)}});
  figure.addBothSides({"forearm",
                       {18.7, 0, 40.5},
                       {4.3, 4.6, 6},
                       2.5,
                       "elbow",
                       kHinge,
                       {18.7, 0, 48},
                       Vector3d(1, 0, 0.3).normalized(),
                       {turn(10), turn(50), turn(60), turn(30)}});
  figure.addBothSides({"wrist",
                       {18.7, 0, 32},
                       {3, 3, 1.6},
                       1.2,
                       "forearm",
                       kSlide,
                       kOrigin,
                       kZ,
                       {turn(0), turn(0.5), turn(0.5), turn(0)}});
  figure.addBothSides({"hand",
                       {18.7, 0, 26},
                       {3.4, 2.6, 3.6},
                       1.5,
                       "wrist",
                       kBall,
                       {18.7, 0, 30.2},
                       kZ,
                       {{0, 0, 20}, {20, 0, 0}, {30, 0, 10}, {0, 0, 0}}});
  figure.addBothSides({"hip",
                       {6.2, 0, 33.6},
                       {4.6, 5.5, 2.5},
                       1.8,
                       "pelvis",
                       kHinge,
                       {6.2, 0, 34},
                       kX,
                       {turn(0), turn(10), turn(40), turn(45)}});
  figure.addBothSides({"thigh",
                       {6.2, 0, 23.5},
                       {5.4, 6.3, 6.5},
                       3,
                       "hip",
                       kBall,
                       {6.2, 0, 31},
                       kZ,
                       {{0, 0, 0}, {10, 0, 0}, {45, 0, 0}, {50, 0, 0}}});
  figure.addBothSides({"thigh plate",
                       {13.2, 0, 23.5},
                       {1.1, 4.5, 5.5},
                       0.9,
                       "thigh",
                       kHinge,
                       {12, 0, 29},
                       kY,
                       {turn(0), turn(-25), turn(-10), turn(0)}});
  figure.addBothSides({"knee",
                       {6.2, 0.5, 14.2},
                       {4.2, 4.8, 2.2},
                       1.5,
                       "thigh",
                       kHinge,
                       {6.2, -1, 15},
                       kX,
                       {turn(-3), turn(-10), turn(-45), turn(-70)}});
  figure.addBothSides({"shin",
                       {6.2, 0, 5.5},
                       {5.2, 6, 5.8},
                       2.5,
                       "knee",
                       kHinge,
                       {6.2, -1, 12.5},
                       kX,
                       {turn(-3), turn(-10), turn(-40), turn(-65)}});
  figure.addBothSides({"ankle",
                       {6.2, -1, -2.2},
                       {3.2, 3.2, 1.4},
                       1,
                       "shin",
                       kHinge,
                       {6.2, -1, -2},
                       kX,
                       {turn(0), turn(5), turn(0), turn(-10)}});
  figure.addBothSides({"foot",
                       {6.2, 3, -7},
                       {5.2, 9.5, 2.6},
                       1.8,
                       "ankle",
                       kHinge,
                       {6.2, -1, -4},
                       kX,
                       {turn(0), turn(5), turn(0), turn(-10)}});
  return figure.finished();
}

Mechanism crawlerOf(std::size_t parts, std::size_t trianglesEach) {
  FigureMaker figure(trianglesEach);
  constexpr double kPitchMm = 22;
  std::string before;
  for (std::size_t s = 0; 4 * s < parts; ++s) {
    const std::string number = " " + std::to_string(s + 1);
    const std::string body = "body" + number;
    const double x = kPitchMm * static_cast<double>(s);
    const double way = s % 2 == 0 ? 1 : -1;
    figure.addMiddle({body,
                      {x, 0, 14},
                      {10.4, 9, 6},
                      3,
                      before,
                      kHinge,
                      {x - 11, 0, 14},
                      kZ,
                      {turn(6 * way), turn(-6 * way)}});
    figure.addMiddle({"back" + number,
                      {x, 0, 22.2},
                      {11.2, 8, 1.5},
                      1.2,
                      body,
                      kHinge,
                      {x - 9, 0, 21},
                      kY,
                      {turn(-15), turn(0)}});
    for (const int side : {1, -1}) {
      figure.addMiddle({(side > 0 ? "left leg" : "right leg") + number,
                        {x, side * 12.7, 8},
                        {4, 3, 9},
                        2,
                        body,
                        kHinge,
                        {x, side * 10.0, 15},
                        kY,
                        {turn(26 * way * side), turn(-26 * way * side)}});
    }
    before = body;
  }
  return figure.finished();
}

}  // namespace swingroom::bench
