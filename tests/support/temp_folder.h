#pragma once

#include <filesystem>
#include <string>

namespace swingroom {

/// A new empty folder of this test's own, removed with all that is in it.
class TempFolder {
 public:
  TempFolder();
  ~TempFolder();
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }

  /// Writes `content` to `name` in it, over what was there.
  std::filesystem::path write(const std::string& name, const std::string& content) const;
  /// The same, as a program that may be started.
  std::filesystem::path writeProgram(const std::string& name, const std::string& content) const;

 private:
  std::filesystem::path path_;
};

}  // namespace swingroom
