#include "tests/support/temp_folder.h"

#include <cerrno>
#include <cstdlib>
#include <fstream>
#include <stdexcept>
#include <system_error>

namespace swingroom {

namespace fs = std::filesystem;

TempFolder::TempFolder() {
  std::string pattern = (fs::temp_directory_path() / "swingroom_test_XXXXXX").string();
  if (!mkdtemp(pattern.data())) throw std::system_error(errno, std::generic_category(), pattern);
  path_ = pattern;
}

TempFolder::~TempFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

fs::path TempFolder::write(const std::string& name, const std::string& content) const {
  const fs::path file = path_ / name;
  std::ofstream stream(file, std::ios::binary | std::ios::trunc);
  stream.write(content.data(), static_cast<std::streamsize>(content.size()));
  if (!stream.flush()) throw std::runtime_error("cannot write " + file.string());
  return file;
}

fs::path TempFolder::writeProgram(const std::string& name, const std::string& content) const {
  const fs::path file = write(name, content);
  fs::permissions(file, fs::perms::owner_all);
  return file;
}

}  // namespace swingroom
