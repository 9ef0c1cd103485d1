// OBJ and DAE written by hand, from their formats' descriptions.
#include "tests/scenes/read_back.h"

namespace swingroom {
namespace {

/// Faces of a box whose corners are listed as `corners` below does, counted from `first`.
std::string objBox(int first) {
  const int faces[6][4] = {{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4},
                           {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}};
  std::string text;
  for (const auto& face : faces) {
    text += "f";
    for (const int corner : face) text += " " + std::to_string(first + corner);
    text += "\n";
  }
  return text;
}

std::string corners(const Vector3d& from, const Vector3d& to, const std::string& word) {
  std::string text;
  for (int i = 0; i < 8; ++i) {
    text += word;
    for (int axis = 0; axis < 3; ++axis) {
      const double x = (i >> axis & 1 ? to : from)[axis];
      text += (text.empty() || text.back() == '\n' ? "" : " ") + std::to_string(x);
    }
    text += "\n";
  }
  return text;
}

TEST(ObjScene, GroupsAndObjectsArePartsWithTheColoursOfTheirMaterials) {
  const TempFolder folder;
  folder.write("paint.mtl",
               "newmtl red\nKd 1 0 0\nnewmtl teal\nKd 0 0.501961 0.501961\n");
  folder.write("boat.obj", "mtllib paint.mtl\n" + corners({0, 0, 0}, {10, 20, 30}, "v") +
                               corners({40, 0, 0}, {50, 5, 5}, "v") +
                               corners({-9, -9, -9}, {-1, -2, -3}, "v") +
                               "o hull\nusemtl red\n" + objBox(1) + "g mast\nusemtl teal\n" +
                               objBox(9) + "o keel\nusemtl red\n" + objBox(17));
  const auto made = newFrom(folder.path() / "boat.obj", folder);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  ASSERT_EQ(made->document.parts.size(), 3u);
  const DocumentPart* mast = partNamed(made->document, "mast");
  ASSERT_TRUE(mast);
  EXPECT_EQ(mast->colour, "#008080");
  EXPECT_EQ(mast->stages.at("block"), "boat.obj#mast");
  EXPECT_EQ(partNamed(made->document, "hull")->colour, "#FF0000");
  const auto back = loaded(*made, folder);
  ASSERT_TRUE(back.ok()) << textOf(back.problems());
  expectSameSurface(standing(*back, "hull"), shapes::box({0, 0, 0}, {10, 20, 30}), 0);
  expectSameSurface(standing(*back, "mast"), shapes::box({40, 0, 0}, {50, 5, 5}), 0);
  expectSameSurface(standing(*back, "keel"), shapes::box({-9, -9, -9}, {-1, -2, -3}), 0);
}

TEST(ObjScene, AnotherUnitScalesAllParts) {
  const TempFolder folder;
  folder.write("boat.obj", corners({0, 0, 0}, {1, 2, 3}, "v") + corners({4, 0, 0}, {5, 5, 5}, "v") +
                               "o hull\n" + objBox(1) + "o mast\n" + objBox(9));
  NewAssemblyWish wish;
  wish.source = folder.path() / "boat.obj";
  wish.file = folder.path() / "made.swing.json";
  wish.mmPerUnit = 10;
  const auto made = newAssembly(wish, MeshReader::besideThisProgram());
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  const auto back = loaded(*made, folder);
  ASSERT_TRUE(back.ok()) << textOf(back.problems());
  expectSameSurface(standing(*back, "mast"), shapes::box({40, 0, 0}, {50, 50, 50}), 1e-12);
}

std::string daeGeometry(const std::string& id, const Vector3d& from, const Vector3d& to) {
  std::string indices;
  const int faces[12][3] = {{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, {0, 1, 5}, {0, 5, 4},
                            {2, 6, 7}, {2, 7, 3}, {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}};
  for (const auto& face : faces) {
    for (const int corner : face) indices += std::to_string(corner) + " ";
  }
  return "<geometry id=\"" + id + "\" name=\"" + id + "\"><mesh><source id=\"" + id +
         "-p\"><float_array id=\"" + id + "-a\" count=\"24\">" + corners(from, to, "") +
         "</float_array><technique_common><accessor source=\"#" + id +
         "-a\" count=\"8\" stride=\"3\"><param name=\"X\" type=\"float\"/><param name=\"Y\" "
         "type=\"float\"/><param name=\"Z\" type=\"float\"/></accessor></technique_common>"
         "</source><vertices id=\"" +
         id + "-v\"><input semantic=\"POSITION\" source=\"#" + id +
         "-p\"/></vertices><triangles count=\"12\"><input semantic=\"VERTEX\" source=\"#" + id +
         "-v\" offset=\"0\"/><p>" + indices + "</p></triangles></mesh></geometry>";
}

std::string daeNode(const std::string& name, const std::string& geometry, const std::string& inside) {
  return "<node id=\"" + name + "-id\" name=\"" + name + "\">" + inside +
         "<instance_geometry url=\"#" + geometry + "\"/></node>";
}

TEST(DaeScene, NodesArePartsInTheirUnitAndWithTheirUpAxis) {
  const TempFolder folder;
  const std::string nodes =
      daeNode("hull", "box", "") +
      daeNode("mast", "box",
              "<matrix>0 -1 0 5  1 0 0 6  0 0 1 7  0 0 0 1</matrix>") +
      daeNode("mirrored", "box", "<scale>1 1 -1</scale>");
  folder.write("boat.dae",
               "<?xml version=\"1.0\"?><COLLADA xmlns=\"http://www.collada.org/2005/11/"
               "COLLADASchema\" version=\"1.4.1\"><asset><unit name=\"centimeter\" "
               "meter=\"0.01\"/><up_axis>Z_UP</up_axis></asset><library_geometries>" +
                   daeGeometry("box", {1, 2, 3}, {2, 4, 6}) +
                   "</library_geometries><library_visual_scenes><visual_scene id=\"s\">" + nodes +
                   "</visual_scene></library_visual_scenes><scene><instance_visual_scene "
                   "url=\"#s\"/></scene></COLLADA>");
  const auto made = newFrom(folder.path() / "boat.dae", folder);
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  ASSERT_EQ(made->document.parts.size(), 3u);
  EXPECT_EQ(partNamed(made->document, "mast")->stages.at("block"), "boat.dae#hull");
  const auto back = loaded(*made, folder);
  ASSERT_TRUE(back.ok()) << textOf(back.problems());
  // Assimp computes in single precision: 1e-7 of 100 mm.
  expectSameSurface(standing(*back, "hull"), shapes::box({10, 20, 30}, {20, 40, 60}), 2e-5);
  // (x, y, z) -> (5 - y, 6 + x, 7 + z), in cm.
  expectSameSurface(standing(*back, "mast"), shapes::box({10, 70, 100}, {30, 80, 130}), 2e-5);
  expectSameSurface(standing(*back, "mirrored"), shapes::box({10, 20, -60}, {20, 40, -30}), 2e-5);
  ASSERT_TRUE(partNamed(made->document, "mirrored")->mirror);
}

}  // namespace
}  // namespace swingroom
