#include "core/files/mesh_file.h"

#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <system_error>

#include "core/files/child_process.h"
#include "core/files/mesh_format.h"
#include "core/files/reader_protocol.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

const char* const kRepairHint = "repair or export the mesh again";

std::string sizeText(std::uint64_t bytes) {
  const double megabytes = static_cast<double>(bytes) / (1 << 20);
  char text[32];
  if (megabytes >= 1024) {
    std::snprintf(text, sizeof text, "%.3g GB", megabytes / 1024);
  } else {
    std::snprintf(text, sizeof text, "%.3g MB", megabytes);
  }
  return text;
}

std::string secondsText(std::chrono::milliseconds time) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g s", static_cast<double>(time.count()) / 1000);
  return text;
}

/// What can be said of the file without looking into it.
std::optional<Problem> problemOutside(const fs::path& file, const ReadLimits& limits) {
  const auto problem = [&](std::string what, std::string hint) {
    return Problem{file.string(), std::move(what), std::move(hint)};
  };
  std::error_code error;
  const fs::file_status status = fs::status(file, error);
  if (!fs::exists(status)) {
    if (error && error != std::errc::no_such_file_or_directory &&
        error != std::errc::not_a_directory) {
      return problem("cannot be reached: " + error.message(), "check the rights of its folders");
    }
    return problem("there is no such file", "check its name and folder");
  }
  if (fs::is_directory(status)) return problem("is a folder, not a file", "name a file in it");
  if (!fs::is_regular_file(status))
    return problem("is not a plain file", "copy it to a file first");
  if (!MeshReader::knows(file)) {
    const std::string ending = file.extension().string();
    return problem(ending.empty() ? "has no ending, so its format is not known"
                                  : "has the ending '" + ending + "', which is none that is read",
                   "export it as " + allMeshFormats());
  }
  if (access(file.c_str(), R_OK) != 0) return problem("may not be read", "check its rights");
  const std::uintmax_t size = fs::file_size(file, error);
  if (error) return problem("cannot be read: " + error.message(), "");
  if (size == 0) return problem("is empty", "export the mesh again");
  if (size > limits.fileBytes) {
    return problem(
        "has " + sizeText(size) + ", more than the limit of " + sizeText(limits.fileBytes),
        "export it with fewer triangles");
  }
  return std::nullopt;
}

Problem crashed(const fs::path& file) {
  return {file.string(), "the reader crashed on it", kRepairHint};
}

/// In words, how a reader program ended that gave no sound answer.
Problem problemOfEnd(const fs::path& file, const ChildEnd& end, const ReadLimits& limits) {
  const bool outOfTime = end.how == ChildEnd::How::timedOut ||
                         (end.how == ChildEnd::How::signalled && end.code == SIGXCPU);
  if (outOfTime) {
    return {file.string(), "took longer than " + secondsText(limits.time) + " to read",
            kRepairHint};
  }
  // Nobody here sends SIGKILL before the deadline: the system does when memory runs out.
  if (end.how == ChildEnd::How::signalled && end.code == SIGKILL) {
    return {file.string(), "needed more memory to read than the machine has",
            "export it with fewer triangles"};
  }
  return crashed(file);
}

std::string exactText(double x) {
  char text[32];
  std::snprintf(text, sizeof text, "%.17g", x);
  return text;
}

/// @param as  "mesh" or "scene".
std::vector<std::string> argumentsFor(const fs::path& file, const std::string& as,
                                      const ReadLimits& limits, double deviationMm) {
  // Processor time only backs the wall clock up, for a reader that outlives us.
  const auto seconds = std::chrono::ceil<std::chrono::seconds>(limits.time).count() + 1;
  return {std::to_string(limits.memoryBytes), std::to_string(seconds), file.string(), as,
          exactText(deviationMm)};
}

/// What each kind of answer is asked for as, and how it is read.
template <typename Answer>
struct Form;
template <>
struct Form<MeshFile> {
  static constexpr const char* kWord = "mesh";
  static constexpr auto kDecode = reader_protocol::decode;
};
template <>
struct Form<SceneFile> {
  static constexpr const char* kWord = "scene";
  static constexpr auto kDecode = reader_protocol::decodeScene;
};

/// Problems inside a file, with the file named too.
Problems placed(const fs::path& file, Problems problems) {
  for (Problem& problem : problems) {
    problem.where = problem.where.empty() ? file.string() : file.string() + ", " + problem.where;
  }
  return problems;
}

}  // namespace

MeshReader::MeshReader(fs::path program, ReadLimits limits)
    : program_(std::move(program)), limits_(limits) {}

MeshReader MeshReader::besideThisProgram(ReadLimits limits) {
  return MeshReader(fs::read_symlink("/proc/self/exe").parent_path() / "swingroom-mesh-reader",
                    limits);
}

MeshReader MeshReader::withDeviation(double deviationMm) const {
  MeshReader reader = *this;
  reader.deviationMm_ = std::clamp(deviationMm, kLeastDeviationMm, kGreatestDeviationMm);
  return reader;
}

bool MeshReader::knows(const fs::path& file) {
  return meshFormatOf(file).has_value();
}

Outcome<MeshFile> MeshReader::read(const fs::path& file, const WorkMonitor* monitor) const {
  return ask<MeshFile>(file, monitor);
}

Outcome<SceneFile> MeshReader::readScene(const fs::path& file, const WorkMonitor* monitor) const {
  return ask<SceneFile>(file, monitor);
}

template <typename Answer>
Outcome<Answer> MeshReader::ask(const fs::path& file, const WorkMonitor* monitor) const {
  if (auto problem = problemOutside(file, limits_)) return *std::move(problem);
  ReadLimits limits = limits_;
  if (meshFormatOf(file) == MeshFormat::step) limits.time *= limits.stepTimes;
  try {
    ChildProcess child(program_, argumentsFor(file, Form<Answer>::kWord, limits, deviationMm_),
                       limits.time, monitor);
    const std::string head = child.read(reader_protocol::kHeadBytes);
    const auto size = reader_protocol::bodyBytes(head);
    if (head.size() == reader_protocol::kHeadBytes && (!size || *size > limits.memoryBytes)) {
      return crashed(file);  // Nonsense: its end is not worth waiting for.
    }
    auto answer = size ? Form<Answer>::kDecode(child.read(*size)) : std::nullopt;
    const ChildEnd end = child.finish();
    if (!answer || end.how != ChildEnd::How::exited || end.code != 0) {
      return problemOfEnd(file, end, limits);
    }
    if (answer->ok()) return *std::move(answer);
    return placed(file, answer->problems());
  } catch (const std::system_error& error) {
    return Problem{program_.string(),
                   std::string("the mesh reader cannot be started: ") + error.code().message(),
                   "install it beside the program"};
  }
}

}  // namespace swingroom
