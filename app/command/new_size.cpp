#include "app/command/new_size.h"

#include <CLI/CLI.hpp>
#include <algorithm>

#include "core/assembly/figure_size.h"
#include "core/files/document/document_problems.h"
#include "core/files/document/json_value.h"
#include "core/files/document/scaled_document.h"
#include "core/files/loading/load_assembly.h"
#include "core/mesh/unit_guess.h"

namespace swingroom {
namespace {

/// The mode that is measured; null: there is none of that name.
const Mode* modeFor(const SizeWish& wish, const LoadedAssembly& loaded) {
  for (const Mode& mode : loaded.modes) {
    if (wish.mode.empty() || mode.name == wish.mode) return &mode;
  }
  return nullptr;
}

Problem noSuchMode(const SizeWish& wish, const AssemblyDocument& document) {
  std::vector<std::string> names;
  for (const DocumentMode& mode : document.modes) names.push_back(mode.name);
  return {"--in", "there is no mode " + inQuotes(wish.mode),
          names.empty() ? "the assembly has no modes" : "its modes are " + listed(names)};
}

/// What brings the figure to the height that is wished.
Outcome<double> factorFor(const SizeWish& wish, const std::filesystem::path& file, unsigned threads,
                          NewAssembly& made) {
  if (wish.factor) return *wish.factor;
  const MeshReader reader = MeshReader::besideThisProgram();
  const auto loaded = loadAssembly(made.document, file, {&reader, threads, nullptr});
  if (!loaded) return loaded.problems();
  const Mode* mode = modeFor(wish, *loaded);
  if (mode == nullptr && !wish.mode.empty()) return noSuchMode(wish, made.document);
  const Configuration standing = mode ? mode->configuration : loaded->assembly.home();
  const FigureSize size = figureSize(loaded->assembly, standing, Vector3d(made.document.up.data()),
                                     Vector3d(made.document.front.data()));
  if (!(size.heightMm > 0)) return Problem{"--height", "there is no mesh to be measured", ""};
  made.found.push_back("In " + (mode ? inQuotes(mode->name) : std::string("its only shape")) +
                       " it was " + roundSize(size.heightMm) + " mm high and is " +
                       roundSize(*wish.heightMm) + " mm now.");
  return *wish.heightMm / size.heightMm;
}

std::string keptSentence(const KeptSizes& kept) {
  std::string text = "What does not grow with a print stays: the required gap of " +
                     numberText(kept.requiredGapMm) + " mm";
  const auto add = [&](std::size_t count, const char* one, const char* many) {
    if (count > 0) text += ", " + std::to_string(count) + " " + (count == 1 ? one : many);
  };
  add(kept.pairGaps, "gap of a pair", "gaps of pairs");
  add(kept.fits, "fit", "fits");
  add(kept.plays, "play of a joint", "plays of joints");
  add(kept.contactRanges, "size of a contact", "sizes of contacts");
  return text + ". Check it again.";
}

}  // namespace

void addSizeOptions(CLI::App& make, SizeWish& wish) {
  auto* factor =
      make.add_option("--scale", wish.factor, "How many times as large everything is to be")
          ->check(CLI::Range(1e-6, 1e6));
  auto* height =
      make.add_option("--height", wish.heightMm, "How high the figure is to be in --in, mm")
          ->check(CLI::Range(0.01, 1e5))
          ->excludes(factor);
  make.add_option("--in", wish.mode, "The mode whose height --height is (default: the first)")
      ->needs(height);
}

Problems makeSize(const SizeWish& wish, const std::filesystem::path& file, unsigned threads,
                  NewAssembly& made) {
  if (!wish.factor && !wish.heightMm) return {};
  const Outcome<double> factor = factorFor(wish, file, threads, made);
  if (!factor) return factor.problems();
  Outcome<AssemblyDocument> scaled = scaledDocument(made.document, *factor);
  if (!scaled) return scaled.problems();
  made.document = std::move(scaled).value();
  made.found.push_back("Everything is " + roundSize(*factor) + " times as large as it was.");
  made.found.push_back(keptSentence(keptSizesOf(made.document)));
  return {};
}

}  // namespace swingroom
