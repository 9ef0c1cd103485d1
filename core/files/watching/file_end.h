#pragma once

#include <filesystem>

namespace swingroom {

/// Whether a mesh file of a format that does not say how long it is (OBJ, STL as text) stops as one
/// does that is cut off: within a line, or without the last line that its format wants. That it
/// does not says nothing. False for all other formats.
bool endsAbruptly(const std::filesystem::path& meshFile);

}  // namespace swingroom
