#pragma once

#include <filesystem>
#include <optional>
#include <string_view>

#include "core/base/outcome.h"
#include "core/files/held_file.h"

namespace swingroom {

/// Puts `bytes` in the place of what `file` holds, so that after whatever happens on the way
/// (crash, power cut, full disk) either all of the old or all of the new is there: written to a
/// file beside it, brought to the disk, renamed. A link is followed and stays one; rights and,
/// where that is allowed, owner and group are kept; other hard links keep the old content.
/// @param held  If given, holds the new file in place of what it held.
/// @returns What went wrong; nothing if it is there.
std::optional<Problem> replaceFile(const std::filesystem::path& file, std::string_view bytes,
                                   HeldFile* held = nullptr);

/// Removes what a `replaceFile` that was killed has left beside `file`; what one is writing now
/// stays. (The next one would use it again, so that no more than one is ever left.)
void removeLeftovers(const std::filesystem::path& file);

}  // namespace swingroom
