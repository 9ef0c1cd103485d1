#pragma once

#include <QObject>
#include <QTimer>
#include <filesystem>
#include <functional>
#include <memory>

#include "app/session/latest_worker.h"
#include "app/session/scene.h"
#include "core/room/space/room_space.h"

namespace swingroom {

/// Which space of a part is to be saved, and where.
struct SpaceWish {
  PartId part;
  bool sweeps = false;       ///< What it passes through; else what it may fill.
  std::optional<PartId> in;  ///< In whose frame what it sweeps is; none: the assembly's.
  SpaceSettings settings;
  std::filesystem::path file;  ///< Its ending says the format.
};

/// Works out a part's space in the background and writes it as a mesh file.
class SpaceWriter : public QObject {
  Q_OBJECT

 public:
  /// Writes a file as a whole or not at all. @returns Why not; none: it is there.
  using Write =
      std::function<std::optional<Problem>(const TriangleMesh& mesh, const std::filesystem::path&)>;

  explicit SpaceWriter(Write write, QObject* parent = nullptr);
  /// Does not wait for what is being worked out.
  ~SpaceWriter() override;

  /// Ends what was under way. The scene must have the part, with a mesh.
  void start(const ScenePtr& scene, const SpaceWish& wish);
  /// Nothing is written then.
  void stop();
  bool isWorking() const { return run_ != nullptr; }
  double share() const;

 Q_SIGNALS:
  /// A few times a second while it works.
  void progressed();
  /// The file is there. The mesh itself is not kept.
  void written(const SpaceWish& wish, const SpaceMesh& space);
  void failed(const Problems& problems);

 private:
  struct Run;
  void end(const std::shared_ptr<Run>& run, const std::function<void()>& tell);
  void cancel();

  Write write_;
  std::shared_ptr<Run> run_;  ///< Null: nothing is under way.
  QTimer pulse_;
  LatestWorker worker_;
};

}  // namespace swingroom
