#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// The tug's three heads: the chooser, the one that does not fit, the table, the form.
void takeVariants(Photographer& photographer);

}  // namespace swingroom
