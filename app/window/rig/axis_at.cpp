#include "app/window/rig/axis_at.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct AxisText {
  Q_DECLARE_TR_FUNCTIONS(AxisText)
};

QString mm(double value, int decimals = 2) {
  return qt(words::fixed(value, decimals));
}

/// The one of two directions that is told: along the axis that it is nearest to.
Vector3d told(const Vector3d& along) {
  Eigen::Index most = 0;
  along.cwiseAbs().maxCoeff(&most);
  return along[most] < 0 ? Vector3d(-along) : along;
}

AxisAt ofCylinder(const CylinderFeature& found) {
  AxisAt axis;
  axis.along = told(found.along);
  const bool turned = axis.along.dot(found.along) < 0;
  axis.through = found.through;
  axis.fromMm = turned ? -found.toMm : found.fromMm;
  axis.toMm = turned ? -found.fromMm : found.toMm;
  axis.radiusMm = found.radiusMm;
  const QString what = found.outward ? AxisText::tr("pin %1 mm, %2 long, within %3 mm")
                                     : AxisText::tr("hole %1 mm, %2 deep, within %3 mm");
  axis.words = what.arg(mm(2 * found.radiusMm), mm(found.toMm - found.fromMm, 1),
                        mm(found.residualMm, 3));
  return axis;
}

AxisAt ofBall(const BallFeature& found) {
  AxisAt axis;
  axis.isBall = true;
  axis.through = found.centre;
  axis.radiusMm = found.radiusMm;
  const QString what = found.outward ? AxisText::tr("ball %1 mm, within %2 mm")
                                     : AxisText::tr("socket %1 mm, within %2 mm");
  axis.words = what.arg(mm(2 * found.radiusMm), mm(found.residualMm, 3));
  return axis;
}

AxisAt ofEdge(const EdgeFeature& found) {
  AxisAt axis;
  const Vector3d way = found.to - found.from;
  axis.along = told(way.normalized());
  axis.through = (found.from + found.to) / 2;
  axis.fromMm = -way.norm() / 2, axis.toMm = way.norm() / 2;
  axis.words = AxisText::tr("edge %1 mm, straight within %2 mm")
                   .arg(mm(way.norm()), mm(found.residualMm, 3));
  return axis;
}

AxisAt ofPlane(const PlaneFeature& found, const Vector3d& place) {
  AxisAt axis;
  axis.along = told(found.normal);
  axis.through = place;
  axis.words = AxisText::tr("flat face %1 mm², square to it").arg(mm(found.areaMm2, 1));
  return axis;
}

std::optional<AxisAt> edgeOf(const FeatureFinder& features, const PickSpot& spot,
                             const Vector3d& place_P) {
  if (spot.snap.kind == SnapPoint::Kind::face) return std::nullopt;
  constexpr double kOffMm = 0.5;  // The edge is where the pointer snapped to.
  const auto edge = features.edgeAt(spot.triangle, place_P, kOffMm);
  if (!edge || !((edge->to - edge->from).norm() > 0)) return std::nullopt;
  return ofEdge(*edge);
}

AxisAt placed(AxisAt axis, const Pose& X_WP) {
  axis.through = X_WP * axis.through;
  axis.along = X_WP.linear() * axis.along;
  return axis;
}

}  // namespace

std::optional<AxisAt> axisAt(const FeatureFinder& features, JointType type, const PickSpot& spot,
                             const Pose& X_WP) {
  const Pose X_PW = X_WP.inverse();
  std::optional<AxisAt> found;
  if (type == JointType::fixed) return found;
  if (type == JointType::ball) {
    if (const auto ball = features.ballAt(spot.triangle)) found = ofBall(*ball);
    return found ? std::optional(placed(*found, X_WP)) : std::nullopt;
  }
  const auto takeEdge = [&] {
    if (!found) found = edgeOf(features, spot, X_PW * spot.snap.p_W);
  };
  if (type == JointType::slide) takeEdge();
  if (!found) {
    if (const auto cylinder = features.cylinderAt(spot.triangle)) found = ofCylinder(*cylinder);
  }
  takeEdge();
  if (!found) {
    if (const auto plane = features.planeAt(spot.triangle))
      found = ofPlane(*plane, X_PW * spot.p_W);
  }
  return found ? std::optional(placed(*found, X_WP)) : std::nullopt;
}

QString noAxisWords(JointType type) {
  if (type == JointType::ball) return AxisText::tr("no ball or socket here");
  if (type == JointType::fixed) return {};
  return AxisText::tr("nothing round, straight or flat here");
}

}  // namespace swingroom
