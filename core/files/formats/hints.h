#pragma once

namespace swingroom {

/// What a maker can do about a file that is damaged as a whole.
inline constexpr const char* kExportHint = "export the mesh again";
/// What a maker can do about a file whose content makes no sense.
inline constexpr const char* kRepairHint = "repair or export the mesh again";

}  // namespace swingroom
