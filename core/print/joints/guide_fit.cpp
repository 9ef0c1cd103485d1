#include "core/print/joints/guide_fit.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/print/joints/pin_fit.h"
#include "core/rigging/facing.h"

namespace swingroom {
namespace {

constexpr int kGuideWays = 24;
constexpr double kGuideAcross = 0.9;  // Of a face that stops a way: cosine to it.
constexpr double kGuideAlong = 0.3;   // Of a face that stops the slide itself.

/// How far the child gets along `way` before a face stops it.
double travelAlong(const std::vector<FacingSample>& samples, const Vector3d& way) {
  double least = std::numeric_limits<double>::infinity();
  for (const FacingSample& s : samples) {
    const double facing = s.normal_W.dot(way);
    if (facing > kGuideAcross) least = std::min(least, s.gapMm / facing);
  }
  return least;
}

/// The direction across the slide that most area looks to, either way.
Vector3d mainWay(const std::vector<FacingSample>& samples, const Vector3d& along) {
  const FacingSample* best = nullptr;
  double most = 0;
  const Vector3d x = along.unitOrthogonal(), y = along.cross(x);
  std::vector<double> areas(180, 0);
  std::vector<const FacingSample*> firsts(180, nullptr);
  for (const FacingSample& s : samples) {
    const double turn = std::atan2(s.normal_W.dot(y), s.normal_W.dot(x)) / kPi + 2;
    const auto bin = static_cast<std::size_t>(turn * 180 + 0.5) % 180;
    areas[bin] += s.areaMm2;
    if (!firsts[bin]) firsts[bin] = &s;
  }
  for (std::size_t i = 0; i < areas.size(); ++i) {
    if (areas[i] <= most) continue;
    most = areas[i];
    best = firsts[i];
  }
  if (!best) return x;
  return (best->normal_W - best->normal_W.dot(along) * along).normalized();
}

/// Over how much of a direction both parts reach.
double bothAlong(const RigPart& a, const RigPart& b, const Vector3d& along) {
  double from = -std::numeric_limits<double>::infinity(), to = -from;
  for (const RigPart* part : {&a, &b}) {
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (const Vector3d& p : part->shape->mesh->vertices) {
      const double at = (part->X_WP * p).dot(along);
      low = std::min(low, at);
      high = std::max(high, at);
    }
    from = std::max(from, low);
    to = std::min(to, high);
  }
  return std::max(0.0, to - from);
}

}  // namespace

bool describeGuide(const PrintSubject& subject, const std::vector<RigPart>& parts,
                   const JointStanding& standing, FitFigure& joint) {
  const Vector3d& along = standing.along_W;
  double least = std::numeric_limits<double>::infinity(), most = 0;
  PartId guide;
  for (const PartId child : standing.childSide) {
    std::vector<FacingSample> samples;
    for (const PartId parent : standing.parentSide) {
      const auto facing = facingBetween(parts[parent.index], parts[child.index]);
      if (!facing) continue;
      if (samples.empty()) guide = parent;
      samples.insert(samples.end(), facing->samples.begin(), facing->samples.end());
    }
    std::erase_if(samples, [&](const FacingSample& s) {
      return std::abs(s.normal_W.dot(along)) > kGuideAlong;
    });
    if (samples.empty()) continue;
    const Vector3d x = mainWay(samples, along), y = along.cross(x);
    for (int i = 0; i < kGuideWays; ++i) {
      const double angle = kPi * i / kGuideWays;
      const Vector3d way = std::cos(angle) * x + std::sin(angle) * y;
      const double sum = travelAlong(samples, way) + travelAlong(samples, -way);
      if (!std::isfinite(sum)) continue;
      least = std::min(least, sum);
      most = std::max(most, sum);
    }
    if (!std::isfinite(least)) continue;
    joint.shape = FitShape::guide;
    joint.pinPart = child;
    joint.holePart = guide;
    joint.at_W = parts[child.index].X_WP * parts[child.index].shape->bounds.center();
    joint.along_W = along;
    joint.clearanceMm = {least, most};
    joint.lengthMm = joint.spanMm = bothAlong(parts[child.index], parts[guide.index], along);
    const PartPrint &c = subject.print(child), &g = subject.print(guide);
    describePrinted((c.printed ? 2 * c.process.growthOutsideMm.value : 0) +
                        (g.printed ? 2 * g.process.growthInsideMm.value : 0),
                    fitScatterMm(subject, child, guide), joint);
    return true;
  }
  return false;
}

}  // namespace swingroom
