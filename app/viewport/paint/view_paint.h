#pragma once

#include <QColor>
#include <cstdint>
#include <memory>
#include <vector>

#include "core/base/id.h"
#include "core/mesh/closest_points.h"

/// A part's surface in colours that stand for figures, as whole values.
namespace swingroom {

enum class PieceState : std::uint8_t {
  figured,
  leftOut,  ///< Has no figure by design, e.g. in a joint zone: a quiet tone with dots.
  broken,   ///< Beyond the scale's bad end: hatched. Between pieces it counts with its figure.
};

/// A triangle of the surface with one figure.
struct PaintPiece {
  TriangleCorners corners;   ///< In the part's mesh frame, mm, seen from outside as its source.
  std::uint32_t source = 0;  ///< Triangle of the part's mesh that it lies in.
  float figureMm = 0;
  PieceState state = PieceState::figured;
};

/// How colours go on between pieces.
enum class PaintBlend {
  steps,   ///< Each piece in one colour: that of its band between two levels.
  lowest,  ///< Evenly; nowhere more than the figure of the piece there. What can only be too small.
  mean,    ///< Evenly, through the mean of the pieces at each corner.
};

/// Fixed once made; two are the same if they are one object.
struct PaintedSurface {
  std::vector<PaintPiece> pieces;
  PaintBlend blend = PaintBlend::steps;
};

/// Which colour a figure has, and at which figures lines are drawn: colour is never alone.
struct PaintScale {
  struct Stop {
    double mm = 0;
    QColor colour;
    bool operator==(const Stop&) const = default;
  };
  std::vector<Stop> stops;       ///< Rising; colours between them are mixed, beyond them go on.
  std::vector<double> levelsMm;  ///< Rising, at most kMostLevels; below 0 their lines are broken.
  QColor line, leftOut, broken;

  bool operator==(const PaintScale&) const = default;
};
constexpr std::size_t kMostLevels = 16;

/// Opaque; of an empty scale grey.
QColor colourAt(const PaintScale& scale, double mm);
/// In the middle between the two levels round it, or between the last one and the scale's end.
double bandMiddle(const PaintScale& scale, double mm);

/// Shown in place of the plain surfaces; while there is any, all other parts stand back.
struct ViewPaint {
  struct Painted {
    PartId part;
    std::shared_ptr<const PaintedSurface> surface;
    bool operator==(const Painted&) const = default;
  };
  std::vector<Painted> parts;
  PaintScale scale;

  bool operator==(const ViewPaint&) const = default;
};

}  // namespace swingroom
