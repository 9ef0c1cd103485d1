#pragma once

#include <filesystem>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/files/document/assembly_document.h"
#include "core/files/sources/given_parts.h"
#include "core/motion/joint_inference.h"

namespace swingroom {

/// Parts of a document from what was read: their names, colours from a calm palette unless the file
/// has one, paths from `file`'s folder.
std::vector<DocumentPart> documentParts(const GivenParts& given,
                                        const std::filesystem::path& file);

/// The joints as an assembly file has them, their numbers rounded to a few digits where that moves
/// nothing by more than 0.0001 mm or 0.0001 degrees.
std::vector<DocumentJoint> documentJoints(const InferredMotion& motion,
                                          const std::vector<DocumentPart>& parts);

/// The document's parts and joints as far as motion goes, the parts without surfaces.
Assembly motionOf(const AssemblyDocument& document, const std::vector<PartInTwoModes>& parts);

/// Rules for pairs that touch or fit by design, in all modes and steps that the document has.
void addPairs(const InferredMotion& motion, AssemblyDocument& document);

/// Adds joints, two modes, the sequence between them and rules for pairs to a document that has its
/// parts.
void addMotion(const InferredMotion& motion, const std::string& firstMode,
               const std::string& secondMode, AssemblyDocument& document);

/// How far each part's farthest point is, by the document's joints in its last mode, from where
/// `D` (by part) puts it, mm.
std::vector<double> misfitsOf(const AssemblyDocument& document,
                              const std::vector<PartInTwoModes>& parts, const std::vector<Pose>& D);

/// The path of a mesh as a document has it that is saved as `file`: relative where there is a way.
std::string pathFrom(const std::filesystem::path& file, const std::filesystem::path& mesh);

/// One of a few calm colours that most eyes tell apart, in turn: "#RRGGBB".
std::string calmColour(std::size_t position);

/// The coarsest decimal number within `tolerance` of `value`.
double roundedWithin(double value, double tolerance);

}  // namespace swingroom
