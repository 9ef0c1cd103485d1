#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// The page of the print checks: of the tug, and of a chosen finding in the view.
void takePrint(Photographer& photographer);

}  // namespace swingroom
