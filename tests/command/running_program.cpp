#include "tests/command/running_program.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace swingroom::command {
namespace {

constexpr std::chrono::seconds kLongest{120};

}  // namespace

RunningProgram::RunningProgram(const std::vector<std::string>& words,
                               const std::filesystem::path& folder) {
  const auto program = std::filesystem::read_symlink("/proc/self/exe").parent_path() / "swingroom";
  std::array<int, 2> out{}, err{};
  if (pipe2(out.data(), O_CLOEXEC) != 0 || pipe2(err.data(), O_CLOEXEC) != 0) std::abort();
  pid_ = fork();
  if (pid_ == 0) {
    dup2(out[1], STDOUT_FILENO);
    dup2(err[1], STDERR_FILENO);
    setenv("XDG_CACHE_HOME", (folder / "cache").c_str(), 1);
    setenv("XDG_DATA_HOME", (folder / "data").c_str(), 1);
    setenv("XDG_CONFIG_HOME", (folder / "config").c_str(), 1);
    std::vector<char*> arguments{const_cast<char*>(program.c_str())};
    for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    execv(program.c_str(), arguments.data());
    _exit(127);
  }
  close(out[1]);
  close(err[1]);
  outPipe_ = out[0], errPipe_ = err[0];
}

RunningProgram::~RunningProgram() {
  if (pid_ > 0) {
    kill(pid_, SIGKILL);
    waitpid(pid_, nullptr, 0);
  }
  close(outPipe_);
  close(errPipe_);
}

void RunningProgram::readSome(int milliseconds) {
  std::array<pollfd, 2> pipes{pollfd{outPipe_, POLLIN, 0}, pollfd{errPipe_, POLLIN, 0}};
  if (poll(pipes.data(), pipes.size(), milliseconds) <= 0) return;
  std::array<char, 4096> piece;
  const auto take = [&](const pollfd& pipe, std::string& said) {
    if (!(pipe.revents & (POLLIN | POLLHUP))) return;
    const ssize_t size = read(pipe.fd, piece.data(), piece.size());
    if (size > 0) said.append(piece.data(), static_cast<std::size_t>(size));
    if (size == 0) usleep(10'000);  // Its end is closed.
  };
  take(pipes[0], out_);
  take(pipes[1], err_);
}

bool RunningProgram::waitFor(const std::string& said, const std::string& text, std::size_t from) {
  const auto until = std::chrono::steady_clock::now() + kLongest;
  while (said.size() < from || said.find(text, from) == std::string::npos) {
    if (std::chrono::steady_clock::now() > until) return false;
    readSome(100);
  }
  return true;
}

bool RunningProgram::says(const std::string& text, std::size_t from) {
  return waitFor(out_, text, from);
}

bool RunningProgram::saysOnError(const std::string& text, std::size_t from) {
  return waitFor(err_, text, from);
}

void RunningProgram::listen(int milliseconds) {
  const auto until = std::chrono::steady_clock::now() + std::chrono::milliseconds(milliseconds);
  while (std::chrono::steady_clock::now() < until) readSome(20);
}

void RunningProgram::send(int signal) const {
  kill(pid_, signal);
}

int RunningProgram::exitCode() {
  int status = 0;
  const auto until = std::chrono::steady_clock::now() + kLongest;
  while (waitpid(pid_, &status, WNOHANG) == 0) {
    if (std::chrono::steady_clock::now() > until) return -2;
    readSome(20);
  }
  pid_ = -1;
  listen(50);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

double RunningProgram::processorSeconds() const {
  std::ifstream in("/proc/" + std::to_string(pid_) + "/stat");
  std::stringstream text;
  text << in.rdbuf();
  std::istringstream fields(text.str().substr(text.str().rfind(')') + 2));
  std::string field;
  double ticks = 0;
  for (int i = 3; fields >> field && i <= 15; ++i) {
    if (i >= 14) ticks += std::stod(field);  // proc(5): user, system.
  }
  return ticks / static_cast<double>(sysconf(_SC_CLK_TCK));
}

}  // namespace swingroom::command
