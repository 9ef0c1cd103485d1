#include "core/files/watching/companions.h"

#include <fstream>
#include <nlohmann/json.hpp>

#include "core/files/mesh_format.h"
#include "core/files/mesh_memory.h"

namespace swingroom {
namespace {

/// What stands for other bytes in a URI: %20 is a blank (RFC 3986, section 2.1).
std::string decodedUri(const std::string& uri) {
  std::string text;
  for (std::size_t i = 0; i < uri.size(); ++i) {
    const bool escape = uri[i] == '%' && i + 2 < uri.size() &&
                        std::isxdigit(static_cast<unsigned char>(uri[i + 1])) &&
                        std::isxdigit(static_cast<unsigned char>(uri[i + 2]));
    text += escape ? static_cast<char>(std::stoi(uri.substr(i + 1, 2), nullptr, 16)) : uri[i];
    if (escape) i += 2;
  }
  return text;
}

}  // namespace

std::vector<std::filesystem::path> companionsOf(const std::filesystem::path& meshFile) {
  std::vector<std::filesystem::path> files;
  if (meshFormatOf(meshFile) != MeshFormat::gltf) return files;
  std::ifstream in(meshFile, std::ios::binary);
  const nlohmann::json json = nlohmann::json::parse(in, nullptr, false);
  if (!json.is_object() || !json.contains("buffers") || !json["buffers"].is_array()) return files;
  for (const auto& buffer : json["buffers"]) {
    if (!buffer.is_object() || !buffer.contains("uri") || !buffer["uri"].is_string()) continue;
    const std::string uri = buffer["uri"].get<std::string>();
    if (uri.starts_with("data:") || uri.find("://") != std::string::npos) continue;
    files.push_back((meshFile.parent_path() / decodedUri(uri)).lexically_normal());
  }
  return files;
}

std::vector<std::filesystem::path> Companions::of(const std::filesystem::path& meshFile) {
  if (meshFormatOf(meshFile) != MeshFormat::gltf) return {};
  const std::string stamp = fileStamp(meshFile);
  {
    const std::lock_guard lock(mutex_);
    const auto known = known_.find(meshFile);
    if (known != known_.end() && known->second.stamp == stamp) return known->second.files;
  }
  auto files = companionsOf(meshFile);
  const std::lock_guard lock(mutex_);
  Known& known = known_[meshFile];
  // One that is being written says nothing yet: what it was made of is still watched.
  if (files.empty() && !known.files.empty()) files = known.files;
  known = {stamp, files};
  return files;
}

std::string Companions::stampOf(const std::filesystem::path& meshFile) {
  std::string stamp = fileStamp(meshFile);
  if (stamp.empty()) return stamp;
  for (const auto& companion : of(meshFile)) stamp += ", " + fileStamp(companion);
  return stamp;
}

}  // namespace swingroom
