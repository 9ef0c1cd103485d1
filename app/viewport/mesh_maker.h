#pragma once

#include <QObject>
#include <QThreadPool>
#include <memory>
#include <mutex>
#include <set>
#include <vector>

#include "app/viewport/view_mesh.h"

namespace swingroom {

/// Makes meshes ready for drawing on threads of its own.
class MeshMaker : public QObject {
  Q_OBJECT

 public:
  using Source = std::shared_ptr<const TriangleMesh>;
  struct Made {
    Source source;
    std::shared_ptr<const ViewMesh> mesh;
  };

  explicit MeshMaker(QObject* parent = nullptr);
  ~MeshMaker() override;

  /// Makes these; what was asked for before and is not among them is no longer wanted.
  void make(const std::vector<Source>& sources);
  /// What became ready since this was last asked.
  std::vector<Made> take();
  /// The same after waiting for all.
  std::vector<Made> finish();

 Q_SIGNALS:
  /// There is something to take.
  void ready();

 private:
  void makeOne(const Source& source);
  /// With the lock held.
  bool waitsToBeTaken(const Source& source) const;

  std::mutex mutex_;  ///< Of the three below.
  std::set<const TriangleMesh*> wanted_, underWay_;
  std::vector<Made> made_;
  QThreadPool pool_;
};

}  // namespace swingroom
