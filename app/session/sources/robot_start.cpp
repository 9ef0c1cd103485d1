#include "app/session/sources/robot_start.h"

#include <memory>

#include "app/session/sources/new_file_place.h"
#include "core/base/parallel.h"
#include "core/files/urdf/mesh_places.h"

namespace swingroom {
namespace {

RobotStart::Read readRobot(const RobotStart::Wish& wish, const MeshReader& reader,
                           const WorkMonitor& monitor) {
  NewAssemblyWish asked;
  asked.source = wish.urdf;
  asked.file = placeForNew(wish.urdf);
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
