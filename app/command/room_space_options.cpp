#include "app/command/room_space_options.h"

#include <unistd.h>

#include <CLI/CLI.hpp>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <memory>

#include "app/command/say.h"
#include "core/files/formats/writing/write_mesh.h"
#include "core/room/space/space_words.h"

namespace swingroom {
namespace {

std::optional<double> numberIn(const std::string& text) {
  double number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(number)) return std::nullopt;
  return number;
}

/// x0,y0,z0,x1,y1,z1
std::optional<Eigen::AlignedBox3d> boxIn(const std::string& text) {
  std::array<double, 6> numbers;
  std::size_t from = 0;
  for (std::size_t i = 0; i < 6; ++i) {
    const std::size_t comma = i < 5 ? text.find(',', from) : text.size();
    if (comma == std::string::npos) return std::nullopt;
    const auto number = numberIn(text.substr(from, comma - from));
    if (!number) return std::nullopt;
    numbers[i] = *number;
    from = comma + 1;
  }
  const Vector3d a(numbers[0], numbers[1], numbers[2]), b(numbers[3], numbers[4], numbers[5]);
  const Eigen::AlignedBox3d box(a.cwiseMin(b), a.cwiseMax(b));
  if (!(box.sizes().minCoeff() > 0)) return std::nullopt;
  return box;
}

Problem wrongWithin() {
  return {"--within", "is neither \"grown MM\" nor \"box x0,y0,z0,x1,y1,z1\" with two opposite corners of a box in mm",
          "for example --within grown 5"};
}

/// The frame of the part's mesh file in the part's frame: what `mirror` and `scale` make of it.
Eigen::Affine3d fileFrameOf(const DocumentPart& part) {
  Eigen::Affine3d X_PF = Eigen::Affine3d::Identity();
  if (part.mirror) {
    const Vector3d through(part.mirror->through.data());
    const Vector3d normal = Vector3d(part.mirror->normal.data()).normalized();
    X_PF.linear() -= 2 * normal * normal.transpose();
    X_PF.translation() = 2 * normal.dot(through) * normal;
  }
  X_PF.linear() *= part.scale;
  return X_PF;
}

/// The box is in the mesh file's frame too; mirrored ones have their corners elsewhere.
std::variant<WithinGrown, WithinBox> withinOf(const SpaceWords& words, const DocumentPart& written) {
  if (words.within.empty()) return WithinGrown{};
  if (words.within[0] == "grown") return WithinGrown{*numberIn(words.within[1])};
  const Eigen::AlignedBox3d box_F = *boxIn(words.within[1]);
  const Eigen::Affine3d X_PF = fileFrameOf(written);
  WithinBox within;
  for (int corner = 0; corner < 8; ++corner) {
    within.box_P.extend(X_PF * box_F.corner(static_cast<Eigen::AlignedBox3d::CornerType>(corner)));
  }
  return within;
}

std::unique_ptr<WorkMonitor> spaceMonitor() {
  if (!isatty(STDERR_FILENO)) return std::make_unique<WorkMonitor>();
  return std::make_unique<WorkMonitor>([](std::size_t done, std::size_t total) {
    std::fprintf(stderr, done < total ? "\r%zu %%" : "\r\033[K", done * 100 / total);
  });
}

/// @returns The exit code.
int writeSpace(const std::string& file, const Outcome<SpaceMesh>& space, const std::string& name,
               const std::string& sentence) {
  if (!space) {
    for (const Problem& problem : space.problems()) say(problem);
    return 2;
  }
  if (const auto problem = writeMesh(file, space->mesh, name)) {
    say(*problem);
    return 2;
  }
  std::printf("%s: %s\n", file.c_str(), sentence.c_str());
  return 0;
}

}  // namespace

std::optional<Problem> SpaceWords::problem() const {
  for (const std::string& file : {spaceFile, sweptFile}) {
    if (!file.empty() && !canWriteMesh(file)) {
      return Problem{file, "is no kind of file that meshes are written as", "end its name in .stl or .3mf"};
    }
  }
  if (within.empty()) return std::nullopt;
  if (within[0] == "grown") {
    const auto byMm = numberIn(within[1]);
    if (byMm && *byMm > 0) return std::nullopt;
  } else if (within[0] == "box" && boxIn(within[1])) {
    return std::nullopt;
  }
  return wrongWithin();
}

void addSpaceOptions(CLI::App& room, SpaceWords& words) {
  room.add_option("--space", words.spaceFile, "Write the space that the part may fill to this file (.stl, .3mf), as its "
                                              "mesh file lies");
  room.add_option("--within", words.within, "Cut the space from the part grown by so much (grown MM) or from a box "
                                            "(box x0,y0,z0,x1,y1,z1); default: grown 5")
      ->expected(2);
  room.add_option("--swept", words.sweptFile, "Write the space that the part passes through to this file");
  room.add_option("--in", words.in, "In the frame of this part (default: ground)");
  room.add_option("--pitch", words.pitchMm, "Pitch of the grid for both, mm (default: 0.25)")->check(CLI::Range(0.01, 10.0));
}

int runSpace(const SpaceWords& words, const SpaceSubject& subject, const AssemblyDocument& document,
             unsigned threads) {
  const DocumentPart& written = document.parts.at(subject.part.index);
  SpaceSettings settings;
  settings.pitchMm = words.pitchMm;
  settings.threads = threads;
  settings.within = withinOf(words, written);
  settings.X_FileSpace = fileFrameOf(written).inverse();
  const std::string name = subject.assembly.part(subject.part).name;
  int exitCode = 0;
  if (!words.spaceFile.empty()) {
    const auto monitor = spaceMonitor();
    const auto space = roomSpace(subject, settings, *monitor);
    exitCode = writeSpace(words.spaceFile, space, name + " room",
                          space ? roomSentence(subject, settings, *space) : "");
    if (space && exitCode == 0 && !space->objections.empty()) exitCode = 1;
  }
  if (words.sweptFile.empty() || exitCode == 2) return exitCode;
  std::optional<PartId> frame;
  if (words.in != "ground") frame = subject.assembly.findPart(words.in);
  if (words.in != "ground" && (!frame || *frame == subject.part)) {
    say({words.in, frame ? "is the part itself, in whose frame it never moves" : "is no other part and not the ground",
         ""});
    return 2;
  }
  const auto monitor = spaceMonitor();
  settings.X_FileSpace =
      frame ? fileFrameOf(document.parts.at(frame->index)).inverse() : Eigen::Affine3d::Identity();
  const auto swept = sweptSpace(subject, frame, settings, *monitor);
  const int sweptCode = writeSpace(words.sweptFile, swept, name + " swept",
                                   swept ? sweptSentence(subject, frame, *swept) : "");
  return std::max(exitCode, sweptCode);
}

}  // namespace swingroom
