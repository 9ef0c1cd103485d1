#pragma once

#include "app/models/named_rows.h"
#include "app/session/motion_editor.h"

namespace swingroom {

/// The document's modes; present: where everything stands now.
std::vector<NamedRow> modeRows(const MotionEditor& editor);
/// Its ways; present: the one that is edited.
std::vector<NamedRow> wayRows(const MotionEditor& editor);
/// The steps of the way that is edited.
std::vector<NamedRow> stepRows(const MotionEditor& editor);

}  // namespace swingroom
