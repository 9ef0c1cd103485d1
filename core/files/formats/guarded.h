#pragma once

#include <filesystem>
#include <new>

#include "core/base/outcome.h"

namespace swingroom {

/// What `read` gives; a file that cannot be opened and memory that runs out are problems.
template <typename Read>
auto guarded(Read read) -> decltype(read()) {
  try {
    return read();
  } catch (const std::filesystem::filesystem_error& error) {
    return Problem{"", "cannot be read: " + error.code().message(), ""};
  } catch (const std::bad_alloc&) {
    return Problem{"", "needs more memory to read than is allowed",
                   "export it with fewer triangles"};
  }
}

}  // namespace swingroom
