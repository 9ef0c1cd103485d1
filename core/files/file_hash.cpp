#include "core/files/file_hash.h"

#include <nettle/sha2.h>

#include <array>
#include <fstream>

namespace swingroom {

Outcome<std::string> sha256Of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) return Problem{file.string(), "cannot be opened", ""};
  sha256_ctx context;
  sha256_init(&context);
  std::array<char, 1 << 16> piece;
  while (in.read(piece.data(), piece.size()) || in.gcount() > 0) {
    sha256_update(&context, static_cast<std::size_t>(in.gcount()),
                  reinterpret_cast<const std::uint8_t*>(piece.data()));
  }
  if (in.bad()) return Problem{file.string(), "cannot be read to its end", ""};
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest;
  sha256_digest(&context, digest.size(), digest.data());
  std::string hex;
  for (const std::uint8_t byte : digest) {
    hex += "0123456789abcdef"[byte >> 4];
    hex += "0123456789abcdef"[byte & 15];
  }
  return hex;
}

}  // namespace swingroom
