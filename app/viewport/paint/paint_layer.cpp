#include "app/viewport/paint/paint_layer.h"

namespace swingroom {
namespace {

PaintMaker::Mesh meshIn(const ViewScene& scene, std::size_t part) {
  if (part >= scene.parts.size() || !scene.parts[part].surface) return nullptr;
  return scene.parts[part].surface->mesh;
}

}  // namespace

PaintLayer::PaintLayer(QObject* parent) : QObject(parent) {
  connect(&maker_, &PaintMaker::ready, this, [this] {
    takeMade(maker_.take());
    Q_EMIT changed();
  });
}

bool PaintLayer::set(const ViewPaint& paint, const ViewScene& scene) {
  if (paint == paint_) return false;
  const bool sameParts = paint.parts == paint_.parts;
  paint_ = paint;
  if (sameParts) return true;
  std::map<std::size_t, Shown> shown;
  std::vector<std::pair<PaintMaker::Mesh, PaintMaker::Surface>> missing;
  for (const ViewPaint::Painted& painted : paint_.parts) {
    const PaintMaker::Mesh mesh = meshIn(scene, painted.part.index);
    if (!mesh || !painted.surface) continue;
    const auto before = shown_.find(painted.part.index);
    Shown& now = shown[painted.part.index];
    if (before != shown_.end() && before->second.mesh == mesh) now = before->second;
    now.mesh = mesh;
    now.wanted = painted.surface;
    if (!now.paint || now.paint->surface != now.wanted) missing.emplace_back(mesh, now.wanted);
  }
  shown_ = std::move(shown);
  maker_.make(missing);
  return true;
}

void PaintLayer::takeScene(const ViewScene& scene) {
  std::erase_if(shown_,
                [&](const auto& entry) { return meshIn(scene, entry.first) != entry.second.mesh; });
}

std::vector<PartId> PaintLayer::parts() const {
  std::vector<PartId> parts;
  for (const ViewPaint::Painted& painted : paint_.parts) {
    if (shown_.contains(painted.part.index)) parts.push_back(painted.part);
  }
  return parts;
}

std::shared_ptr<const PaintMesh> PaintLayer::meshOf(std::size_t part) const {
  const auto found = shown_.find(part);
  return found == shown_.end() ? nullptr : found->second.paint;
}

void PaintLayer::takeMade(const std::vector<std::shared_ptr<const PaintMesh>>& made) {
  for (const auto& paint : made) {
    for (auto& [part, shown] : shown_) {
      if (shown.wanted == paint->surface) shown.paint = paint;
    }
  }
}

void PaintLayer::finish() {
  takeMade(maker_.finish());
}

}  // namespace swingroom
