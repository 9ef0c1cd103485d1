#pragma once

#include <string>

#include "core/sweep/result.h"

namespace swingroom::html {

/// The verdict's mark as inline SVG: cross, triangle, broken ring, dashed square, disc; a bar for
/// allowed.
std::string mark(Verdict verdict);

/// Mark and word, kept together.
std::string markAndWord(Verdict verdict);

/// Patterns that drawings of the page fill with, once a page: `hatch-clash` and `hatch-unproven`.
std::string sharedPatterns();

}  // namespace swingroom::html
