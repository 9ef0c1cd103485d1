#include "core/files/file_hash.h"

#include <array>
#include <fstream>

#include "core/base/digest.h"

namespace swingroom {

Outcome<std::string> sha256Of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) return Problem{file.string(), "cannot be opened", ""};
  Hasher hasher;
  std::array<char, 1 << 16> piece;
  while (in.read(piece.data(), piece.size()) || in.gcount() > 0) {
    hasher.add(piece.data(), static_cast<std::size_t>(in.gcount()));
  }
  if (in.bad()) return Problem{file.string(), "cannot be read to its end", ""};
  return toHex(hasher.take());
}

}  // namespace swingroom
