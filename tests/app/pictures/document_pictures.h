#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// Recent files, work that was not saved, a file that others changed, preferences, keys, large
/// words.
void takeDocuments(Photographer& photographer);

}  // namespace swingroom
