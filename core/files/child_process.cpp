#include "core/files/child_process.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <system_error>
#include <thread>

extern char** environ;

namespace swingroom {
namespace {

void require(int error, const char* what) {
  if (error != 0) throw std::system_error(error, std::generic_category(), what);
}

/// What the child gets in place of our descriptors and signal settings.
class SpawnSettings {
 public:
  explicit SpawnSettings(int output) {
    require(posix_spawn_file_actions_init(&actions_), "posix_spawn_file_actions_init");
    require(posix_spawnattr_init(&attributes_), "posix_spawnattr_init");
    posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_adddup2(&actions_, output, STDOUT_FILENO);
    posix_spawn_file_actions_addopen(&actions_, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    sigset_t none, all;
    sigemptyset(&none);
    sigfillset(&all);
    posix_spawnattr_setsigmask(&attributes_, &none);
    posix_spawnattr_setsigdefault(&attributes_, &all);
    posix_spawnattr_setflags(&attributes_, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
  }
  ~SpawnSettings() {
    posix_spawn_file_actions_destroy(&actions_);
    posix_spawnattr_destroy(&attributes_);
  }
  SpawnSettings(const SpawnSettings&) = delete;
  SpawnSettings& operator=(const SpawnSettings&) = delete;

  const posix_spawn_file_actions_t* actions() const { return &actions_; }
  const posix_spawnattr_t* attributes() const { return &attributes_; }

 private:
  posix_spawn_file_actions_t actions_;
  posix_spawnattr_t attributes_;
};

pid_t spawn(const std::filesystem::path& program, const std::vector<std::string>& arguments,
            int output) {
  const SpawnSettings settings(output);
  std::string name = program.string();
  std::vector<std::string> copies = arguments;
  std::vector<char*> argv = {name.data()};
  for (std::string& argument : copies) argv.push_back(argument.data());
  argv.push_back(nullptr);
  pid_t process = -1;
  require(posix_spawn(&process, name.c_str(), settings.actions(), settings.attributes(),
                      argv.data(), environ),
          "posix_spawn");
  return process;
}

ChildEnd endOf(int status) {
  if (WIFSIGNALED(status)) return {ChildEnd::How::signalled, WTERMSIG(status)};
  return {ChildEnd::How::exited, WEXITSTATUS(status)};
}

}  // namespace

ChildProcess::ChildProcess(const std::filesystem::path& program,
                           const std::vector<std::string>& arguments,
                           std::chrono::milliseconds time, const WorkMonitor* monitor)
    : deadline_(Clock::now() + time), monitor_(monitor) {
  std::array<int, 2> pipe;
  // Closed on exec: a child that another thread starts meanwhile must not hold our pipe open.
  if (pipe2(pipe.data(), O_CLOEXEC) != 0) require(errno, "pipe2");
  output_ = pipe[0];
  try {
    process_ = spawn(program, arguments, pipe[1]);
  } catch (...) {
    ::close(pipe[1]);
    closeOutput();
    throw;
  }
  ::close(pipe[1]);
}

ChildProcess::~ChildProcess() {
  closeOutput();
  if (process_ > 0) kill();
}

std::string ChildProcess::read(std::size_t count) {
  constexpr std::size_t kChunk = 1 << 20;
  constexpr int kLookUpMs = 50;  // So soon a wish to stop is heard.
  std::string bytes;
  while (bytes.size() < count) {
    pollfd waiting{output_, POLLIN, 0};
    const int ready = poll(&waiting, 1, std::min(millisecondsLeft(), kLookUpMs));
    if (ready < 0 && errno == EINTR) continue;
    if (ready == 0 && millisecondsLeft() > 0) continue;
    if (ready <= 0) break;
    // Grown as data comes, not to a size that is only claimed.
    const std::size_t before = bytes.size();
    bytes.resize(std::min(count, before + kChunk));
    const ssize_t got = ::read(output_, bytes.data() + before, bytes.size() - before);
    bytes.resize(before + static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) break;
  }
  return bytes;
}

ChildEnd ChildProcess::finish() {
  closeOutput();
  auto pause = std::chrono::microseconds(50);
  while (true) {
    int status = 0;
    const pid_t result = waitpid(process_, &status, WNOHANG);
    if (result == process_ || (result < 0 && errno == ECHILD)) {
      process_ = -1;
      // No status if this program ignores its children's ends: what was read must then speak for
      // itself.
      return result > 0 ? endOf(status) : ChildEnd{};
    }
    if (millisecondsLeft() == 0) {
      kill();
      return {ChildEnd::How::timedOut, 0};
    }
    std::this_thread::sleep_for(pause);
    pause = std::min(2 * pause, std::chrono::microseconds(5000));
  }
}

int ChildProcess::millisecondsLeft() const {
  if (isCancelled(monitor_)) return 0;
  const auto left = std::chrono::ceil<std::chrono::milliseconds>(deadline_ - Clock::now()).count();
  return static_cast<int>(std::clamp<long long>(left, 0, 1'000'000'000));
}

void ChildProcess::closeOutput() {
  if (output_ >= 0) ::close(output_);
  output_ = -1;
}

void ChildProcess::kill() {
  ::kill(process_, SIGKILL);
  while (waitpid(process_, nullptr, 0) < 0 && errno == EINTR) {
  }
  process_ = -1;
}

}  // namespace swingroom
