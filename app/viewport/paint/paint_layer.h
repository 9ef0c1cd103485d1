#pragma once

#include <map>
#include <optional>

#include "app/viewport/paint/paint_maker.h"
#include "app/viewport/view_scene.h"

namespace swingroom {

/// Which surfaces the view shows painted. A newer surface of a part takes the place of the one
/// before when it is ready; until the first one is, the part is plain.
class PaintLayer : public QObject {
  Q_OBJECT

 public:
  explicit PaintLayer(QObject* parent = nullptr);

  /// @returns Whether anything changed.
  bool set(const ViewPaint& paint, const ViewScene& scene);
  /// Parts that have another mesh now lose their paint.
  void takeScene(const ViewScene& scene);
  const ViewPaint& paint() const { return paint_; }
  /// In the order of the paint; those that the scene has a mesh for.
  std::vector<PartId> parts() const;
  /// Null: the part is shown plain.
  std::shared_ptr<const PaintMesh> meshOf(std::size_t part) const;
  /// Waits until all are ready.
  void finish();

 Q_SIGNALS:
  /// A surface became ready.
  void changed();

 private:
  struct Shown {
    PaintMaker::Mesh mesh;
    PaintMaker::Surface wanted;
    std::shared_ptr<const PaintMesh> paint;  ///< Of `wanted`, or of the one before it.
  };
  void takeMade(const std::vector<std::shared_ptr<const PaintMesh>>& made);

  ViewPaint paint_;
  std::map<std::size_t, Shown> shown_;  ///< By PartId.
  PaintMaker maker_;
};

}  // namespace swingroom
