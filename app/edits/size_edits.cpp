#include "app/edits/size_edits.h"

#include <algorithm>

namespace swingroom::edits {
namespace {

bool hasMesh(const DocumentPart& part) {
  return part.stages.contains(part.use);
}

}  // namespace

Edited scaled(const AssemblyDocument& document, double factor) {
  return scaledDocument(document, factor);
}

std::optional<LengthUnit> meshUnit(const AssemblyDocument& document) {
  std::optional<double> scale;
  for (const DocumentPart& part : document.parts) {
    if (!hasMesh(part) || saysUnit(part)) continue;
    if (scale && *scale != part.scale) return std::nullopt;
    scale = part.scale;
  }
  for (const LengthUnit unit : kLengthUnits) {
    if (scale == mmPer(unit)) return unit;
  }
  return std::nullopt;
}

UnitCounts unitCounts(const AssemblyDocument& document) {
  UnitCounts counts;
  for (const DocumentPart& part : document.parts) {
    if (hasMesh(part)) ++(saysUnit(part) ? counts.said : counts.unsaid);
  }
  return counts;
}

double unitFactor(const AssemblyDocument& document, LengthUnit unit) {
  return mmPer(unit) / mmPer(meshUnit(document).value_or(LengthUnit::mm));
}

Edited inUnit(const AssemblyDocument& document, LengthUnit unit, bool withTheRest) {
  const double factor = unitFactor(document, unit);
  if (withTheRest) return scaledDocument(document, factor);
  return meshesScaled(document, factor, UnitOf::unitless);
}

bool hasPlaces(const AssemblyDocument& document) {
  const bool placed =
      std::any_of(document.parts.begin(), document.parts.end(),
                  [](const DocumentPart& part) { return part.placement.has_value(); });
  return placed || !document.joints.empty();
}

}  // namespace swingroom::edits
