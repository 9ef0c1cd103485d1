#include <stdexcept>
#include <string>
#include <utility>

#include "sample_assemblies/harbour_tug/tug_sizes.h"
#include "sample_assemblies/mesh_export.h"
#include "sample_assemblies/samples.h"

namespace swingroom::samples {

std::vector<PartMesh> harbourTugParts() {
  const std::pair<const char*, Solid (*)()> makers[] = {
      {"torso", tug::torso},        {"carriage", tug::carriage},       {"head", tug::head},
      {"window", tug::window},      {"side_window", tug::sideWindow},  {"funnel", tug::funnel},
      {"bung", tug::bung},          {"keel", tug::keel},               {"stern_board", tug::sternBoard},
      {"pin", tug::pin},            {"small_pin", tug::smallPin},      {"thigh", tug::thigh},
      {"knee_link", tug::kneeLink}, {"shin", tug::shin},               {"foot", tug::foot},
      {"fender", tug::fender},      {"upper_arm", tug::upperArm},      {"forearm", tug::forearm},
      {"boathook", tug::boathook}};
  std::vector<PartMesh> parts;
  for (const auto& [name, make] : makers) {
    try {
      parts.push_back({name, meshed(make(), tug::kFacetMm)});
    } catch (const std::exception& error) {
      throw std::runtime_error(std::string(name) + ": " + error.what());
    }
  }
  return parts;
}

void makeHarbourTug(const std::filesystem::path& folder) {
  for (const PartMesh& part : harbourTugParts()) writeStl(part.mesh, folder / "parts" / (part.name + ".stl"));
}

}  // namespace swingroom::samples
