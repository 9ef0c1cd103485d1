// Meshes kept between loads of a document that is being edited.
#include "core/files/mesh_memory.h"

#include <gtest/gtest.h>

#include <fstream>

#include "core/files/document/read_document.h"
#include "core/files/loading/load_assembly.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

const std::filesystem::path kHatchBox =
    std::filesystem::path(SWINGROOM_SOURCE) / "sample_assemblies/hatch_box";

struct EditedBox {
  TempFolder folder;
  std::filesystem::path file;
  AssemblyDocument document;
  MeshMemory memory;
  MeshReader reader = MeshReader::besideThisProgram();

  EditedBox() {
    for (const auto& entry : std::filesystem::directory_iterator(kHatchBox)) {
      std::filesystem::copy(entry.path(), folder.path() / entry.path().filename());
    }
    file = folder.path() / "hatch_box.swing.json";
    document = readDocument(file).value().document;
  }
  std::shared_ptr<const TriangleMesh> meshOf(std::size_t part) {
    return loadAssembly(document, file, {&reader, 2, &memory}).value().assembly.parts()[part].mesh;
  }
};

TEST(MeshMemory, UnchangedFilesKeepTheirVeryMesh) {
  EditedBox box;
  const auto before = box.meshOf(0);
  box.document.requiredGap = 0.4;
  EXPECT_EQ(box.meshOf(0), before);  // The same object.
}

TEST(MeshMemory, FileThatWasSavedAgainIsReadAgain) {
  EditedBox box;
  const auto lid = box.meshOf(1);
  std::filesystem::copy_file(kHatchBox / "bolt.stl", box.folder.path() / "lid.stl",
                             std::filesystem::copy_options::overwrite_existing);
  EXPECT_EQ(*box.meshOf(1), *box.meshOf(2));  // Now both are the bolt.
  EXPECT_FALSE(*lid == *box.meshOf(1));
}

TEST(MeshMemory, AnotherScaleIsAnotherMesh) {
  EditedBox box;
  const auto before = box.meshOf(0);
  box.document.parts[0].scale = 2;
  const auto doubled = box.meshOf(0);
  ASSERT_NE(doubled, before);
  EXPECT_TRUE(doubled->vertices.front().isApprox(2 * before->vertices.front()));
  box.document.parts[0].scale = 1;
  EXPECT_EQ(box.meshOf(0), before);
}

TEST(MeshMemory, FileThatIsGoneIsToldThoughItsMeshIsKnown) {
  EditedBox box;
  box.meshOf(0);
  std::filesystem::remove(box.folder.path() / "lid.stl");
  const auto outcome = loadAssembly(box.document, box.file, {&box.reader, 1, &box.memory});
  ASSERT_FALSE(outcome.ok());
  EXPECT_NE(toText(outcome.problems().front()).find("lid.stl"), std::string::npos);
}

}  // namespace
}  // namespace swingroom
