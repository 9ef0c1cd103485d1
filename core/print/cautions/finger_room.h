#pragma once

#include <vector>

#include "core/print/subject.h"

namespace swingroom {

/// Whether a finger's tip has room at a place, and a straight way to it.
class FingerRoom {
 public:
  explicit FingerRoom(const PrintSubject& subject) : subject_(subject) {}

  /// No part is nearer to `p_W` than `radiusMm`, and along one of 26 directions no part is met at
  /// all. Const from any thread.
  /// @param X_WPs  By PartId.
  bool isOpen(const std::vector<Pose>& X_WPs, const Vector3d& p_W, double radiusMm) const;

 private:
  const PrintSubject& subject_;
};

}  // namespace swingroom
