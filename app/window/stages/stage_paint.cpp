#include "app/window/stages/stage_paint.h"

#include <algorithm>
#include <cmath>

namespace swingroom {

std::shared_ptr<const PaintedSurface> paintOf(const ComparedStages& compared, bool ofDetail) {
  auto surface = std::make_shared<PaintedSurface>();
  surface->blend = PaintBlend::mean;
  const SurfaceChange& change = ofDetail ? compared.ofDetail : compared.ofBlock;
  surface->pieces.reserve(change.pieces.size());
  for (const ChangePiece& piece : change.pieces) {
    const double mm = ofDetail ? piece.mm : -piece.mm;
    surface->pieces.push_back({piece.corners, piece.triangle, static_cast<float>(mm), PieceState::figured});
  }
  return surface;
}

double largestChangeMm(const ComparedStages& compared) {
  constexpr double kLeastScaleMm = 0.1;  ///< Less is rounding of files: it must not look like much.
  double most = kLeastScaleMm;
  for (const auto* largest : {&compared.ofDetail.outward, &compared.ofDetail.inward}) {
    if (*largest) most = std::max(most, std::abs((*largest)->place.mm));
  }
  return most;
}

}  // namespace swingroom
