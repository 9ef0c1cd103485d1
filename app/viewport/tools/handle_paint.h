#pragma once

#include <QPoint>
#include <QSize>

#include "app/viewport/painters/strokes.h"
#include "app/viewport/view_frame.h"

namespace swingroom {

/// Over the finished picture: its range, what is strong of it, its needle and knob.
void addHandle(const DrawnHandle& drawn, const ViewFrame& frame, StrokeBatch& batch);

/// A point that is measured: a square at a corner, a cross on an edge, a ring on a face.
void addMark(const SnapPoint& mark, const ViewFrame& frame, StrokeBatch& batch);

/// Where a held handle's card stands, its top left: beside the knob, inside the picture.
QPoint besideHandle(const Eigen::Vector2d& knob, const QSize& card, const ViewSize& size,
                    double ratio);

}  // namespace swingroom
