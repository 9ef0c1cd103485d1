#pragma once

#include <vector>

#include "core/print/set/print_set.h"

namespace swingroom {

/// Every printed piece of so many sets that fits its bed, in its best stand: by process, material
/// and colour in the order of the items.
std::vector<BedLoad> loadsOf(const PrintSubject& subject, const std::vector<SetItem>& items,
                             int sets, const LoadSettings& settings);

}  // namespace swingroom
