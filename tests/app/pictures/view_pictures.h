#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// The 3D view: cut open, several parts chosen, ghosts, its menu.
void takeView(Photographer& photographer);

}  // namespace swingroom
