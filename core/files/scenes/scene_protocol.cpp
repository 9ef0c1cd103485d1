#include "core/files/scenes/scene_protocol.h"

#include <algorithm>

namespace swingroom {
namespace {

using Matrix34 = Eigen::Matrix<double, 3, 4>;

void write(ByteWriter& writer, const Eigen::Affine3d& X) {
  writer.value<Matrix34>(X.affine());
}

Eigen::Affine3d readAffine(ByteReader& reader) {
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  X.affine() = reader.value<Matrix34>();
  return X;
}

void write(ByteWriter& writer, const Features& features) {
  writer.value<std::uint64_t>(features.cylinders.size());
  for (const CylinderFeature& cylinder : features.cylinders) writer.value(cylinder);
  writer.value<std::uint64_t>(features.balls.size());
  for (const BallFeature& ball : features.balls) writer.value(ball);
}

Features readFeatures(ByteReader& reader) {
  Features features;
  features.cylinders =
      reader.each<CylinderFeature>([&] { return reader.value<CylinderFeature>(); });
  features.balls = reader.each<BallFeature>([&] { return reader.value<BallFeature>(); });
  return features;
}

void write(ByteWriter& writer, const SceneSurface& surface) {
  writer.list(surface.mesh.vertices);
  writer.list(surface.mesh.triangles);
  write(writer, surface.features);
  writer.value(surface.deviationMm);
}

SceneSurface readSurface(ByteReader& reader) {
  SceneSurface surface;
  surface.mesh.vertices = reader.list<Eigen::Vector3d>();
  surface.mesh.triangles = reader.list<Triangle>();
  surface.features = readFeatures(reader);
  surface.deviationMm = reader.value<double>();
  return surface;
}

/// An index that may be none.
void write(ByteWriter& writer, const std::optional<std::size_t>& index) {
  writer.value<std::uint64_t>(index ? *index + 1 : 0);
}

std::optional<std::size_t> readIndex(ByteReader& reader) {
  const auto next = reader.value<std::uint64_t>();
  if (next == 0) return std::nullopt;
  return next - 1;
}

void write(ByteWriter& writer, const ScenePart& part) {
  writer.text(part.name);
  writer.value<std::uint64_t>(part.surface);
  writer.text(part.colour.value_or(""));
  write(writer, part.node);
  write(writer, part.X_SP);
}

ScenePart readPart(ByteReader& reader) {
  ScenePart part;
  part.name = reader.text();
  part.surface = reader.value<std::uint64_t>();
  if (std::string colour = reader.text(); !colour.empty()) part.colour = std::move(colour);
  part.node = readIndex(reader);
  part.X_SP = readAffine(reader);
  return part;
}

void write(ByteWriter& writer, const SceneNode& node) {
  writer.text(node.name);
  write(writer, node.parent);
  writer.value(node.translation);
  writer.value(node.rotation.coeffs());
  writer.value(node.scale);
  writer.value<std::uint8_t>(node.matrix.has_value());
  if (node.matrix) write(writer, *node.matrix);
}

SceneNode readNode(ByteReader& reader) {
  SceneNode node;
  node.name = reader.text();
  node.parent = readIndex(reader);
  node.translation = reader.value<Vector3d>();
  node.rotation.coeffs() = reader.value<Eigen::Vector4d>();
  node.scale = reader.value<Vector3d>();
  if (reader.value<std::uint8_t>() != 0) node.matrix = readAffine(reader);
  return node;
}

void write(ByteWriter& writer, const SceneAnimation& animation) {
  writer.text(animation.name);
  writer.value<std::uint64_t>(animation.tracks.size());
  for (const SceneTrack& track : animation.tracks) {
    writer.value<std::uint64_t>(track.node);
    writer.value(track.quantity);
    writer.value(track.way);
    writer.list(track.timesS);
    writer.list(track.values);
  }
}

SceneTrack readTrack(ByteReader& reader) {
  SceneTrack track;
  track.node = reader.value<std::uint64_t>();
  track.quantity = reader.value<KeyedQuantity>();
  track.way = reader.value<KeyedWay>();
  track.timesS = reader.list<double>();
  track.values = reader.list<Eigen::Vector4d>();
  return track;
}

SceneAnimation readAnimation(ByteReader& reader) {
  SceneAnimation animation;
  animation.name = reader.text();
  animation.tracks = reader.each<SceneTrack>([&] { return readTrack(reader); });
  return animation;
}

bool isSound(const SceneTrack& track, std::size_t nodes) {
  const std::size_t each = track.way == KeyedWay::cubic ? 3 : 1;
  const bool known = track.quantity <= KeyedQuantity::scale && track.way <= KeyedWay::cubic;
  return known && track.node < nodes && !track.timesS.empty() &&
         track.values.size() == each * track.timesS.size() &&
         std::is_sorted(track.timesS.begin(), track.timesS.end()) &&
         std::all_of(track.values.begin(), track.values.end(),
                     [](const Eigen::Vector4d& v) { return v.allFinite(); });
}

bool isSound(const SceneFile& scene) {
  for (const SceneSurface& surface : scene.surfaces) {
    if (!isSoundMesh(surface.mesh)) return false;
  }
  for (const ScenePart& part : scene.parts) {
    const bool placed = !part.node || *part.node < scene.nodes.size();
    if (part.name.empty() || part.surface >= scene.surfaces.size() || !placed) return false;
    if (!part.X_SP.matrix().allFinite()) return false;
  }
  for (std::size_t n = 0; n < scene.nodes.size(); ++n) {
    if (scene.nodes[n].parent && *scene.nodes[n].parent >= n) return false;
  }
  for (const SceneAnimation& animation : scene.animations) {
    for (const SceneTrack& track : animation.tracks) {
      if (!isSound(track, scene.nodes.size())) return false;
    }
  }
  return !scene.parts.empty() && scene.X_SF.matrix().allFinite();
}

}  // namespace

bool isSoundMesh(const TriangleMesh& mesh) {
  for (const auto& vertex : mesh.vertices) {
    if (!vertex.allFinite()) return false;
  }
  for (const Triangle& triangle : mesh.triangles) {
    for (const std::uint32_t index : triangle) {
      if (index >= mesh.vertices.size()) return false;
    }
  }
  return !mesh.triangles.empty();
}

void writeScene(ByteWriter& writer, const SceneFile& scene) {
  const auto all = [&](const auto& items) {
    writer.value<std::uint64_t>(items.size());
    for (const auto& item : items) write(writer, item);
  };
  writer.text(scene.unit);
  writer.value<std::uint8_t>(scene.unitAssumed);
  all(scene.surfaces);
  all(scene.parts);
  all(scene.nodes);
  all(scene.animations);
  write(writer, scene.X_SF);
  writer.value<std::uint64_t>(scene.notes.size());
  for (const Problem& note : scene.notes) {
    for (const std::string& text : {note.where, note.what, note.hint}) writer.text(text);
  }
}

std::optional<SceneFile> readScene(ByteReader& reader) {
  SceneFile scene;
  scene.unit = reader.text();
  scene.unitAssumed = reader.value<std::uint8_t>() != 0;
  scene.surfaces = reader.each<SceneSurface>([&] { return readSurface(reader); });
  scene.parts = reader.each<ScenePart>([&] { return readPart(reader); });
  scene.nodes = reader.each<SceneNode>([&] { return readNode(reader); });
  scene.animations = reader.each<SceneAnimation>([&] { return readAnimation(reader); });
  scene.X_SF = readAffine(reader);
  scene.notes = reader.each<Problem>([&] {
    std::string where = reader.text(), what = reader.text(), hint = reader.text();
    return Problem{std::move(where), std::move(what), std::move(hint)};
  });
  if (!reader.atEnd() || !isSound(scene)) return std::nullopt;
  return scene;
}

}  // namespace swingroom
