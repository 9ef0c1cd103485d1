#pragma once

#include <QObject>
#include <map>
#include <optional>

#include "app/session/latest_worker.h"
#include "core/files/sources/new_assembly.h"

namespace swingroom {

/// Makes a new assembly from a robot description (URDF), in the background.
class RobotStart : public QObject {
  Q_OBJECT

 public:
  struct Wish {
    std::filesystem::path urdf;
    RobotWish robot;
    double requiredGapMm = 0.3;
  };
  struct Read {
    Outcome<NewAssembly> made;
    std::filesystem::path file;  ///< Where it will be saved.
    /// The packages that its meshes name; none: not found.
    std::map<std::string, std::optional<std::filesystem::path>> packages;
  };

  explicit RobotStart(MeshReader reader, QObject* parent = nullptr)
      : QObject(parent), reader_(std::move(reader)) {}

  /// Does not wait for what is being read.
  ~RobotStart() override { monitor_.cancel(); }

  /// A newer wish takes the place of one that waits; only the newest is answered.
  void read(const Wish& wish);

 Q_SIGNALS:
  void done(const RobotStart::Read& read);

 private:
  MeshReader reader_;
  WorkMonitor monitor_;
  int asked_ = 0;
  LatestWorker worker_;
};

}  // namespace swingroom
