#pragma once

#include <QString>

#include "core/assembly/pair_rule.h"

namespace swingroom {

/// "rest", "grip", "snap", "seam", in the reader's language.
QString contactWord(ContactKind kind);

}  // namespace swingroom
