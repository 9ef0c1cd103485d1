#include "tests/core/files/load_fixture.h"

#include <nlohmann/json.hpp>

namespace swingroom {

std::string patchedBoat(const char* patch) {
  return nlohmann::json::parse(kBoat).patch(nlohmann::json::parse(patch)).dump();
}

}  // namespace swingroom
