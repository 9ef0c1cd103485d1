#include "core/measure/test_piece_files.h"

#include <cstdio>

#include "core/files/document/write_document.h"
#include "core/files/formats/writing/write_mesh.h"
#include "core/files/formats/writing/write_set.h"

namespace swingroom {
namespace {

/// "pin_030" for 0.30 mm.
std::string placeName(const char* what, double clearanceMm) {
  char text[32];
  std::snprintf(text, sizeof text, "%s_%03.0f", what, 100 * clearanceMm);
  return text;
}

DocumentPlacement placementOf(const Pose& X_PlatePart) {
  DocumentPlacement placement;
  const Vector3d& p = X_PlatePart.translation();
  const Eigen::Quaterniond q(X_PlatePart.linear());
  placement.at = {p.x(), p.y(), p.z()};
  placement.turn = {q.w(), q.x(), q.y(), q.z()};
  return placement;
}

DocumentPart testPart(const std::string& name, const char* file, const char* colour,
                      const PrintProcess& process) {
  DocumentPart part;
  part.name = name;
  part.colour = colour;
  part.material = process.material;
  part.stages["block"] = file;
  return part;
}

/// Turns about its own axis, which stands up.
DocumentJoint turning(const std::string& pin, const Pose& X_PlatePin) {
  DocumentJoint joint;
  joint.name = pin + " turns";
  joint.type = JointType::hinge;
  joint.parent = "plate";
  joint.child = pin;
  const Vector3d& p = X_PlatePin.translation();
  const Vector3d axis = X_PlatePin.linear().col(2);
  joint.through = ThreeNumbers{p.x(), p.y(), p.z()};
  joint.along = ThreeNumbers{axis.x(), axis.y(), axis.z()};
  joint.range = TwoNumbers{0, 360};
  return joint;
}

DocumentPair statedPair(const std::string& part, double clearanceMm) {
  DocumentPair pair;
  pair.parts = {"plate", part};
  pair.requiredGap = clearanceMm / 2;
  return pair;
}

/// There is one pin and one tongue: that two of them would meet means nothing.
void allowAmong(const std::vector<std::string>& tried, AssemblyDocument& document) {
  for (std::size_t i = 0; i < tried.size(); ++i) {
    for (std::size_t j = i + 1; j < tried.size(); ++j) {
      DocumentPair pair;
      pair.parts = {tried[i], tried[j]};
      pair.allow = "one pin and one tongue are tried in place after place";
      document.pairs.push_back(pair);
    }
  }
}

}  // namespace

AssemblyDocument testPieceDocument(const TestPiece& piece, const PrintProcess& process) {
  AssemblyDocument document;
  document.name = "Test piece";
  document.process = process.name;
  document.resolution = 0.001;
  document.parts.push_back(testPart("plate", "plate.stl", "#EFE6D2", process));
  DocumentMode still{"as laid", DocumentValues{}, {}, {}, {}},
      turned{"turned", DocumentValues{}, {}, {}, {}};
  std::vector<std::string> tried;
  for (const TestPlace& place : piece.places) {
    const std::string pin = placeName("pin", place.clearanceMm);
    document.parts.push_back(testPart(pin, "pin.stl", "#B5443A", process));
    document.parts.back().placement = placementOf(place.X_PlatePin);
    document.joints.push_back(turning(pin, place.X_PlatePin));
    (*still.values)[document.joints.back().name] = 0.0;
    (*turned.values)[document.joints.back().name] = 360.0;
    document.pairs.push_back(statedPair(pin, place.clearanceMm));
    const std::string tongue = placeName("tongue", place.clearanceMm);
    document.parts.push_back(testPart(tongue, "tongue.stl", "#2F4858", process));
    document.parts.back().placement = placementOf(place.X_PlateTongue);
    document.pairs.push_back(statedPair(tongue, place.clearanceMm));
    tried.insert(tried.end(), {pin, tongue});
  }
  allowAmong(tried, document);
  document.modes = {still, turned};
  document.sequences = {{"turn every pin", "as laid", "turned", {}, {}}};
  return document;
}

Outcome<std::vector<std::filesystem::path>> writeTestPiece(const std::filesystem::path& folder,
                                                           const TestPiece& piece,
                                                           const PrintProcess& process) {
  std::error_code failure;
  std::filesystem::create_directories(folder, failure);
  if (failure) return Problem{folder.string(), "cannot be made", failure.message()};
  const auto body = std::make_shared<const TriangleMesh>(laidOut(piece));
  Pose onBed = Pose::Identity();
  onBed.translation() = -boundsOf(*body).min();
  const SetObject object{"test piece", body, process.material, {}, {onBed}};
  std::vector<std::filesystem::path> files = {folder / "test_piece.3mf",
                                              folder / "test_piece.swing.json"};
  if (auto problem = writeSet(files[0], {object}, "test piece")) return *problem;
  const std::pair<const char*, const TriangleMesh*> bodies[] = {
      {"plate", &piece.plate}, {"pin", &piece.pin}, {"tongue", &piece.tongue}};
  for (const auto& [name, mesh] : bodies) {
    files.push_back(folder / (std::string(name) + ".stl"));
    if (auto problem = writeMesh(files.back(), *mesh, name)) return *problem;
  }
  if (auto problem = saveDocument(testPieceDocument(piece, process), files[1])) return *problem;
  return files;
}

}  // namespace swingroom
