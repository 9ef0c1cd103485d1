#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/files/sources/made_file.h"
#include "core/files/urdf/robot_meshes.h"
#include "core/files/urdf/robot_tree.h"

namespace swingroom {

/// One shape of a link on its way to a part.
struct ChosenBody {
  std::size_t link = 0;
  const RobotBody* body = nullptr;
  std::optional<std::string> colour;
};

/// The shapes that become parts: of each link those of the kind that was asked for, or of the other
/// kind where it has none, with a note.
std::vector<ChosenBody> chosenBodies(const RobotDescription& robot, bool collision,
                                     XmlProblems& problems);

struct RobotParts {
  std::vector<DocumentPart> parts;
  std::vector<std::vector<std::string>> namesOf;  ///< By link: its parts; the first carries joints.
  std::vector<MadeFile> files;                    ///< Boxes, cylinders and spheres as meshes.
  std::vector<std::string> found;
};

/// The parts of a robot, standing where its links stand with every joint at 0. The first shape of a
/// link is a part of the link's name; each further one a part of its own; a link without shapes is
/// a part without a mesh.
/// @param meshes  As `robotMeshes` gives them, whole.
/// @param file    Where the assembly file will be.
RobotParts robotParts(const RobotDescription& robot, const RobotTree& tree,
                      const std::vector<ChosenBody>& bodies,
                      const std::map<std::string, RobotMesh>& meshes,
                      const std::filesystem::path& file);

/// Scales that no rigid part can have (uneven or 0): told.
void tellScales(const std::vector<ChosenBody>& bodies, XmlProblems& problems);

/// Meshes that are a thousand times too large or too small for the robot: noted, with what to do.
void noteSizes(const RobotTree& tree, const std::vector<ChosenBody>& bodies,
               const std::map<std::string, RobotMesh>& meshes, XmlProblems& problems);

}  // namespace swingroom
