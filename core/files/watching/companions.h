#pragma once

#include <filesystem>
#include <map>
#include <mutex>
#include <string>
#include <vector>

namespace swingroom {

/// Other files that a mesh file is made of: those that hold the numbers of a glTF (its `buffers`,
/// glTF 2.0 section 3.6.1). Empty for all other formats, and for a file that is not whole.
std::vector<std::filesystem::path> companionsOf(const std::filesystem::path& meshFile);

/// The same, read again only when the file has changed; and the stamps of all of them. Safe from
/// several threads.
class Companions {
 public:
  std::vector<std::filesystem::path> of(const std::filesystem::path& meshFile);
  /// As `fileStamp`, of the file and its companions: equal ones are taken for the same content.
  /// Empty if the file itself is not there.
  std::string stampOf(const std::filesystem::path& meshFile);

 private:
  struct Known {
    std::string stamp;
    std::vector<std::filesystem::path> files;
  };
  std::mutex mutex_;
  std::map<std::filesystem::path, Known> known_;
};

}  // namespace swingroom
