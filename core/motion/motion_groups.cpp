#include "core/motion/motion_groups.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "core/mesh/mass_properties.h"
#include "core/motion/screw.h"

namespace swingroom {
namespace {

constexpr double kSameMm = 0.02;
constexpr double kSameRad = radFromDeg(0.02);

bool alike(const Pose& a, const Pose& b, const Eigen::AlignedBox3d& box) {
  const Eigen::Matrix3d turned = a.linear().transpose() * b.linear();
  if (rotationVectorOf(turned).norm() > kSameRad) return false;
  for (int i = 0; i < 8; ++i) {
    const Vector3d p = box.corner(static_cast<Eigen::AlignedBox3d::CornerType>(i));
    if ((a * p - b * p).norm() > kSameMm) return false;
  }
  return true;
}

bool allAlike(const std::vector<Pose>& a, const std::vector<Pose>& b,
              const Eigen::AlignedBox3d& box) {
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) {
    if (!alike(a[i], b[i], box)) return false;
  }
  return true;
}

double reachOfMotion(const Pose& X, const Eigen::AlignedBox3d& box) {
  double most = 0;
  for (int i = 0; i < 8; ++i) {
    const Vector3d p = box.corner(static_cast<Eigen::AlignedBox3d::CornerType>(i));
    most = std::max(most, (X * p - p).norm());
  }
  return most;
}

class Grouper {
 public:
  explicit Grouper(const std::vector<PartInTwoModes>& parts) : parts_(parts) {
    for (const PartInTwoModes& part : parts) {
      boxes_.push_back(boundsOf(*part.mesh));
      volumes_.push_back(std::abs(massProperties(*part.mesh).volumeMm3));
    }
    order_.resize(parts.size());
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    std::stable_sort(order_.begin(), order_.end(),
                     [this](std::size_t a, std::size_t b) { return volumes_[a] > volumes_[b]; });
  }

  MotionGroups grouped() {
    for (const std::size_t part : order_) {
      if (parts_[part].alternatives.empty()) add(part, parts_[part].D);
    }
    groundFirst();
    for (const std::size_t part : order_) {
      if (!parts_[part].alternatives.empty()) addBest(part);
    }
    groundFirst();  // Again: there may have been no part that fits in one way only.
    takeOffGround();
    sort();
    return std::move(result_);
  }

 private:
  MotionGroup* groupOf(std::size_t part, const Pose& D) {
    const std::vector<Pose>& onTheWay = parts_[part].onTheWay;
    for (MotionGroup& group : result_.groups) {
      const Eigen::AlignedBox3d& box = boxes_[group.parts.front()];
      if (alike(D, group.D, boxes_[part]) && alike(D, group.D, box) &&
          allAlike(onTheWay, group.onTheWay, boxes_[part]) &&
          allAlike(onTheWay, group.onTheWay, box)) {
        return &group;
      }
    }
    return nullptr;
  }

  void add(std::size_t part, const Pose& D) {
    if (MotionGroup* group = groupOf(part, D)) {
      group->parts.push_back(part);
    } else {
      result_.groups.push_back({{part}, D, parts_[part].onTheWay});
    }
  }

  void addBest(std::size_t part) {
    result_.chosen.push_back(part);
    std::vector<Pose> ways{parts_[part].D};
    ways.insert(ways.end(), parts_[part].alternatives.begin(), parts_[part].alternatives.end());
    for (MotionGroup& group : result_.groups) {
      for (const Pose& D : ways) {
        if (groupOf(part, D) != &group) continue;
        group.parts.push_back(part);
        return;
      }
    }
    // The least turn against the ground, as far as it is known.
    const Pose back =
        result_.groups.empty() ? Pose::Identity() : result_.groups.front().D.inverse();
    const auto least =
        std::max_element(ways.begin(), ways.end(), [&](const Pose& a, const Pose& b) {
          return (back * a).linear().trace() < (back * b).linear().trace() - 1e-9;
        });
    result_.groups.push_back({{part}, *least, parts_[part].onTheWay});
  }

  /// The still group to the front, if there is one.
  void groundFirst() {
    auto& groups = result_.groups;
    const auto still = std::find_if(groups.begin(), groups.end(), [this](const MotionGroup& group) {
      const std::vector<Pose> none(group.onTheWay.size(), Pose::Identity());
      const Eigen::AlignedBox3d& box = boxes_[group.parts.front()];
      return alike(group.D, Pose::Identity(), box) && allAlike(group.onTheWay, none, box);
    });
    if (still == groups.end()) return;
    still->D = Pose::Identity();
    for (Pose& pose : still->onTheWay) pose = Pose::Identity();
    std::rotate(groups.begin(), still, still + 1);
  }

  void takeOffGround() {
    const MotionGroup ground = result_.groups.front();
    const auto still = [](const Pose& pose) { return pose.matrix() == Pose::Identity().matrix(); };
    if (still(ground.D) &&
        std::all_of(ground.onTheWay.begin(), ground.onTheWay.end(), still)) {
      return;
    }
    result_.takenOff.push_back(ground.D);
    for (MotionGroup& group : result_.groups) {
      group.D = ground.D.inverse() * group.D;
      for (std::size_t i = 0; i < group.onTheWay.size(); ++i) {
        group.onTheWay[i] = ground.onTheWay[i].inverse() * group.onTheWay[i];
      }
    }
    result_.groups.front().D = Pose::Identity();
    for (Pose& pose : result_.groups.front().onTheWay) pose = Pose::Identity();
  }

  void sort() {
    auto& groups = result_.groups;
    for (MotionGroup& group : groups) {
      std::stable_sort(group.parts.begin(), group.parts.end(),
                       [this](std::size_t a, std::size_t b) {
                         return volumes_[a] != volumes_[b] ? volumes_[a] > volumes_[b] : a < b;
                       });
    }
    std::sort(groups.begin() + 1, groups.end(), [](const MotionGroup& a, const MotionGroup& b) {
      return a.parts.front() < b.parts.front();
    });
    std::sort(result_.chosen.begin(), result_.chosen.end());
  }

  const std::vector<PartInTwoModes>& parts_;
  std::vector<Eigen::AlignedBox3d> boxes_;
  std::vector<double> volumes_;
  std::vector<std::size_t> order_;  // By falling volume.
  MotionGroups result_;
};

}  // namespace

FarthestMotion farthestMotion(const MotionGroup& a, const MotionGroup& b,
                              const Eigen::AlignedBox3d& box) {
  constexpr double kFartherMm = 1e-3;  // Equal ones would be told apart by rounding.
  FarthestMotion farthest{a.D.inverse() * b.D, std::nullopt};
  double most = reachOfMotion(farthest.X, box);
  for (std::size_t i = 0; i < std::min(a.onTheWay.size(), b.onTheWay.size()); ++i) {
    const Pose X = a.onTheWay[i].inverse() * b.onTheWay[i];
    const double reach = reachOfMotion(X, box);
    if (reach <= most + kFartherMm) continue;
    most = reach;
    farthest = {X, i};
  }
  return farthest;
}

MotionGroups groupByMotion(const std::vector<PartInTwoModes>& parts) {
  if (parts.empty()) throw std::invalid_argument("groupByMotion: no part");
  return Grouper(parts).grouped();
}

}  // namespace swingroom
