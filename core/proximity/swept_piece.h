#pragma once

#include <array>

#include "core/proximity/depth_piece.h"

namespace swingroom {

/// Where a piece is, at both ends of its span: within the bend of the hull of these, always.
class SweptPiece {
 public:
  SweptPiece(const PieceFrame& frame, const BoundingTree::Node* node) : frame_(frame) {
    slackMm_ = frame.bendMm + kEqualMm;
    if (!node) {
      const TriangleCorners& at = frame.middle_S;
      thin_ = (at[1] - at[0]).cross(at[2] - at[0]).normalized();
      return;
    }
    boxed_ = true;
    for (int i = 0; i < 3; ++i) {
      const Vector3d arm = node->half[i] * node->axes.col(i);
      arms_[0].col(i) = frame.span->X_SF_from.linear() * arm;
      arms_[1].col(i) = frame.span->X_SF_to.linear() * arm;
    }
    int thinnest;
    node->half.minCoeff(&thinnest);
    thin_ = frame.span->X_SF_middle.linear() * node->axes.col(thinnest);
  }

  /// Across it.
  const Vector3d& thin() const { return thin_; }

  /// No point of it is less far along `n`, unit.
  double least(const Vector3d& n) const {
    if (!boxed_) {
      double mm = n.dot(frame_.hull_S[0]);
      for (int k = 1; k < frame_.hull; ++k) mm = std::min(mm, n.dot(frame_.hull_S[k]));
      return mm - slackMm_;
    }
    const double atFrom =
        n.dot(frame_.centreFrom_S) - (arms_[0].transpose() * n).cwiseAbs().sum();
    const double atTo = n.dot(frame_.centreTo_S) - (arms_[1].transpose() * n).cwiseAbs().sum();
    return std::min(atFrom, atTo) - slackMm_;
  }

  /// Some point well within it, towards `p`.
  Vector3d towards(const Vector3d& p) const {
    if (!boxed_) return closestPointOnTriangle(p, frame_.middle_S);
    return 0.5 * (frame_.centreFrom_S + frame_.centreTo_S);
  }

 private:
  const PieceFrame& frame_;
  double slackMm_ = 0;
  bool boxed_ = false;
  Vector3d thin_;
  std::array<Eigen::Matrix3d, 2> arms_;
};

/// A way up from a piece's centre, in the solid's frame.
struct WayUp {
  const Vector3d& centre_S;
  const Vector3d& up;  ///< Unit.
};

/// How high along the way up a boundary gets where it may meet the piece, at any instant of its span.
/// -kFar: it stays off. kFar: to `topMm` or more, or it is too much to look at.
/// @param nearestWall  The boundary's triangle nearest to the centre.
double meetsUpTo(const BoundingTree& boundary, const TriangleCorners& nearestWall, const SweptPiece& swept,
                 const WayUp& way, double topMm);

/// Cuts what is higher than `highMm` off the hull: the points below and where lines to those
/// above cross.
void cutAbove(PieceFrame& frame, const std::array<double, kMostHull>& heights, double highMm);

}  // namespace swingroom
