// No false alarms: parts that CGAL remeshed or decimated, and meshes that nobody here made.
#include <gtest/gtest.h>

#include <filesystem>

#include "core/files/mesh_file.h"
#include "core/mesh/weld.h"
#include "core/stages/stage_notes.h"
#include "core/stages/surface_change.h"
#include "tests/judge/cgal_remesh.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

std::string told(const TriangleMesh& block, const TriangleMesh& detail) {
  const StageSurface a(std::make_shared<const TriangleMesh>(welded(block)));
  const StageSurface b(std::make_shared<const TriangleMesh>(welded(detail)));
  std::string all;
  for (const Problem& note : stageNotes("d", stageFaultsOf(a, b, {}))) all += toText(note) + "\n";
  return all;
}

/// Of all kinds: hollow, with balls, sockets, pins and holes.
std::vector<fs::path> tugParts() {
  std::vector<fs::path> files;
  for (const char* name : {"head", "funnel", "upper_arm", "foot", "knee_link", "pin", "stern_board", "carriage"}) {
    files.push_back(fs::path(SWINGROOM_SOURCE) / "sample_assemblies/harbour_tug/parts" / (std::string(name) + ".stl"));
  }
  return files;
}

/// No remeshing but one that left the surface closed can be honest: CGAL's may let it touch itself.
bool isSound(const TriangleMesh& mesh) {
  return !mesh.triangles.empty() && examine(welded(mesh)).closed();
}

TriangleMesh meshIn(const fs::path& file) {
  const auto read = MeshReader::besideThisProgram().read(file);
  EXPECT_TRUE(read) << file;
  return read ? read->mesh : TriangleMesh{};
}

TEST(RemeshedStages, ThePartsOfTheTugInOtherTriangles) {
  int looked = 0;
  for (const fs::path& file : tugParts()) {
    const TriangleMesh block = meshIn(file);
    const TriangleMesh fine = judge::remeshed(block, 0.8);
    if (!isSound(fine)) continue;
    ++looked;
    EXPECT_EQ(told(block, fine), "") << file.filename();
    const TriangleMesh coarse = judge::decimated(fine, 0.4);
    if (isSound(coarse)) {
      EXPECT_EQ(told(block, coarse), "") << file.filename();
    }
  }
  EXPECT_GT(looked, 4);
}

// Of Debian's dart-doc: made to be looked at, some of many shells, and not all closed.
TEST(RemeshedStages, AnArmThatNobodyHereMadeIsItsOwnDetail) {
  int looked = 0;
  for (const auto& entry : fs::recursive_directory_iterator("/usr/share/doc/dart/data/urdf")) {
    if (entry.path().extension() != ".STL" || fs::file_size(entry.path()) > 3'000'000) continue;
    // They are in metres.
    const TriangleMesh mesh = transformed(meshIn(entry.path()), Eigen::Affine3d(Eigen::Scaling(1000.0)));
    EXPECT_EQ(told(mesh, mesh), "") << entry.path().filename();
    const TriangleMesh shifted = transformed(mesh, Eigen::Affine3d(Eigen::Translation3d(
                                                       0.2 * boundsOf(mesh).diagonal().norm(), 0, 0)));
    EXPECT_NE(told(mesh, shifted).find("off its block, towards +x"), std::string::npos)
        << entry.path().filename() << told(mesh, shifted);
    if (++looked == 6) break;
  }
  EXPECT_GT(looked, 3);
}

}  // namespace
}  // namespace swingroom
