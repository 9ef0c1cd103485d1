#include "core/files/watching/file_end.h"

#include <algorithm>
#include <fstream>
#include <string>

#include "core/files/mesh_format.h"

namespace swingroom {
namespace {

std::string pieceOf(std::ifstream& in, std::streamoff from, std::size_t size) {
  std::string piece(size, '\0');
  in.clear();
  in.seekg(from);
  in.read(piece.data(), static_cast<std::streamsize>(size));
  piece.resize(static_cast<std::size_t>(std::max<std::streamsize>(in.gcount(), 0)));
  return piece;
}

}  // namespace

bool endsAbruptly(const std::filesystem::path& meshFile) {
  const auto format = meshFormatOf(meshFile);
  if (format != MeshFormat::obj && format != MeshFormat::stl) return false;
  std::ifstream in(meshFile, std::ios::binary | std::ios::ate);
  const std::streamoff size = in ? static_cast<std::streamoff>(in.tellg()) : 0;
  if (size <= 0) return false;
  constexpr std::streamoff kTail = 512;
  const std::string tail = pieceOf(in, std::max<std::streamoff>(0, size - kTail), kTail);
  if (format == MeshFormat::obj) return tail.empty() || tail.back() != '\n';
  const std::string head = pieceOf(in, 0, kTail);
  const bool isText = head.starts_with("solid") && head.find('\0') == std::string::npos &&
                      head.find("facet") != std::string::npos;
  return isText && tail.find("endsolid") == std::string::npos;
}

}  // namespace swingroom
