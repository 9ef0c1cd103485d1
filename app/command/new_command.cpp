#include "app/command/new_command.h"

#include <CLI/CLI.hpp>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>
#include <system_error>

#include "app/command/new_options.h"
#include "app/command/new_parts.h"
#include "app/command/new_robot_options.h"
#include "app/command/new_scene_options.h"
#include "app/command/new_size.h"
#include "app/command/new_step_options.h"
#include "app/command/new_suggest.h"
#include "app/command/say.h"
#include "core/files/document/write_document.h"
#include "core/files/sources/new_assembly.h"

namespace swingroom {
namespace {

struct NewWords {
  NewAssemblyWish wish;
  NewParts parts;
  SizeWish size;
  SuggestWish suggest;
  bool force = false;
};

/// Whether the file may be written, else says why not.
bool mayWrite(const NewWords& words) {
  std::error_code ignored;
  if (MeshReader::knows(words.wish.file)) {
    say({words.wish.file.string(), "has the ending of a mesh file", "call it NAME.swing.json"});
    return false;
  }
  if (std::filesystem::exists(words.wish.file, ignored) && !words.force) {
    say({words.wish.file.string(), "is there already and was left as it is",
         "--force writes over it, or choose another name"});
    return false;
  }
  return true;
}

/// What all the words ask for, not yet saved.
Outcome<NewAssembly> madeAsAsked(const NewWords& words, const MeshReader& reader) {
  Outcome<NewAssembly> made = newAssembly(words.wish, reader);
  if (made) made = withParts(std::move(made).value(), words.parts);
  if (!made) return made;
  if (const auto problem = writeFiles(made->files)) return *problem;
  Problems problems = acceptSuggestions(words.suggest, words.wish, *made);
  if (!problems.empty()) return problems;
  made = withOtherSide(std::move(made).value(), words.parts, words.wish, reader);
  if (!made) return made;
  problems = makeSize(words.size, words.wish.file, words.wish.threads, *made);
  if (!problems.empty()) return problems;
  return made;
}

/// Parts in one mode do not tell how they move: said where nothing else did.
bool lacksJoints(const AssemblyDocument& document) {
  return document.joints.empty() && document.parts.size() > 1 && document.modes.size() < 2;
}

int runNew(const NewWords& words) {
  if (!mayWrite(words)) return 2;
  const Outcome<NewAssembly> made = madeAsAsked(words, MeshReader::besideThisProgram());
  if (!made) {
    for (const Problem& problem : made.problems()) say(problem);
    return 2;
  }
  if (const auto problem = saveDocument(made->document, words.wish.file)) {
    say(*problem);
    return 2;
  }
  for (const std::string& sentence : made->found) std::printf("%s\n", sentence.c_str());
  if (lacksJoints(made->document)) {
    std::printf("One mode does not tell how parts move: add joints to the file, ask for --suggest, or give a second "
                "folder or file with the same parts in another mode.\n");
  }
  std::printf("Written to %s.\n", words.wish.file.c_str());
  std::fflush(stdout);
  for (const Problem& note : made->notes) std::fprintf(stderr, "note: %s\n", toText(note).c_str());
  return 0;
}

}  // namespace

void addNewCommand(CLI::App& app, int& exitCode) {
  auto words = std::make_shared<NewWords>();
  NewAssemblyWish& wish = words->wish;
  CLI::App* make = app.add_subcommand(
      "new", "Make an assembly file from a folder of part files or from one file with many parts");
  make->add_option("SOURCE", wish.source, "Folder with one mesh file a part, or a file with parts")
      ->required();
  make->add_option("OTHER", wish.other, "The same parts in another mode");
  make->add_option("-o,--output", wish.file, "Assembly file to write (NAME.swing.json)")
      ->required();
  make->add_flag("--force", words->force, "Write over an assembly file that is there");
  addSharedOptions(*make, wish);
  addRobotOptions(*make, wish.robot);
  addPartOptions(*make, words->parts);
  addSceneOptions(*make, wish);
  addSizeOptions(*make, words->size);
  addSuggestOption(*make, words->suggest);
  addStepOptions(*make, wish);
  make->callback([words, &exitCode] { exitCode = runNew(*words); });
}

}  // namespace swingroom
