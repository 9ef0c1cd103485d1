#pragma once

#include <optional>
#include <string>

#include "core/files/document/assembly_document.h"

/// Edits of joints, as `edits.h` has them for pairs and parts.
namespace swingroom::edits {

/// What of a zone can be set, mm; a ball has a radius only.
struct ZoneSize {
  double radius = 0;
  std::optional<double> from, to;

  bool operator==(const ZoneSize&) const = default;
};

/// None: no such joint or zone.
std::optional<ZoneSize> zoneSize(const AssemblyDocument& document, const std::string& joint,
                                 std::size_t place);

/// Sets one zone of a joint, by its place among them. A size that is none (radius not above 0,
/// `from` not below `to`), a joint or a place that is not there changes nothing.
AssemblyDocument zone(AssemblyDocument document, const std::string& joint, std::size_t place,
                      const ZoneSize& size);

/// Zones are set by hand in steps of this, mm.
constexpr double kZoneStepMm = 0.05;
/// The nearest step, as a number that is written with two digits.
double toZoneStep(double mm);

}  // namespace swingroom::edits
