#include "core/files/file_hash.h"

#include <gtest/gtest.h>

#include <fstream>

namespace swingroom {
namespace {

std::string hashOf(const std::string& bytes) {
  const auto file = std::filesystem::path(testing::TempDir()) / "file_hash_test.bin";
  std::ofstream(file, std::ios::binary) << bytes;
  const auto hash = sha256Of(file);
  std::filesystem::remove(file);
  return hash ? *hash : "none";
}

// NIST's examples for FIPS 180-4: one block, two blocks, a million times "a" (several pieces of
// reading).
TEST(FileHash, IsThePublishedSha256) {
  EXPECT_EQ(hashOf("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(hashOf("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(hashOf(std::string(1'000'000, 'a')),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  EXPECT_EQ(hashOf(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(FileHash, FileThatIsNotThereIsAProblem) {
  EXPECT_FALSE(sha256Of("/no/such/file.stl"));
}

}  // namespace
}  // namespace swingroom
