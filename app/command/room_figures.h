#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/room/room_map.h"

namespace CLI {
class App;
}

namespace swingroom {

/// What figures of a part's room are asked for, as it was typed.
struct FigureWords {
  double resolutionMm = 0.1;
  bool growth = false;
  std::vector<double> about;  ///< In the assembly frame, everything at 0; empty: the part's joint, or its middle.
  std::string mapFile;

  bool isAsked() const { return growth || !mapFile.empty() || !about.empty(); }
};

/// Adds `--resolution`, `--growth`, `--about` and `--map`.
void addFigureOptions(CLI::App& room, FigureWords& words);

/// Says how much room there is, where and by what; with `--growth` how far the part may grow.
/// @returns The exit code: 0, or 1 if a required gap is broken somewhere, or 2 if a file cannot be written.
int runFigures(const FigureWords& words, const RoomSubject& subject, const std::vector<Mode>& modes,
               unsigned threads);

}  // namespace swingroom
