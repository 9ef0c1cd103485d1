#include "core/print/set/first_layer.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

#include "core/print/joints/joint_sides.h"

namespace swingroom {
namespace {

/// An axis that leans more does not end on the bed all round.
constexpr double kUprightCos = 0.9962;  // 5 degrees

/// How the part is suggested to stand; null: it is not printed, or fits no bed.
const BedStand* standOf(const PrintSet& set, PartId part) {
  for (const SetItem& item : set.items) {
    if (std::find(item.parts.begin(), item.parts.end(), part) == item.parts.end()) continue;
    return item.printed && !item.stands.empty() && item.stands.front().fits ? &item.stands.front()
                                                                            : nullptr;
  }
  return nullptr;
}

double bedHeight(const TriangleMesh& mesh, const Vector3d& up_P) {
  double least = std::numeric_limits<double>::infinity();
  for (const Vector3d& vertex : mesh.vertices) least = std::min(least, vertex.dot(up_P));
  return least;
}

class FirstLayerFinder {
 public:
  FirstLayerFinder(const PrintSubject& subject, const PrintSet& set)
      : subject_(subject), set_(set) {}

  void look(const FitFigure& fit, std::vector<FirstLayerFit>& found) const {
    for (const JointStanding& standing : standingsOf(subject_, fit.joint)) {
      if (standing.mode != fit.mode) continue;
      const auto hole = endOnBed(fit, fit.holePart, standing.X_WPs[fit.holePart.index]);
      const auto pin = endOnBed(fit, fit.pinPart, standing.X_WPs[fit.pinPart.index]);
      // Both at one end of the fit: both first layers are there.
      const bool together =
          hole && pin && std::abs(hole->alongMm - pin->alongMm) < layerOf(fit.holePart);
      if (hole)
        found.push_back(fitOf(fit, fit.holePart, *hole, together ? takenBy(fit.pinPart) : 0));
      if (pin && !together) found.push_back(fitOf(fit, fit.pinPart, *pin, 0));
    }
  }

 private:
  struct End {
    Vector3d at_P;
    double alongMm = 0;  ///< Along the fit's axis.
  };

  double takenBy(PartId part) const { return subject_.print(part).process.firstLayerMm.value; }
  double layerOf(PartId part) const { return subject_.print(part).process.layerMm.value; }

  FirstLayerFit fitOf(const FitFigure& fit, PartId part, const End& end, double moreMm) const {
    const double takenMm = takenBy(part) + moreMm;
    const FitSpan left{fit.printedMm.leastMm - takenMm, fit.printedMm.mostMm - takenMm};
    return {fit.joint, part, end.at_P, takenMm, left};
  }

  std::optional<End> endOnBed(const FitFigure& fit, PartId part, const Pose& X_WP) const {
    const BedStand* stand = standOf(set_, part);
    if (!stand || takenBy(part) <= 0) return std::nullopt;
    const Vector3d up_P = stand->R_BP.row(2).transpose();
    const Pose X_PW = X_WP.inverse();
    if (std::abs((X_PW.linear() * fit.along_W).dot(up_P)) < kUprightCos) return std::nullopt;
    const double bedMm = bedHeight(*subject_.part(part).mesh, up_P);
    for (const FitAlong& stretch : fit.along) {
      for (const double along : {stretch.fromMm, stretch.toMm}) {
        const Vector3d end_P = X_PW * Vector3d(fit.at_W + along * fit.along_W);
        if (end_P.dot(up_P) - bedMm < layerOf(part)) return End{end_P, along};
      }
    }
    return std::nullopt;
  }

  const PrintSubject& subject_;
  const PrintSet& set_;
};

}  // namespace

std::vector<FirstLayerFit> firstLayerFits(const PrintSubject& subject, const FitsResult& fits,
                                          const PrintSet& set) {
  std::vector<FirstLayerFit> found;
  for (const FitFigure& fit : fits.fits) {
    if (fit.shape != FitShape::pin || fit.duty != FitDuty::turns || fit.printedMm.mostMm <= 0)
      continue;
    FirstLayerFinder(subject, set).look(fit, found);
  }
  return found;
}

void addFirstLayerFindings(const std::vector<FirstLayerFit>& fits, PrintFindings& findings) {
  char text[220];
  for (const FirstLayerFit& fit : fits) {
    if (fit.leftMm.leastMm > 0) continue;
    PrintFinding hint;
    hint.word = PrintWord::tightFit;
    hint.grade = PrintGrade::hint;
    hint.joint = fit.joint;
    hint.parts = {fit.onBed};
    hint.at_P = fit.at_P;
    hint.lower = fit.leftMm.leastMm;
    hint.upper = fit.leftMm.mostMm;
    hint.needed = 0;
    hint.unit = "mm";
    std::snprintf(text, sizeof text,
                  "it ends on the bed as the set suggests to print it: the first layer takes %.2f "
                  "mm more, which "
                  "leaves %.2f to %.2f on the diameter there; chamfer its mouth",
                  fit.takenMm, fit.leftMm.leastMm, fit.leftMm.mostMm);
    hint.sentence = text;
    findings.push_back(hint);
  }
}

}  // namespace swingroom
