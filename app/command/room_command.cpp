#include "app/command/room_command.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <memory>
#include <string>

#include "app/command/room_figures.h"
#include "app/command/room_space_options.h"
#include "app/command/say.h"
#include "core/files/document/read_document.h"
#include "core/files/loading/load_assembly.h"
#include "core/sweep/sweep.h"

namespace swingroom {
namespace {

struct RoomWords {
  std::string file;
  std::string part;
  std::string stage;
  unsigned threads = 0;
  FigureWords figures;
  SpaceWords space;
};

/// The file with every part that has the stage in it.
Outcome<AssemblyDocument> documentOf(const RoomWords& words) {
  Outcome<ReadDocument> read = readDocument(words.file);
  if (!read) return read.problems();
  AssemblyDocument document = std::move(read->document);
  bool any = words.stage.empty();
  for (DocumentPart& part : document.parts) {
    if (words.stage.empty() || !part.stages.contains(words.stage)) continue;
    part.use = words.stage;
    any = true;
  }
  if (!any) return Problem{words.file, "no part of it has a stage named " + words.stage, ""};
  return document;
}

int runRoom(const RoomWords& words) {
  if (auto problem = words.space.problem()) return fail({*problem});
  const Outcome<AssemblyDocument> document = documentOf(words);
  if (!document) return fail(document.problems());
  const unsigned threads = words.threads > 0 ? words.threads : defaultThreads();
  const MeshReader reader = MeshReader::besideThisProgram();
  const Outcome<LoadedAssembly> loaded = loadAssembly(*document, words.file, {&reader, threads});
  if (!loaded) return fail(loaded.problems());
  const auto part = loaded->assembly.findPart(words.part);
  if (!part) return fail({{words.file, "has no part named " + words.part, ""}});
  if (!hasSurface(loaded->assembly.part(*part))) return fail({{words.part, "has no mesh", ""}});
  const std::vector<Sequence> ways = waysToCheck(loaded->modes, loaded->sequences);
  const AssemblyGeometry geometry = prepareGeometry(loaded->assembly, threads);
  const SpaceSubject subject{loaded->assembly, loaded->modes, ways, geometry, *part};
  int exitCode = 0;
  if (words.figures.isAsked() || !words.space.isAsked()) {
    exitCode = runFigures(words.figures, {loaded->assembly, ways, geometry, *part}, loaded->modes, threads);
  }
  if (exitCode < 2 && words.space.isAsked()) exitCode = std::max(exitCode, runSpace(words.space, subject, *document, threads));
  return exitCode;
}

}  // namespace

void addRoomCommand(CLI::App& app, int& exitCode) {
  auto words = std::make_shared<RoomWords>();
  CLI::App* room = app.add_subcommand("room", "How much room a part has in all modes and on the way between");
  room->add_option("FILE", words->file, "Assembly file (.swing.json)")->required();
  room->add_option("PART", words->part, "The part's name")->required();
  room->add_option("--stage", words->stage, "Every part that has this stage is in it (block, detail)");
  room->add_option("--threads", words->threads, "How many threads (default: all cores)")->check(CLI::Range(1, 1024));
  addFigureOptions(*room, words->figures);
  addSpaceOptions(*room, words->space);
  room->callback([words, &exitCode] { exitCode = runRoom(*words); });
}

}  // namespace swingroom
