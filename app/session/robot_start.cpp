#include "app/session/robot_start.h"

#include <QFileInfo>
#include <QStandardPaths>
#include <memory>

#include "core/base/parallel.h"
#include "core/files/urdf/mesh_places.h"

namespace swingroom {
namespace {

/// Beside the URDF, or where that may not be written among the user's documents; not over a file
/// that is there.
std::filesystem::path fileForRobot(const std::filesystem::path& urdf) {
  std::error_code ignored;
  std::filesystem::path folder = std::filesystem::absolute(urdf, ignored).parent_path();
  if (!QFileInfo(QString::fromStdString(folder.string())).isWritable()) {
    folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation).toStdString();
  }
  const std::string name = urdf.stem().string();
  auto file = folder / (name + ".swing.json");
  for (int i = 2; std::filesystem::exists(file, ignored); ++i) {
    file = folder / (name + " " + std::to_string(i) + ".swing.json");
  }
  return file;
}

RobotStart::Read readRobot(const RobotStart::Wish& wish, const MeshReader& reader,
                           const WorkMonitor& monitor) {
  NewAssemblyWish asked;
  asked.source = wish.urdf;
  asked.file = fileForRobot(wish.urdf);
  asked.requiredGapMm = wish.requiredGapMm;
  asked.robot = wish.robot;
  asked.threads = defaultThreads();
  asked.monitor = &monitor;
  return {newAssembly(asked, reader), asked.file, packagesOf(wish.urdf, wish.robot.packages)};
}

}  // namespace

void RobotStart::read(const Wish& wish) {
  const int asked = ++asked_;
  const auto give = [this, asked](Read read) {
    auto shared = std::make_shared<const Read>(std::move(read));
    QMetaObject::invokeMethod(
        this,
        [this, asked, shared] {
          if (asked == asked_) Q_EMIT done(*shared);
        },
        Qt::QueuedConnection);
  };
  worker_.ask([this, give, wish] { give(readRobot(wish, reader_, monitor_)); },
              [give, wish](const std::string& why) {
                give({Problem{wish.urdf.string(), "could not be read: " + why, ""}, {}, {}});
              });
}

}  // namespace swingroom
