#pragma once

#include <sys/types.h>

#include <filesystem>
#include <string>
#include <vector>

namespace swingroom::command {

/// The program while it runs: what it says is read as it comes.
class RunningProgram {
 public:
  /// @param folder  For the user's cache and data.
  RunningProgram(const std::vector<std::string>& words, const std::filesystem::path& folder);
  /// Ends it if it still runs.
  ~RunningProgram();
  RunningProgram(const RunningProgram&) = delete;
  RunningProgram& operator=(const RunningProgram&) = delete;

  /// Whether `text` is on its standard output (or error) within a minute, after `from` bytes.
  bool says(const std::string& text, std::size_t from = 0);
  bool saysOnError(const std::string& text, std::size_t from = 0);
  const std::string& out() const { return out_; }
  const std::string& err() const { return err_; }
  /// Reads for so long, whatever comes.
  void listen(int milliseconds);
  void send(int signal) const;
  /// Waits for its end. @returns Its exit code; -1: by a signal.
  int exitCode();
  /// Processor time that it has used so far, with all threads.
  double processorSeconds() const;

 private:
  bool waitFor(const std::string& said, const std::string& text, std::size_t from);
  void readSome(int milliseconds);

  pid_t pid_ = -1;
  int outPipe_ = -1, errPipe_ = -1;
  std::string out_, err_;
};

}  // namespace swingroom::command
