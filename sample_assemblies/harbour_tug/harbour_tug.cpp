#include <filesystem>
#include <functional>
#include <stdexcept>
#include <string>

#include "sample_assemblies/harbour_tug/detail.h"
#include "sample_assemblies/harbour_tug/tug_sizes.h"
#include "sample_assemblies/mesh_export.h"
#include "sample_assemblies/samples.h"

namespace swingroom::samples {

namespace {

struct Maker {
  const char* name;
  std::function<Solid()> make;
  double facetMm = tug::kFacetMm;
};

/// Of a hole that is too tight by less than its facets take.
constexpr double kFineFacetMm = tug::kFacetMm / 8;

std::vector<PartMesh> made(const std::vector<Maker>& makers) {
  std::vector<PartMesh> parts;
  for (const auto& [name, make, facetMm] : makers) {
    try {
      parts.push_back({name, meshed(make(), facetMm)});
    } catch (const std::exception& error) {
      throw std::runtime_error(std::string(name) + ": " + error.what());
    }
  }
  return parts;
}

void writeAll(const std::vector<PartMesh>& parts, const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder);
  for (const PartMesh& part : parts) writeStl(part.mesh, folder / (part.name + ".stl"));
}

}  // namespace

std::vector<PartMesh> harbourTugParts() {
  return made({{"torso", [] { return tug::torso(); }},
               {"carriage", [] { return tug::carriage(); }},
               {"head", tug::head},
               {"window", tug::window},
               {"side_window", tug::sideWindow},
               {"funnel", tug::funnel},
               {"bung", tug::bung},
               {"keel", [] { return tug::keel(); }},
               {"stern_board", tug::sternBoard},
               {"pin", tug::pin},
               {"small_pin", tug::smallPin},
               {"thigh", [] { return tug::thigh(); }},
               {"knee_link", [] { return tug::kneeLink(); }},
               {"shin", tug::shin},
               {"foot", [] { return tug::foot(); }},
               {"fender", tug::fender},
               {"upper_arm", tug::upperArm, tug::kSocketFacetMm},
               {"forearm", [] { return tug::forearm(); }},
               {"boathook", tug::boathook}});
}

std::vector<PartMesh> harbourTugDetails() {
  const std::pair<const char*, TriangleMesh (*)()> makers[] = {
      {"torso", tug::detailedTorso},           {"funnel", tug::detailedFunnel},
      {"stern_board", tug::detailedSternBoard}, {"thigh", tug::detailedThigh},
      {"shin", tug::detailedShin},             {"foot", tug::detailedFoot},
      {"fender", tug::detailedFender},         {"upper_arm", tug::detailedUpperArm},
      {"forearm", tug::detailedForearm},       {"boathook", tug::detailedBoathook},
      {"window", tug::detailedWindow},         {"head", tug::detailedHead},
      {"head_skipper", tug::skippersHead},     {"head_souwester", tug::souwesterHead}};
  std::vector<PartMesh> parts;
  for (const auto& [name, make] : makers) {
    try {
      parts.push_back({name, make()});
    } catch (const std::exception& error) {
      throw std::runtime_error(std::string(name) + ", detail: " + error.what());
    }
  }
  return parts;
}

void makeHarbourTug(const std::filesystem::path& folder) {
  writeAll(harbourTugParts(), folder / "parts");
  writeAll(harbourTugDetails(), folder / "detail");
}

// The parts that its README calls wrong; all others are the tug's.
void makeHarbourTugDraft(const std::filesystem::path& folder) {
  writeAll(made({{"torso", [] { return tug::torso(false); }},
                 {"keel", [] { return tug::keel(tug::kKeelBowX - 4); }},
                 {"carriage", [] { return tug::carriage(tug::kCarriageY + 0.25); }},
                 {"forearm", [] { return tug::forearm(tug::kSmallPinRadius - 0.1); }}}),
           folder / "parts");
}

// The parts that its README calls weak.
void makeHarbourTugWeak(const std::filesystem::path& folder) {
  writeAll(made({{"thigh_starboard", [] { return tug::thigh(0.5); }},
                 {"forearm_starboard", [] { return tug::forearm(tug::kSmallPinRadius + 0.45); }},
                 {"knee_link_starboard", [] { return tug::kneeLink(tug::kPinRadius + 0.05); }, kFineFacetMm},
                 {"thigh_port", [] { return tug::thigh(tug::kBulwark, false); }},
                 {"foot", [] { return tug::foot(57); }},
                 {"quay", tug::quay}}),
           folder / "parts");
}

}  // namespace swingroom::samples
