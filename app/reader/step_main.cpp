#include <fcntl.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <string>

#include "core/files/reader_protocol.h"
#include "core/files/step/step_mesh_file.h"

// swingroom-step-reader MEMORY_BYTES CPU_SECONDS FILE
// What swingroom-mesh-reader becomes for a STEP file; it has set the limits already.

int main(int argc, char** argv) {
  if (argc != 4) {
    std::fputs("swingroom-step-reader is started by swingroom to read a STEP file.\n", stderr);
    return 2;
  }
  // OCCT speaks on standard output: what it says goes nowhere, the answer where it is waited for.
  std::FILE* const out = fdopen(dup(STDOUT_FILENO), "w");
  const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
  if (!out || nowhere < 0 || dup2(nowhere, STDOUT_FILENO) < 0) return 1;
  const std::string answer =
      swingroom::reader_protocol::encode(swingroom::readStepMesh(argv[3]));
  const bool written = std::fwrite(answer.data(), 1, answer.size(), out) == answer.size();
  const bool flushed = std::fflush(out) == 0;
  std::_Exit(written && flushed ? 0 : 1);  // Without OCCT's own cleaning up, which may crash.
}
