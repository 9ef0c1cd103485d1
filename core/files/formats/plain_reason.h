#pragma once

#include <string>
#include <string_view>

namespace swingroom {

/// What a format library says of a file, as a clause after "FILE: " in a maker's words where we
/// know the message, else "cannot be read as FORMAT: " and the message.
/// @throws std::bad_alloc if the message means that memory ran out.
std::string plainReason(std::string_view formatName, std::string_view message);

}  // namespace swingroom
