#include "core/proximity/depth.h"

#include <stdexcept>

#include "core/proximity/deepest_place.h"

namespace swingroom {
namespace {

/// One placement, at all times.
class Standing final : public PlacedSpans {
 public:
  explicit Standing(const Pose& X_SF) { span_.X_SF_from = span_.X_SF_middle = span_.X_SF_to = X_SF; }

  const PlacedSpan& at(std::uint32_t, int) const override { return span_; }
  std::array<std::uint32_t, 2> halvesOf(std::uint32_t) override {
    throw std::logic_error("what stands still has no halves");
  }
  double travelMm(std::uint32_t, int, const Vector3d&, double) const override { return 0; }
  double bendMm(std::uint32_t, int, const Vector3d&, double) const override { return 0; }

 private:
  PlacedSpan span_;
};

}  // namespace

Depth depthInside(const BoundingTree& surface, const Solid& solid, const Pose& X_SF, const DepthSearch& search) {
  Standing standing(X_SF);
  DeepestSearch question;
  question.accuracyMm = question.fineMm = search.accuracyMm;
  question.atLeastMm = search.atLeastMm;
  question.mostQueries = search.mostQueries;
  const DeepestPlace place = deepestPlace({{&surface, &solid, 0}}, standing, {0}, question);
  return {place.depthMm, place.upperMm, place.point_S, place.nearest_S};
}

}  // namespace swingroom
