#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/print/process/sourced.h"

namespace swingroom {

/// What a print is made of. All figures are indicative: they differ by maker, colour and settings.
struct Material {
  std::string name;  ///< As in assembly files: "PLA".
  Sourced densityGPerCm3;
  Sourced modulusMPa;  ///< Secant, in the layers' plane.
  Sourced poisson;
  /// Greatest strain of a snap, as a fraction, assembled once and again and again. In the layers'
  /// plane; across layers half of it (common practice).
  Sourced strainOnce, strainOften;
  /// Of the material on itself: no agreed value, so a low and a high bound.
  Sourced frictionLow, frictionHigh;
  bool soft = false;  ///< Gives way by design (TPU): strains are not judged.

  bool operator==(const Material&) const = default;
};

/// PLA, PETG, ABS, PC, PA12, TPU, resin; check DEVELOPERS.md for what they are from.
const std::vector<Material>& builtInMaterials();

/// By name, whatever its capitals and what follows it ("PLA matt" is PLA). Null: unknown.
const Material* findMaterial(const std::vector<Material>& materials, std::string_view name);

}  // namespace swingroom
