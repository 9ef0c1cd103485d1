#pragma once

#include <QString>

#include "app/panels/theme.h"

namespace swingroom {

/// The program's one style sheet in the colours of a theme.
QString themeSheet(const Theme& theme);

}  // namespace swingroom
