#include "tests/real/six_axis_arm.h"

#include <stdexcept>

#include "tests/support/temp_folder.h"

namespace swingroom::real {

namespace fs = std::filesystem;

fs::path armMeshFolder() {
  const fs::path data = "/usr/share/doc/dart/data/urdf";
  std::error_code missing;
  for (const fs::directory_entry& entry : fs::directory_iterator(data, missing)) {
    if (fs::exists(entry.path() / "meshes/bicep.STL")) return entry.path() / "meshes";
  }
  throw std::runtime_error(
      "the arm's meshes are not in " + data.string() +
      ": install the Debian package dart-doc (cmake/debian.sh does; where dpkg is told to leave "
      "/usr/share/doc out, as in /etc/dpkg/dpkg.cfg.d, allow it and install the package again)");
}

LoadedAssembly loadArm() {
  // The assembly file names its meshes beside itself.
  const TempFolder folder;
  const fs::path file = folder.path() / "six_axis_arm.swing.json";
  fs::copy_file(fs::path(SWINGROOM_SOURCE) / "tests/real/six_axis_arm.swing.json", file);
  fs::create_directory_symlink(armMeshFolder(), folder.path() / "meshes");
  Outcome<LoadedAssembly> loaded = loadAssembly(file, MeshReader::besideThisProgram(), 2);
  std::string told;
  for (const Problem& problem : loaded.problems()) told += toText(problem) + "\n";
  if (!loaded) throw std::runtime_error("the arm does not load:\n" + told);
  return std::move(loaded).value();
}

}  // namespace swingroom::real
