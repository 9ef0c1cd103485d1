#include "app/edits/joint_edits.h"

#include <algorithm>
#include <cmath>

namespace swingroom::edits {
namespace {

/// Null: no such joint or zone.
template <typename Document>
auto* zoneOf(Document& document, const std::string& joint, std::size_t place) {
  for (auto& written : document.joints) {
    if (written.name == joint && place < written.zones.size()) return &written.zones[place];
  }
  return static_cast<decltype(&document.joints.front().zones.front())>(nullptr);
}

bool isSize(const ZoneSize& size) {
  if (!std::isfinite(size.radius) || !(size.radius > 0)) return false;
  if (size.from.has_value() != size.to.has_value()) return false;
  return !size.from ||
         (std::isfinite(*size.from) && std::isfinite(*size.to) && *size.from < *size.to);
}

}  // namespace

std::optional<ZoneSize> zoneSize(const AssemblyDocument& document, const std::string& joint,
                                 std::size_t place) {
  const DocumentZone* written = zoneOf(document, joint, place);
  if (!written) return std::nullopt;
  return ZoneSize{written->radius, written->from, written->to};
}

AssemblyDocument zone(AssemblyDocument document, const std::string& joint, std::size_t place,
                      const ZoneSize& size) {
  DocumentZone* written = zoneOf(document, joint, place);
  if (!written || !isSize(size)) return document;
  written->radius = size.radius;
  written->from = size.from;
  written->to = size.to;
  return document;
}

double toZoneStep(double mm) {
  // A twentieth is not a double: by whole hundredths the nearest one comes out.
  return std::round(mm / kZoneStepMm) * 5 / 100;
}

}  // namespace swingroom::edits
