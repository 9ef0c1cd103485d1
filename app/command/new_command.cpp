#include "app/command/new_command.h"

#include <CLI/CLI.hpp>
#include <cstdio>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <system_error>

#include "app/command/say.h"
#include "core/base/parallel.h"
#include "core/files/new_assembly.h"
#include "core/files/write_document.h"

namespace swingroom {
namespace {

struct NewWords {
  std::string folder;
  std::string otherFolder;
  std::string file;
  std::string unit = "mm";
  std::string ground;
  double requiredGapMm = 0.3;
  unsigned threads = 0;
  bool force = false;
};

const std::map<std::string, double>& mmPerUnit() {
  static const std::map<std::string, double> units{
      {"mm", 1}, {"cm", 10}, {"m", 1000}, {"in", 25.4}};
  return units;
}

/// Whether the file may be written, else says why not.
bool mayWrite(const NewWords& words) {
  std::error_code ignored;
  if (MeshReader::knows(words.file)) {
    say({words.file, "has the ending of a mesh file", "call it NAME.swing.json"});
    return false;
  }
  if (std::filesystem::exists(words.file, ignored) && !words.force) {
    say({words.file, "is there already and was left as it is",
         "--force writes over it, or choose another name"});
    return false;
  }
  return true;
}

int runNew(const NewWords& words) {
  if (!mayWrite(words)) return 2;
  NewAssemblyWish wish;
  wish.folder = words.folder;
  if (!words.otherFolder.empty()) wish.otherFolder = words.otherFolder;
  wish.file = words.file;
  wish.mmPerUnit = mmPerUnit().at(words.unit);
  wish.ground = words.ground;
  wish.requiredGapMm = words.requiredGapMm;
  wish.threads = words.threads > 0 ? words.threads : defaultThreads();
  const Outcome<NewAssembly> made = newAssembly(wish, MeshReader::besideThisProgram());
  if (!made) {
    for (const Problem& problem : made.problems()) say(problem);
    return 2;
  }
  if (const auto problem = saveDocument(made->document, words.file)) {
    say(*problem);
    return 2;
  }
  for (const std::string& sentence : made->found) std::printf("%s\n", sentence.c_str());
  std::printf("Written to %s.\n", words.file.c_str());
  std::fflush(stdout);
  for (const Problem& note : made->notes) std::fprintf(stderr, "note: %s\n", toText(note).c_str());
  return 0;
}

}  // namespace

void addNewCommand(CLI::App& app, int& exitCode) {
  auto words = std::make_shared<NewWords>();
  CLI::App* make = app.add_subcommand(
      "new", "Make an assembly file from part files, one part a file, in one mode or in two");
  make->add_option("FOLDER", words->folder, "Folder with one mesh file a part")->required();
  make->add_option("OTHER_FOLDER", words->otherFolder, "The same parts in another mode");
  make->add_option("-o,--output", words->file, "Assembly file to write (NAME.swing.json)")
      ->required();
  make->add_option("--unit", words->unit, "Unit of formats that have none")
      ->check(CLI::IsMember(mmPerUnit()))
      ->capture_default_str();
  make->add_option("--ground", words->ground, "The part that stands still");
  make->add_option("--gap", words->requiredGapMm, "Required gap, mm")
      ->check(CLI::Range(0.0, 50.0))
      ->capture_default_str();
  make->add_flag("--force", words->force, "Write over an assembly file that is there");
  make->add_option("--threads", words->threads, "How many threads (default: all cores)")
      ->check(CLI::Range(1, 1024));
  make->callback([words, &exitCode] { exitCode = runNew(*words); });
}

}  // namespace swingroom
