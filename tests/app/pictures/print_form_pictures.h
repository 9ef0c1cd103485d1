#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// The forms of the print checks, each with something in it.
void takeProcessForm(Photographer& photographer);
void takeTestPieceForm(Photographer& photographer);
void takeSnapForm(Photographer& photographer);
void takeLoadsForm(Photographer& photographer);

}  // namespace swingroom
