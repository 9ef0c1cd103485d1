#include "core/files/formats/gltf_tree.h"

// A copy of our own under another name: the Draco library that Assimp brings along exports an older
// tinygltf, whose classes are laid out otherwise.
#define tinygltf swingroom_tinygltf
#define TINYGLTF_IMPLEMENTATION
#define TINYGLTF_NO_STB_IMAGE
#define TINYGLTF_NO_STB_IMAGE_WRITE
#define TINYGLTF_NO_INCLUDE_JSON
#include <nlohmann/json.hpp>

#include <tiny_gltf.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <set>

#include "core/files/printable.h"

namespace swingroom {
namespace {

using tinygltf::Model;

/// What of an animation cannot be followed, as a clause.
struct Unfit {
  std::string why;
};

/// Pictures are not of interest: they are neither decoded nor need they be there.
bool leavePicture(tinygltf::Image*, int, std::string*, std::string*, int, int,
                  const unsigned char*, int, void*) {
  return true;
}

bool load(const std::filesystem::path& file, bool isBinary, Model& model, std::string& error) {
  tinygltf::TinyGLTF loader;
  loader.SetImageLoader(leavePicture, nullptr);
  std::string warning;
  return isBinary ? loader.LoadBinaryFromFile(&model, &error, &warning, file.string())
                  : loader.LoadASCIIFromFile(&model, &error, &warning, file.string());
}

/// One number of an accessor. glTF 2.0 Specification, 3.11: what integers stand for.
double numberAt(const unsigned char* bytes, int componentType) {
  const auto as = [&](auto number) {
    std::memcpy(&number, bytes, sizeof number);
    return static_cast<double>(number);
  };
  switch (componentType) {
    case TINYGLTF_COMPONENT_TYPE_FLOAT:
      return as(float());
    case TINYGLTF_COMPONENT_TYPE_BYTE:
      return std::max(as(std::int8_t()) / 127, -1.0);
    case TINYGLTF_COMPONENT_TYPE_UNSIGNED_BYTE:
      return as(std::uint8_t()) / 255;
    case TINYGLTF_COMPONENT_TYPE_SHORT:
      return std::max(as(std::int16_t()) / 32767, -1.0);
    case TINYGLTF_COMPONENT_TYPE_UNSIGNED_SHORT:
      return as(std::uint16_t()) / 65535;
    default:
      throw Unfit{"has values of a kind that keys cannot have"};
  }
}

/// All numbers of an accessor, `width` each.
std::vector<Eigen::Vector4d> numbersOf(const Model& model, int index, int width) {
  if (index < 0 || static_cast<std::size_t>(index) >= model.accessors.size()) {
    throw Unfit{"names values that are not there"};
  }
  const tinygltf::Accessor& accessor = model.accessors[static_cast<std::size_t>(index)];
  if (accessor.sparse.isSparse) throw Unfit{"has sparse values, which are not read"};
  if (tinygltf::GetNumComponentsInType(static_cast<std::uint32_t>(accessor.type)) != width ||
      accessor.bufferView < 0 ||
      static_cast<std::size_t>(accessor.bufferView) >= model.bufferViews.size()) {
    throw Unfit{"has values of another kind than it says"};
  }
  const auto& view = model.bufferViews[static_cast<std::size_t>(accessor.bufferView)];
  const int stride = accessor.ByteStride(view);
  const int size =
      tinygltf::GetComponentSizeInBytes(static_cast<std::uint32_t>(accessor.componentType));
  if (stride <= 0 || size <= 0 || view.buffer < 0 ||
      static_cast<std::size_t>(view.buffer) >= model.buffers.size()) {
    throw Unfit{"names values that are not there"};
  }
  const auto& bytes = model.buffers[static_cast<std::size_t>(view.buffer)].data;
  const std::size_t start = view.byteOffset + accessor.byteOffset;
  const std::size_t each = static_cast<std::size_t>(size) * static_cast<std::size_t>(width);
  const auto step = static_cast<std::size_t>(stride);
  if (accessor.count == 0) throw Unfit{"has no values"};
  if (start > bytes.size() || each > bytes.size() - start ||
      accessor.count - 1 > (bytes.size() - start - each) / step) {
    throw Unfit{"has fewer values than it says"};
  }
  std::vector<Eigen::Vector4d> numbers(accessor.count, Eigen::Vector4d::Zero());
  for (std::size_t i = 0; i < accessor.count; ++i) {
    for (int c = 0; c < width; ++c) {
      const std::size_t at = start + i * step + static_cast<std::size_t>(c * size);
      numbers[i][c] = numberAt(bytes.data() + at, accessor.componentType);
    }
    if (!numbers[i].allFinite()) throw Unfit{"has a value that is not finite"};
  }
  return numbers;
}

KeyedWay wayOf(const std::string& interpolation) {
  if (interpolation == "STEP") return KeyedWay::step;
  if (interpolation == "CUBICSPLINE") return KeyedWay::cubic;
  if (interpolation == "LINEAR" || interpolation.empty()) return KeyedWay::linear;
  throw Unfit{"goes from key to key by " + printable(interpolation, 40) + ", which is not known"};
}

std::optional<KeyedQuantity> quantityOf(const std::string& path) {
  if (path == "translation") return KeyedQuantity::translation;
  if (path == "rotation") return KeyedQuantity::rotation;
  if (path == "scale") return KeyedQuantity::scale;
  return std::nullopt;  // Weights of shapes: parts are rigid.
}

SceneTrack trackOf(const Model& model, const tinygltf::AnimationSampler& sampler,
                   KeyedQuantity quantity) {
  SceneTrack track;
  track.quantity = quantity;
  track.way = wayOf(sampler.interpolation);
  for (const Eigen::Vector4d& time : numbersOf(model, sampler.input, 1)) {
    if (!track.timesS.empty() && time.x() <= track.timesS.back()) {
      throw Unfit{"has times that do not rise"};
    }
    track.timesS.push_back(time.x());
  }
  track.values = numbersOf(model, sampler.output, quantity == KeyedQuantity::rotation ? 4 : 3);
  const std::size_t each = track.way == KeyedWay::cubic ? 3 : 1;
  if (track.values.size() != each * track.timesS.size()) {
    throw Unfit{"has not as many values as times"};
  }
  return track;
}

class TreeReader {
 public:
  explicit TreeReader(const Model& model) : model_(model) {}

