#pragma once

#include "app/models/findings_model.h"

namespace swingroom {

/// All rows of the list, in its order, from what is known now.
std::vector<FindingRow> findingRowsOf(const CheckBoard& board);

}  // namespace swingroom
