#pragma once

#include <QObject>
#include <memory>

#include "app/session/latest_worker.h"
#include "app/session/scene.h"
#include "core/files/mesh_memory.h"

namespace swingroom {

/// Makes scenes of documents in the background; meshes that have not changed are kept.
class SceneLoader : public QObject {
  Q_OBJECT

 public:
  explicit SceneLoader(MeshReader reader, QObject* parent = nullptr);
  /// Does not wait for meshes that are being read.
  ~SceneLoader() override { monitor_.cancel(); }

  /// One of the signals follows, unless a later call comes before.
  /// @param before  The state whose geometry is used again; or null.
  /// @param mayBeLate  Mesh files that may be half-written: if one cannot be read, its parts keep
  /// their last mesh.
  void load(const AssemblyDocument& document, const std::filesystem::path& file, ScenePtr before,
            const std::set<std::filesystem::path>& mayBeLate = {});
  bool isLoading() const { return asked_ != answered_; }
  /// Of the last answer.
  const LateMeshes& late() const { return late_; }

 Q_SIGNALS:
  void loaded(const ScenePtr& scene);
  void failed(const Problems& problems);

 private:
  void answer(std::size_t number, const Outcome<ScenePtr>& outcome, const LateMeshes& late);

  MeshReader reader_;
  LateMeshes late_;
  MeshMemory memory_;
  std::size_t asked_ = 0;
  std::size_t answered_ = 0;
  WorkMonitor monitor_;
  LatestWorker worker_;
};

}  // namespace swingroom
