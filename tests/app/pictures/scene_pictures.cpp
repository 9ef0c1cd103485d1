#include "tests/app/pictures/scene_pictures.h"

#include <QTest>

#include "app/window/forms/scene_form.h"
#include "tests/scenes/writers/gltf_writer.h"

namespace swingroom {
namespace {

constexpr double kMm = 0.001;

/// A box in the file's metres, given in mm.
TriangleMesh boxMm(const Vector3d& from, const Vector3d& to) {
  TriangleMesh mesh;
  for (int i = 0; i < 8; ++i) {
    mesh.vertices.push_back(kMm * Vector3d(i & 1 ? to.x() : from.x(), i & 2 ? to.y() : from.y(),
                                           i & 4 ? to.z() : from.z()));
  }
  mesh.triangles = {{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, {0, 1, 5}, {0, 5, 4},
                    {2, 6, 7}, {2, 7, 3}, {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}};
  return mesh;
}

Eigen::Vector4d about(const Vector3d& axis, double deg) {
  return Eigen::Quaterniond(Eigen::AngleAxisd(radFromDeg(deg), axis)).coeffs();
}

/// A chest whose lid opens and whose drawer comes out after it.
void writeChest(const std::filesystem::path& file, bool keyed) {
  writers::GltfWriter writer;
  writer.addNode(
      {"chest", writer.addMesh("", boxMm({0, 0, 0}, {60, 30, 40}), Vector3d(0.1, 0.2, 0.3))});
  const int lid = writer.addNode(
      {"lid", writer.addMesh("", boxMm({0, 0.5, 0.5}, {60, 5, 40}), Vector3d(0.5, 0.1, 0.1)), -1,
       Vector3d(0, 0.03, 0)});
  const int drawer = writer.addNode(
      {"drawer", writer.addMesh("", boxMm({2, 2, 40.6}, {58, 20, 44}), Vector3d(0.6, 0.5, 0.2))});
  if (keyed) {
    const int animation = writer.addAnimation("open");
    writer.addTrack(animation, lid, "rotation", {0, 1},
                    {about(Vector3d::UnitX(), 0), about(Vector3d::UnitX(), -80)});
    writer.addTrack(animation, drawer, "translation", {1, 2},
                    {Eigen::Vector4d::Zero(), Eigen::Vector4d(0, 0, 0.025, 0)});
  }
  writer.write(file);
}

void takeSceneForm(Photographer& photographer, const QString& name,
                   const std::filesystem::path& file) {
  SceneForm form(MeshReader::besideThisProgram());
  form.setFile(QString::fromStdString(file.string()));
  form.show();
  QTest::qWaitFor([&] { return form.beginButton().isEnabled(); }, 20'000);
  QTest::qWait(100);
  photographer.takeWidget(name, form);
}

}  // namespace

void takeScenes(Photographer& photographer) {
  photographer.begin();
  const QTemporaryDir folder;
  const std::filesystem::path place = folder.path().toStdString();
  writeChest(place / "chest.glb", true);
  writeChest(place / "standing_chest.glb", false);
  takeSceneForm(photographer, QStringLiteral("scene_form_keyed"), place / "chest.glb");
  takeSceneForm(photographer, QStringLiteral("scene_form"), place / "standing_chest.glb");
  SceneForm bad(MeshReader::besideThisProgram());
  bad.setFile(QStringLiteral(SWINGROOM_SOURCE "/CMakePresets.json"));
  bad.show();
  QTest::qWait(500);
  photographer.takeWidget(QStringLiteral("scene_form_wrong"), bad);
}

}  // namespace swingroom
