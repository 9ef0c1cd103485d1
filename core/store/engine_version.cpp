#include "core/store/engine_version.h"

#include "engine_text.h"

namespace swingroom {

std::string engineText() {
  return SWINGROOM_ENGINE_TEXT;
}

}  // namespace swingroom
