#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <string>
#include <vector>

#include "core/files/loading/load_assembly.h"
#include "core/files/sources/new_assembly.h"
#include "core/mesh/triangle_mesh.h"

/// Robots for tests: written into a folder of their own, read as `swingroom new` reads them.
namespace swingroom::robots {

/// Robots of the package dart-doc.
inline const std::filesystem::path kDart = "/usr/share/doc/dart/data";

struct ReadRobot {
  NewAssembly made;
  LoadedAssembly loaded;

  const DocumentPart& part(const std::string& name) const;
  const DocumentJoint& joint(const std::string& name) const;
  /// By mode and joint.
  double value(const std::string& mode, const std::string& joint) const;
};

/// A folder of its own, gone at the end.
class RobotFolder {
 public:
  RobotFolder();
  ~RobotFolder();
  RobotFolder(const RobotFolder&) = delete;
  RobotFolder& operator=(const RobotFolder&) = delete;

  std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }
  void write(const std::string& name, const std::string& text) const;
  /// As ASCII STL, the numbers as they are.
  void writeStl(const std::string& name, const TriangleMesh& mesh) const;
  /// A DAE file with one triangle.
  void writeDae(const std::string& name, const std::string& upAxis, double metresPerUnit,
                const std::vector<Vector3d>& corners) const;

 private:
  std::filesystem::path folder_;
};

/// `<robot name="test">BODY</robot>`.
std::string robotText(const std::string& body);

/// The assembly made of `urdf`, to be saved as `file`.
Outcome<NewAssembly> readRobot(const std::filesystem::path& urdf, const std::filesystem::path& file,
                               const RobotWish& wish = {});

/// The same, its made files written and all loaded; throws with what is wrong.
ReadRobot readWell(const std::filesystem::path& urdf, const std::filesystem::path& file,
                   const RobotWish& wish = {});

/// All of them, one a line.
std::string linesOf(const Problems& problems);

/// The text of `problems` has all of `words`, in as many messages as `count`.
void expectTold(const Problems& problems, std::size_t count, const std::vector<std::string>& words);

}  // namespace swingroom::robots
