#include "tests/command/program.h"

#include <sys/wait.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

namespace swingroom::command {
namespace {

std::string quoted(const std::string& word) {
  std::string out = "'";
  for (const char c : word) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

}  // namespace

std::string shellLine(const std::vector<std::string>& words, const std::filesystem::path& cache) {
  const auto program = std::filesystem::read_symlink("/proc/self/exe").parent_path() / "swingroom";
  // The log of checks is the user's: none of a test's is in it. It is no part of the cache either.
  // Nor are the printers that the user has measured.
  std::string line = "XDG_CONFIG_HOME=" + quoted(cache.string() + "_config") +
                     " XDG_CACHE_HOME=" + quoted(cache.string()) + " XDG_DATA_HOME=" +
                     quoted(cache.string() + "_data") + " " + quoted(program.string());
  for (const std::string& word : words) line += " " + quoted(word);
  return line;
}

Ran run(const std::vector<std::string>& words, const std::filesystem::path& cache) {
  const TemporaryFolder folder;
  std::string line = shellLine(words, cache.empty() ? folder / "cache" : cache);
  line += " >" + quoted((folder / "out").string()) + " 2>" + quoted((folder / "err").string()) + " </dev/null";
  const int status = std::system(line.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, readText(folder / "out"), readText(folder / "err")};
}

TemporaryFolder::TemporaryFolder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "swingroom-XXXXXX").string();
  folder_ = mkdtemp(pattern.data());
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

std::string readText(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

void writeText(const std::filesystem::path& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

std::filesystem::path sample(const std::string& name) {
  return std::filesystem::path(SWINGROOM_SOURCE) / "sample_assemblies" / name;
}

}  // namespace swingroom::command