  GltfTree read() {
    const std::size_t scene = model_.defaultScene < 0
                                  ? std::size_t{0}
                                  : static_cast<std::size_t>(model_.defaultScene);
    if (scene >= model_.scenes.size()) return {};
    for (const int root : model_.scenes[scene].nodes) visit(root, std::nullopt);
    tree_.roots = model_.scenes[scene].nodes.size();
    if (!isTree_) return {};
    for (const tinygltf::Animation& animation : model_.animations) addAnimation(animation);
    return std::move(tree_);
  }

 private:
  static Vector3d threeOf(const std::vector<double>& numbers, const Vector3d& none) {
    return numbers.size() == 3 ? Vector3d(numbers.data()) : none;
  }

  void visit(int index, std::optional<std::size_t> parent) {
    const bool isThere = index >= 0 && static_cast<std::size_t>(index) < model_.nodes.size();
    if (!isThere || !ours_.try_emplace(index, tree_.nodes.size()).second) {
      isTree_ = false;
      return;
    }
    const tinygltf::Node& node = model_.nodes[static_cast<std::size_t>(index)];
    SceneNode made{node.name, parent};
    made.translation = threeOf(node.translation, Vector3d::Zero());
    made.scale = threeOf(node.scale, Vector3d::Ones());
    if (node.rotation.size() == 4) {
      const Eigen::Vector4d turn(node.rotation.data());
      if (turn.norm() > 1e-12) made.rotation.coeffs() = turn.normalized();
    }
    if (node.matrix.size() == 16) {
      Eigen::Affine3d X = Eigen::Affine3d::Identity();
      X.matrix() = Eigen::Matrix4d(node.matrix.data());  // Column by column, as Eigen has it.
      made.matrix = X;
    }
    const std::size_t here = tree_.nodes.size();
    tree_.nodes.push_back(std::move(made));
    for (const int child : node.children) visit(child, here);
  }

  void addAnimation(const tinygltf::Animation& animation) {
    SceneAnimation made;
    made.name = freeName(animation.name);
    for (const tinygltf::AnimationChannel& channel : animation.channels) {
      const auto node = ours_.find(channel.target_node);
      const auto quantity = quantityOf(channel.target_path);
      if (node == ours_.end() || !quantity) continue;
      try {
        if (channel.sampler < 0 ||
            static_cast<std::size_t>(channel.sampler) >= animation.samplers.size()) {
          throw Unfit{"names values that are not there"};
        }
        SceneTrack track = trackOf(
            model_, animation.samplers[static_cast<std::size_t>(channel.sampler)], *quantity);
        track.node = node->second;
        made.tracks.push_back(std::move(track));
      } catch (const Unfit& unfit) {
        const std::string& name = tree_.nodes[node->second].name;
        tree_.notes.push_back({"animation " + made.name + ", " + channel.target_path + " of " +
                                   (name.empty() ? "a node without a name" : printable(name, 120)),
                               unfit.why + ": it was left out", "export it again"});
      }
    }
    if (!made.tracks.empty()) tree_.animations.push_back(std::move(made));
  }

  std::string freeName(const std::string& wanted) {
    const std::string name = wanted.empty() ? "animation" : printable(wanted, 120);
    std::string free = name;
    for (int i = 2; !animationNames_.insert(free).second; ++i) {
      free = name + " " + std::to_string(i);
    }
    return free;
  }

  const Model& model_;
  GltfTree tree_;
  std::map<int, std::size_t> ours_;  ///< By the file's index.
  std::set<std::string> animationNames_;
  bool isTree_ = true;
};

}  // namespace

GltfTree readGltfTree(const std::filesystem::path& file, bool isBinary) {
  Model model;
  std::string error;
  if (!load(file, isBinary, model, error)) {
    GltfTree none;
    none.notes.push_back({"", "its names and animations cannot be read: " + printable(error, 120),
                          "export it again"});
    return none;
  }
  return TreeReader(model).read();
}

}  // namespace swingroom
