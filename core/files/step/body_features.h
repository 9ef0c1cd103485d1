#pragma once

#include "core/mesh/features.h"

class TopoDS_Shape;

namespace swingroom {

/// The cylinders and spheres among a body's faces, exact. Faces of one cylinder that follow each
/// other without a gap are one feature (many programs write a cylinder as two halves).
Features featuresOf(const TopoDS_Shape& body);

}  // namespace swingroom
