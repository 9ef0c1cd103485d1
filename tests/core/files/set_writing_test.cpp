// A set of objects as 3MF, read back by lib3mf in the reader and held against what was written.
#include <gtest/gtest.h>

#include "core/files/formats/writing/write_set.h"
#include "core/files/mesh_file.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

std::vector<SetObject> someObjects() {
  SetObject pin{"pin & <hole>",
                std::make_shared<const TriangleMesh>(shapes::cylinder(2, 0, 9, 24)),
                "PLA",
                rgbOf("#B08D57"),
                {}};
  for (int i = 0; i < 3; ++i) {
    Pose X = rotationAbout(kOrigin, Vector3d::UnitX(), 0.4 * i);
    X.translation() = Vector3d(20 + 10 * i, 30, 5);
    pin.places.push_back(X);
  }
  const SetObject plate{"plate",
                        std::make_shared<const TriangleMesh>(shapes::box({0, 0, 0}, {30, 20, 4})),
                        "PETG",
                        rgbOf("#00ff7F"),
                        {translation({100, 100, 0})}};
  return {pin, plate};
}

TEST(SetWriting, ObjectsComeBackByNameColourCountAndPlace) {
  const TempFolder folder;
  const auto file = folder.path() / "set.3mf";
  const std::vector<SetObject> objects = someObjects();
  ASSERT_FALSE(writeSet(file, objects, "small set"));
  const Outcome<SceneFile> scene = MeshReader::besideThisProgram().readScene(file);
  ASSERT_TRUE(scene.ok()) << toText(scene.problems().front());
  ASSERT_EQ(scene->parts.size(), 4u);
  EXPECT_EQ(scene->surfaces.size(), 2u);
  EXPECT_EQ(scene->unit, "mm");
  for (std::size_t p = 0; p < 4; ++p) {
    const SetObject& object = objects[p / 3];
    const ScenePart& part = scene->parts[p];
    EXPECT_EQ(part.name.rfind(object.name, 0), 0u) << part.name;
    EXPECT_EQ(part.colour, p < 3 ? "#B08D57" : "#00FF7F");
    const TriangleMesh read =
        transformed(scene->surfaces[part.surface].mesh, scene->X_SF * part.X_SP);
    const TriangleMesh wanted = shapes::moved(*object.mesh, object.places[p % 3]);
    ASSERT_EQ(read.triangles.size(), wanted.triangles.size());
    for (std::size_t t = 0; t < read.triangles.size(); ++t) {
      for (int i = 0; i < 3; ++i) {
        // Single precision of 100 mm, and six decimals in the file.
        EXPECT_LE((read.corner(t, i) - wanted.corner(t, i)).cwiseAbs().maxCoeff(), 2e-5);
      }
    }
  }
}

TEST(SetWriting, ColoursAreReadAsTheyAreWritten) {
  EXPECT_EQ(rgbOf("#B08D57"), (std::array<std::uint8_t, 3>{0xB0, 0x8D, 0x57}));
  EXPECT_FALSE(rgbOf("red"));
  EXPECT_FALSE(rgbOf("#B08D5"));
  EXPECT_FALSE(rgbOf("#B08D5G"));
  EXPECT_FALSE(rgbOf(""));
}

TEST(SetWriting, WhatCannotBeWrittenIsTold) {
  const TempFolder folder;
  EXPECT_TRUE(writeSet(folder.path() / "nowhere" / "set.3mf", someObjects(), ""));
  SetObject empty{"nothing", nullptr, "", {}, {}};
  EXPECT_THROW(threeMfSetBytes({empty}, ""), std::invalid_argument);
}

}  // namespace
}  // namespace swingroom
