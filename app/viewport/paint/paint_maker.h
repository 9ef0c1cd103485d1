#pragma once

#include <QObject>
#include <QThreadPool>
#include <atomic>
#include <mutex>

#include "app/viewport/paint/paint_mesh.h"

namespace swingroom {

/// Makes painted surfaces ready on a thread of its own.
class PaintMaker : public QObject {
  Q_OBJECT

 public:
  using Mesh = std::shared_ptr<const TriangleMesh>;
  using Surface = std::shared_ptr<const PaintedSurface>;

  explicit PaintMaker(QObject* parent = nullptr);
  ~PaintMaker() override;

  /// What was asked for before and has not begun is no longer wanted.
  void make(const std::vector<std::pair<Mesh, Surface>>& wanted);
  /// What became ready since this was last asked.
  std::vector<std::shared_ptr<const PaintMesh>> take();
  /// The same after waiting for all.
  std::vector<std::shared_ptr<const PaintMesh>> finish();

 Q_SIGNALS:
  /// There is something to take.
  void ready();

 private:
  std::mutex mutex_;  ///< Of the one below.
  std::vector<std::shared_ptr<const PaintMesh>> made_;
  std::atomic<int> asked_ = 0;  ///< Which call of `make` is the last.
  QThreadPool pool_;
};

}  // namespace swingroom
