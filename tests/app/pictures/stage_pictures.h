#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// Block and detail compared, on the sculpted tug: its head, and a detail that stands elsewhere.
void takeStages(Photographer& photographer);

}  // namespace swingroom
