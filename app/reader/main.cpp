#include <sys/prctl.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <string>

#include "core/files/formats/read_mesh.h"
#include "core/files/formats/read_scene.h"
#include "core/files/mesh_format.h"
#include "core/files/reader_protocol.h"

// swingroom-mesh-reader MEMORY_BYTES CPU_SECONDS FILE mesh|scene DEVIATION_MM
// Writes what core/files/reader_protocol.h says to standard output. Started by MeshReader, not by
// hand.

namespace {

#if defined(SWINGROOM_SANITIZED)
constexpr bool kLimitsAddresses = false;  // The sanitizers reserve terabytes of addresses.
#else
constexpr bool kLimitsAddresses = true;
#endif

void limit(__rlimit_resource resource, rlim_t value, rlim_t hard) {
  rlimit now{};
  getrlimit(resource, &now);
  const rlimit wanted{std::min(value, now.rlim_max), std::min(hard, now.rlim_max)};
  setrlimit(resource, &wanted);
}

void limitOurselves(rlim_t memoryBytes, rlim_t cpuSeconds) {
  if (kLimitsAddresses) limit(RLIMIT_AS, memoryBytes, memoryBytes);
  limit(RLIMIT_CPU, cpuSeconds, cpuSeconds + 1);
  limit(RLIMIT_CORE, 0, 0);
  prctl(PR_SET_PDEATHSIG, SIGKILL);  // Nobody waits for the answer of an orphan.
}

std::string answerTo(const char* file, bool asScene) {
  using swingroom::reader_protocol::encode;
  return asScene ? encode(swingroom::readSceneHere(file)) : encode(swingroom::readMeshHere(file));
}

/// STEP's libraries take longer to load than most meshes to read: their reader is a program of its
/// own, which takes this one's place, limits and all. Returns only if there is none.
void becomeStepReader(char** argv) {
  std::error_code error;
  const auto self = std::filesystem::read_symlink("/proc/self/exe", error);
  const std::string program = (self.parent_path() / "swingroom-step-reader").string();
  execv(program.c_str(), argv);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 6) {
    std::fputs("swingroom-mesh-reader is started by swingroom to read a mesh file.\n", stderr);
    return 2;
  }
  limitOurselves(std::strtoull(argv[1], nullptr, 10), std::strtoull(argv[2], nullptr, 10));
  if (swingroom::meshFormatOf(argv[3]) == swingroom::MeshFormat::step) becomeStepReader(argv);
  const std::string answer = answerTo(argv[3], std::strcmp(argv[4], "scene") == 0);
  const bool written = std::fwrite(answer.data(), 1, answer.size(), stdout) == answer.size();
  const bool flushed = std::fflush(stdout) == 0;
  // Without the format libraries' own cleaning up: it can hang or crash as their reading can.
  std::_Exit(written && flushed ? 0 : 1);
}
