#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>

#include "core/files/urdf/robot_description.h"
#include "core/files/urdf/xml_reading.h"

namespace swingroom {

/// Finds the files that the meshes of a URDF name: by a path from the URDF's folder, `file://` or
/// `package://NAME/...`. A package is a folder of that name, or one whose package.xml has that
/// name, above the URDF or beside a folder above it; else the folder above it in which the rest of
/// the path leads to a file, with a note.
class MeshPlaces {
 public:
  /// @param packages  Package -> folder, before all else.
  MeshPlaces(const std::filesystem::path& urdf,
             std::map<std::string, std::filesystem::path> packages);

  /// Where the mesh is; nothing if it is not found, which is kept for `tell`.
  std::optional<std::filesystem::path> find(const RobotShape& mesh);

  /// The packages that were asked for, and where they are; none: they were not found.
  std::map<std::string, std::optional<std::filesystem::path>> packages() const;

  /// What was not found, each cause once, and what was guessed.
  void tell(XmlProblems& problems) const;

 private:
  struct Lost {
    std::set<std::string> files;
    int line = 0;
  };

  std::optional<std::filesystem::path> inPackage(const std::string& name, const std::string& rest,
                                                 const RobotShape& mesh);
  std::optional<std::filesystem::path> folderOf(const std::string& package,
                                                const std::string& rest);
  void lose(std::map<std::string, Lost>& where, const std::string& key, const RobotShape& mesh);
  std::size_t besideTheRobot(const std::set<std::string>& files) const;
  void tellPackage(const std::string& package, const Lost& lost, XmlProblems& problems) const;
  void tellFiles(const Lost& lost, XmlProblems& problems) const;

  std::filesystem::path folder_;
  std::map<std::string, std::filesystem::path> given_;
  std::map<std::string, std::filesystem::path> found_;
  std::map<std::string, std::filesystem::path> guessed_;
  std::map<std::string, Lost> lostPackages_;
  std::map<std::string, Lost> lostFiles_;  ///< All under one key.
  std::map<std::string, Lost> strange_;    ///< By scheme.
  std::set<std::string> named_;            ///< All mesh names asked for.
};

/// The packages that the meshes of a URDF name, and where they are found. Empty if it cannot be
/// read.
std::map<std::string, std::optional<std::filesystem::path>> packagesOf(
    const std::filesystem::path& urdf, const std::map<std::string, std::filesystem::path>& given);

}  // namespace swingroom
