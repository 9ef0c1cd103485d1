// The files of a set read back: what lies where, by name, colour and count.
#include "core/measure/print_files.h"

#include <gtest/gtest.h>

#include "core/files/mesh_file.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

TEST(PrintFiles, AFileAColourHoldsEveryPieceOnItsLoad) {
  Mechanism m;
  m.addPart("plate", shapes::box({0, 0, 0}, {150, 120, 4}));
  m.addPart("pin", shapes::cylinder(4, 0, 20, 32));
  m.addPart("knob", shapes::box({0, 0, 0}, {8, 9, 10}));
  m.parts().name = "small / set";
  const Assembly assembly = m.assembly();
  const AssemblyGeometry geometry = prepareGeometry(assembly, 1);
  const std::vector<Mode> modes = m.modes();
  const std::vector<Sequence> ways;
  PrintSubject subject;
  subject.assembly = &assembly;
  subject.modes = &modes;
  subject.ways = &ways;
  subject.geometry = &geometry;
  subject.threads = 1;
  PartPrint print;
  print.process = builtInProcesses()[0];
  print.material = builtInMaterials()[0];
  print.colour = "#B5443A";
  subject.parts.assign(3, print);
  subject.parts[0].count = 3;  // Of 150 x 120 one fits a bed of 220 x 220.
  subject.parts[1].count = 5;
  subject.parts[2].colour = "sea green";
  WorkMonitor monitor;
  const PrintSet set = printSet(subject, {}, {}, monitor);

  const TempFolder folder;
  const auto files = writeSetFiles(folder.path() / "to print", subject, set);
  ASSERT_TRUE(files.ok()) << toText(files.problems().front());
  ASSERT_EQ(files->size(), 2u);
  EXPECT_EQ(files->at(0).name, "small_set_PLA_B5443A.3mf");
  EXPECT_EQ(files->at(1).name, "small_set_PLA_sea_green.3mf");
  EXPECT_EQ(files->at(0).pieces, 8u);
  EXPECT_EQ(files->at(0).loads.size(), 3u);
  const auto scene =
      MeshReader::besideThisProgram().readScene(folder.path() / "to print" / files->at(0).name);
  ASSERT_TRUE(scene.ok()) << toText(scene.problems().front());
  EXPECT_EQ(scene->surfaces.size(), 2u);
  ASSERT_EQ(scene->parts.size(), 8u);
  std::vector<Eigen::AlignedBox3d> boxes;
  for (const ScenePart& part : scene->parts) {
    EXPECT_EQ(part.colour, "#B5443A");
    const auto box =
        boundsOf(transformed(scene->surfaces[part.surface].mesh, scene->X_SF * part.X_SP));
    // Single precision of 700 mm.
    EXPECT_NEAR(box.min().z(), 0, 1e-4);
    EXPECT_GE(box.min().x(), -1e-4);
    EXPECT_LE(box.max().y(), 220 + 1e-4);
    for (const auto& other : boxes) EXPECT_TRUE(box.intersection(other).isEmpty());
    boxes.push_back(box);
  }
}

TEST(PrintFiles, AFolderThatCannotBeMadeIsTold) {
  const TempFolder folder;
  PrintSubject subject;
  EXPECT_FALSE(writeSetFiles("/dev/null/here", subject, {}).ok());
}

}  // namespace
}  // namespace swingroom
