#pragma once

#include <QObject>
#include <optional>

#include "app/session/latest_worker.h"
#include "core/files/scenes/scene_look.h"
#include "core/files/sources/new_assembly.h"

namespace swingroom {

/// Makes a new assembly from one file with many parts, in the background.
class SceneStart : public QObject {
  Q_OBJECT

 public:
  struct Wish {
    std::filesystem::path source;
    std::optional<double> mmPerUnit;  ///< Of a format without a unit; none: guessed.
    double requiredGapMm = 0.3;
    std::string ground;  ///< The part that stands still; empty: as is found.
    std::vector<KeyedModeWish> poses;
  };
  struct Made {
    Outcome<NewAssembly> assembly;
    std::filesystem::path file;  ///< Where it will be saved: beside the source.
  };

  explicit SceneStart(MeshReader reader, QObject* parent = nullptr)
      : QObject(parent), reader_(std::move(reader)) {}

  /// Does not wait for what is being read.
  ~SceneStart() override { monitor_.cancel(); }

  /// A newer wish takes the place of one that waits; only the newest is answered.
  void look(const std::filesystem::path& source);
  void make(const Wish& wish);

 Q_SIGNALS:
  void looked(const Outcome<SceneLook>& look);
  void made(const SceneStart::Made& made);

 private:
  MeshReader reader_;
  WorkMonitor monitor_;
  int asked_ = 0;
  LatestWorker worker_;
};

}  // namespace swingroom
