#pragma once

#include "app/session/choice.h"

namespace swingroom {

/// The part that lists of "only what is chosen" are kept to: the chosen one, but while its pairs
/// are gone through, and so chosen one after the other, still the same.
inline std::optional<PartId> keptPart(const std::optional<PartId>& before, const Choice& choice) {
  const auto& pair = choice.pair();
  const bool stays = before && pair && (pair->first == *before || pair->second == *before);
  return stays ? before : choice.part();
}

}  // namespace swingroom
