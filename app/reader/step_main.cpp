#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

#include "core/files/reader_protocol.h"
#include "core/files/step/step_scene.h"

// swingroom-step-reader MEMORY_BYTES CPU_SECONDS FILE mesh|scene DEVIATION_MM
// What swingroom-mesh-reader becomes for a STEP file; it has set the limits already.

namespace {

/// The answer that is given if OCCT crashes on records that make no sense. Only filled once there
/// are some: any other crash is one, and the parent tells it.
std::string lastWords;
int answerPipe = -1;

void sayLastWords(int) {
  std::size_t said = 0;
  while (said < lastWords.size()) {
    const ssize_t n = write(answerPipe, lastWords.data() + said, lastWords.size() - said);
    if (n <= 0) break;
    said += static_cast<std::size_t>(n);
  }
  _exit(0);
}

void prepareLastWords(const swingroom::Problem& faults) {
  using swingroom::MeshFile;
  using swingroom::Outcome;
  lastWords = swingroom::reader_protocol::encode(Outcome<MeshFile>(faults));
  static char ownStack[1 << 16];  // One that ran over is of no use for a handler.
  stack_t stack{};
  stack.ss_sp = ownStack;
  stack.ss_size = sizeof ownStack;
  sigaltstack(&stack, nullptr);
  struct sigaction action {};
  action.sa_handler = sayLastWords;
  action.sa_flags = SA_ONSTACK | SA_RESETHAND;
  for (const int signal : {SIGSEGV, SIGBUS, SIGFPE, SIGABRT, SIGILL}) {
    sigaction(signal, &action, nullptr);
  }
}

std::string answerTo(const char* file, bool asScene, double deviationMm) {
  using namespace swingroom;
  using reader_protocol::encode;
  Outcome<StepFile> read = readStep(file, deviationMm, prepareLastWords);
  if (!read) return encode(Outcome<MeshFile>(read.problems()));
  if (!asScene) return encode(Outcome<MeshFile>(joinedMeshOf(*read)));
  return encode(Outcome<SceneFile>(sceneOf(*std::move(read))));
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 6) {
    std::fputs("swingroom-step-reader is started by swingroom to read a STEP file.\n", stderr);
    return 2;
  }
  // OCCT speaks on standard output: what it says goes nowhere, the answer where it is waited for.
  answerPipe = dup(STDOUT_FILENO);
  std::FILE* const out = fdopen(answerPipe, "w");
  const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
  if (!out || nowhere < 0 || dup2(nowhere, STDOUT_FILENO) < 0) return 1;
  const bool asScene = std::strcmp(argv[4], "scene") == 0;
  const std::string answer = answerTo(argv[3], asScene, std::strtod(argv[5], nullptr));
  const bool written = std::fwrite(answer.data(), 1, answer.size(), out) == answer.size();
  const bool flushed = std::fflush(out) == 0;
  std::_Exit(written && flushed ? 0 : 1);  // Without OCCT's own cleaning up, which may crash.
}
