#include "core/base/digest.h"

#include <nettle/sha2.h>

#include <new>

namespace swingroom {
namespace {

sha256_ctx* contextIn(unsigned char* state) {
  return std::launder(reinterpret_cast<sha256_ctx*>(state));
}

}  // namespace

Hasher::Hasher() {
  static_assert(sizeof(sha256_ctx) <= sizeof state_ && alignof(sha256_ctx) <= 16);
  sha256_init(new (state_.data()) sha256_ctx);
}

void Hasher::add(const void* bytes, std::size_t size) {
  sha256_update(contextIn(state_.data()), size, static_cast<const std::uint8_t*>(bytes));
}

Digest Hasher::take() {
  Digest digest;
  sha256_digest(contextIn(state_.data()), digest.size(), digest.data());  // Begins anew.
  return digest;
}

std::string toHex(const Digest& digest) {
  std::string hex;
  for (const std::uint8_t byte : digest) {
    hex += "0123456789abcdef"[byte >> 4];
    hex += "0123456789abcdef"[byte & 15];
  }
  return hex;
}

}  // namespace swingroom
