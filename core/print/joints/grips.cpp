#include "core/print/joints/grips.h"

#include <algorithm>
#include <cmath>

#include "core/print/joints/press_patch.h"
#include "core/sweep/contacts.h"
#include "core/sweep/deepest.h"
#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

constexpr double kGripStartMm = 1e-3;
constexpr double kGripAhead = 0.7;  // Of the way from one face to the opposite one.

double gripGrowthOf(const PartPrint& print) {
  return print.printed ? print.process.growthOutsideMm.value : 0;
}
/// Of one side of a size.
double gripScatterOf(const PartPrint& print) {
  return print.printed ? print.process.scatterMm.value / 2 : 0;
}

class GripMeasurer {
 public:
  GripMeasurer(const PrintSubject& subject, GripFigure& grip)
      : subject_(subject), assembly_(*subject.assembly), grip_(grip) {}

  void measure() {
    const PairRule& rule = *assembly_.ruleFor(grip_.a, grip_.b);
    const Contact& contact = rule.contacts[grip_.contact];
    if (contact.overlapMm) grip_.wantedMm = FitSpan{contact.overlapMm->min, contact.overlapMm->max};
    const Configuration& standing = (*subject_.modes)[grip_.mode.index].configuration;
    const std::vector<Pose> poses = posesOf(assembly_, standing);
    X_WA_ = poses[grip_.a.index];
    X_AB_ = X_WA_.inverse() * poses[grip_.b.index];
    surfaces_ = surfacesAt(contact, assembly_, standing, *subject_.geometry, grip_.a, grip_.b);
    const PartPrint &a = subject_.print(grip_.a), &b = subject_.print(grip_.b);
    grip_.scatterMm = std::hypot(gripScatterOf(a), gripScatterOf(b));
    overlap();
    if (!grip_.gapMm) return;
    grip_.printedMm = grip_.overlapLowerMm - *grip_.gapMm + gripGrowthOf(a) + gripGrowthOf(b);
    if (grip_.overlapUpperMm > 0) press();
  }

 private:
  const Solid& solidOf(PartId part) const { return (*subject_.geometry)[part.index]->solid; }
  const BoundingTree& treeOf(PartId part) const {
    return (*subject_.geometry)[part.index]->surface->tree;
  }

  void overlap() {
    if (surfaces_.a->tree.empty() || surfaces_.b->tree.empty()) return;
    const Solid &a = solidOf(grip_.a), &b = solidOf(grip_.b);
    grip_.gapMm = readContact(surfaces_, a, b, X_AB_).gapMm;
    const OverlapProbe probe{surfaces_.a.get(), surfaces_.b.get(), &a, &b};
    grip_.judged = probe.canMeasure();
    if (!grip_.judged || *grip_.gapMm > 0) return;
    const Overlap found = overlapAt(probe, X_AB_);
    grip_.overlapLowerMm = found.depthMm;
    grip_.overlapUpperMm = found.upperMm;
  }

  /// Faces that press, and what gives behind the largest one.
  void press() {
    // In A's frame, looking out of A: A's faces in B, or the other way round where only A is
    // closed.
    std::vector<PressPatch> patches =
        pressPatches(surfaces_.a->tree, solidOf(grip_.b), X_AB_.inverse());
    if (patches.empty()) {
      patches = pressPatches(surfaces_.b->tree, solidOf(grip_.a), X_AB_);
      for (PressPatch& patch : patches) {
        patch.normal = X_AB_.linear() * -patch.normal;
        patch.middle = X_AB_ * patch.middle;
      }
    }
    if (patches.empty()) return;
    const PressPatch& largest = patches.front();
    grip_.sides = patches.size();
    for (const PressPatch& patch : patches) grip_.areaMm2 += patch.areaMm2;
    grip_.lengthMm = largest.lengthMm;
    grip_.widthMm = largest.widthMm;
    grip_.at_A = largest.middle;
    grip_.press_W = X_WA_.linear() * largest.normal;
    strain(largest, patches);
  }

  void strain(const PressPatch& largest, const std::vector<PressPatch>& patches) {
    double ofA = thickness(treeOf(grip_.a), largest.middle, -largest.normal);
    double ofB = thickness(treeOf(grip_.b), X_AB_.inverse() * largest.middle,
                           X_AB_.linear().transpose() * largest.normal);
    for (const PressPatch& other : patches) {
      if (other.normal.dot(largest.normal) > -kGripAhead) continue;
      // The opposite face lies behind this one in A: A is held from both sides; else B is.
      const double behind = (largest.middle - other.middle).dot(largest.normal);
      (behind > 0 ? ofA : ofB) /= 2;
      break;
    }
    grip_.givesMm = ofA + ofB;
    if (grip_.givesMm <= 0) return;
    grip_.strain = grip_.overlapLowerMm / grip_.givesMm;
    grip_.printedStrain = grip_.printedMm / grip_.givesMm;
    const double modulus = std::min(subject_.print(grip_.a).material.modulusMPa.value,
                                    subject_.print(grip_.b).material.modulusMPa.value);
    grip_.forceN = modulus * grip_.printedStrain * largest.areaMm2;
  }

  /// Of the material along a way that begins at about its wall: to where the way leaves it.
  static double thickness(const BoundingTree& tree, const Vector3d& from, const Vector3d& way) {
    double at = kGripStartMm;
    for (int i = 0; i < 8; ++i) {
      const auto hit = firstHit(tree, from + at * way, way);
      if (!hit) return 0;
      at += hit->distanceMm;
      const TriangleCorners& t = tree.triangles()[hit->triangle];
      // The wall on the way in (the place is in the overlap, just outside of it) is passed.
      if ((t[1] - t[0]).cross(t[2] - t[0]).dot(way) > 0) return at;
      at += kGripStartMm;
    }
    return 0;
  }

  const PrintSubject& subject_;
  const Assembly& assembly_;
  GripFigure& grip_;
  JudgedSurfaces surfaces_;
  Pose X_WA_ = Pose::Identity(), X_AB_ = Pose::Identity();
};

}  // namespace

GripsResult checkGrips(const PrintSubject& subject, WorkMonitor& monitor) {
  GripsResult result;
  for (const PairRule& rule : subject.assembly->pairRules()) {
    if (!subject.hasMesh(rule.a) || !subject.hasMesh(rule.b)) continue;
    for (std::size_t c = 0; c < rule.contacts.size(); ++c) {
      if (rule.contacts[c].kind != ContactKind::grip) continue;
      for (const ModeId mode : rule.contacts[c].modes) {
        GripFigure grip;
        grip.a = rule.a;
        grip.b = rule.b;
        grip.contact = c;
        grip.mode = mode;
        result.grips.push_back(grip);
      }
    }
  }
  parallelFor(result.grips.size(), subject.threads, [&](std::size_t i) {
    if (monitor.cancelled()) return;
    GripMeasurer(subject, result.grips[i]).measure();
    monitor.advance();
  });
  return result;
}

}  // namespace swingroom
