#pragma once

#include <filesystem>
#include <string>
#include <vector>

/// Runs the program as a user does.
namespace swingroom::command {

struct Ran {
  int exitCode = -1;  ///< -1: ended by a signal.
  std::string out;
  std::string err;
};

/// @param words  As they stand on the command line, already separated.
/// @param cache  The user's cache folder; by default a new empty one, so that nothing is known from
///     other runs.
Ran run(const std::vector<std::string>& words, const std::filesystem::path& cache = {});
/// The same as a line for a shell, without a place for what it says.
std::string shellLine(const std::vector<std::string>& words, const std::filesystem::path& cache);

/// A folder of its own, removed with everything in it at the end.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }

 private:
  std::filesystem::path folder_;
};

std::string readText(const std::filesystem::path& file);
void writeText(const std::filesystem::path& file, const std::string& text);

/// `sample_assemblies/NAME` of the source tree.
std::filesystem::path sample(const std::string& name);

}  // namespace swingroom::command
