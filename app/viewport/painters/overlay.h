#pragma once

#include <QImage>
#include <optional>

#include "app/viewport/dimension_place.h"
#include "app/viewport/painters/strokes.h"
#include "app/viewport/view_frame.h"

/// What is drawn over the parts: axes, joint zones, the dimension.
namespace swingroom {

void addAxis(const ViewAxis& axis, const ViewFrame& frame, StrokeBatch& batch);
void addZone(const ViewZone& zone, const ViewFrame& frame, StrokeBatch& batch);

/// The rim of the section's plane.
void addSectionFrame(const ViewFrame& frame, StrokeBatch& batch);

/// A card with words as an image, remembered until something about it changes.
class CardImage {
 public:
  const QImage& of(const QString& words, const ViewColours& colours, const QFont& font,
                   double pixelRatio);

 private:
  QString words_;
  ViewColours colours_;
  QFont font_;
  double pixelRatio_ = 0;
  QImage image_;
};

/// The section's knob: a disc with an arrow each way along `way` (unit, pixels).
class KnobImage {
 public:
  const QImage& of(const Eigen::Vector2d& way, const ViewColours& colours, double pixelRatio);

 private:
  Eigen::Vector2d way_ = Eigen::Vector2d::Zero();
  ViewColours colours_;
  double pixelRatio_ = 0;
  QImage image_;
};

/// The gap's line with its ticks, a ring if it is too short to be seen, and the leader to the card.
void addDimension(const std::array<Eigen::Vector2d, 2>& ends, const DimensionPlace& place,
                  const ViewFrame& frame, StrokeBatch& batch);

}  // namespace swingroom
