#include "tests/scenes/writers/gltf_writer.h"

#include <tiny_gltf.h>

#include <algorithm>
#include <cstring>
#include <stdexcept>

namespace swingroom::writers {

struct GltfWriter::Made {
  tinygltf::Model model;
};

namespace {

template <typename T>
int addView(tinygltf::Model& model, const std::vector<T>& items, int target) {
  auto& bytes = model.buffers.front().data;
  while (bytes.size() % 4 != 0) bytes.push_back(0);
  tinygltf::BufferView view;
  view.buffer = 0;
  view.byteOffset = bytes.size();
  view.byteLength = items.size() * sizeof(T);
  view.target = target;
  bytes.resize(bytes.size() + view.byteLength);
  std::memcpy(bytes.data() + view.byteOffset, items.data(), view.byteLength);
  model.bufferViews.push_back(view);
  return static_cast<int>(model.bufferViews.size()) - 1;
}

int addAccessor(tinygltf::Model& model, int view, int componentType, int type, std::size_t count) {
  tinygltf::Accessor accessor;
  accessor.bufferView = view;
  accessor.byteOffset = 0;
  accessor.componentType = componentType;
  accessor.type = type;
  accessor.count = count;
  model.accessors.push_back(accessor);
  return static_cast<int>(model.accessors.size()) - 1;
}

std::vector<double> listOf(const Eigen::VectorXd& v) {
  return {v.data(), v.data() + v.size()};
}

}  // namespace

GltfWriter::GltfWriter() : made_(std::make_unique<Made>()) {
  made_->model.asset.version = "2.0";
  made_->model.buffers.emplace_back();
  made_->model.scenes.emplace_back();
  made_->model.defaultScene = 0;
}

GltfWriter::~GltfWriter() = default;

int GltfWriter::addFloats(const std::vector<float>& numbers, int type, std::size_t count) {
  const int view = addView(made_->model, numbers, 0);
  return addAccessor(made_->model, view, TINYGLTF_COMPONENT_TYPE_FLOAT, type, count);
}

int GltfWriter::addMesh(const std::string& name, const TriangleMesh& mesh,
                        const std::optional<Eigen::Vector3d>& colour) {
  tinygltf::Model& model = made_->model;
  std::vector<float> places;
  Eigen::AlignedBox3d box;
  for (const auto& v : mesh.vertices) {
    for (int i = 0; i < 3; ++i) places.push_back(static_cast<float>(v[i]));
    box.extend(v.cast<float>().cast<double>());
  }
  std::vector<std::uint32_t> corners;
  for (const Triangle& triangle : mesh.triangles) {
    corners.insert(corners.end(), triangle.begin(), triangle.end());
  }
  tinygltf::Primitive primitive;
  primitive.mode = TINYGLTF_MODE_TRIANGLES;
  const int placesAt = addFloats(places, TINYGLTF_TYPE_VEC3, mesh.vertices.size());
  model.accessors.back().minValues = listOf(box.min());
  model.accessors.back().maxValues = listOf(box.max());
  primitive.attributes["POSITION"] = placesAt;
  primitive.indices =
      addAccessor(model, addView(model, corners, TINYGLTF_TARGET_ELEMENT_ARRAY_BUFFER),
                  TINYGLTF_COMPONENT_TYPE_UNSIGNED_INT, TINYGLTF_TYPE_SCALAR, corners.size());
  if (colour) {
    tinygltf::Material material;
    material.pbrMetallicRoughness.baseColorFactor = {colour->x(), colour->y(), colour->z(), 1};
    model.materials.push_back(material);
    primitive.material = static_cast<int>(model.materials.size()) - 1;
  }
  tinygltf::Mesh made;
  made.name = name;
  made.primitives.push_back(primitive);
  model.meshes.push_back(made);
  return static_cast<int>(model.meshes.size()) - 1;
}

int GltfWriter::addNode(const Node& node) {
  tinygltf::Model& model = made_->model;
  tinygltf::Node made;
  made.name = node.name;
  made.mesh = node.mesh;
  if (node.translation) made.translation = listOf(*node.translation);
  if (node.rotation) made.rotation = listOf(node.rotation->coeffs());
  if (node.scale) made.scale = listOf(*node.scale);
  if (node.matrix) made.matrix = {node.matrix->data(), node.matrix->data() + 16};
  const int index = static_cast<int>(model.nodes.size());
  model.nodes.push_back(made);
  auto& siblings = node.parent < 0 ? model.scenes.front().nodes
                                   : model.nodes[static_cast<std::size_t>(node.parent)].children;
  siblings.push_back(index);
  return index;
}

int GltfWriter::addAnimation(const std::string& name) {
  made_->model.animations.emplace_back();
  made_->model.animations.back().name = name;
  return static_cast<int>(made_->model.animations.size()) - 1;
}

void GltfWriter::addTrack(int animation, int node, const std::string& path,
                          const std::vector<double>& timesS,
                          const std::vector<Eigen::Vector4d>& values,
                          const std::string& interpolation) {
  const int width = path == "rotation" ? 4 : 3;
  std::vector<float> times(timesS.begin(), timesS.end()), numbers;
  for (const auto& value : values) {
    for (int i = 0; i < width; ++i) numbers.push_back(static_cast<float>(value[i]));
  }
  tinygltf::AnimationSampler sampler;
  sampler.interpolation = interpolation;
  sampler.input = addFloats(times, TINYGLTF_TYPE_SCALAR, times.size());
  made_->model.accessors.back().minValues = {times.front()};
  made_->model.accessors.back().maxValues = {times.back()};
  sampler.output = addFloats(numbers, width == 4 ? TINYGLTF_TYPE_VEC4 : TINYGLTF_TYPE_VEC3,
                             values.size());
  tinygltf::Animation& made = made_->model.animations.at(static_cast<std::size_t>(animation));
  made.samplers.push_back(sampler);
  tinygltf::AnimationChannel channel;
  channel.sampler = static_cast<int>(made.samplers.size()) - 1;
  channel.target_node = node;
  channel.target_path = path;
  made.channels.push_back(channel);
}

void GltfWriter::write(const std::filesystem::path& file) const {
  tinygltf::TinyGLTF writer;
  const bool binary = file.extension() == ".glb";
  if (!writer.WriteGltfSceneToFile(&made_->model, file.string(), true, binary, true, binary)) {
    throw std::runtime_error("tinygltf cannot write " + file.string());
  }
}

}  // namespace swingroom::writers
