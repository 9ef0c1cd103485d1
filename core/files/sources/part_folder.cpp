#include "core/files/sources/part_folder.h"

#include <algorithm>
#include <map>
#include <optional>
#include <system_error>

#include "core/base/parallel.h"
#include "core/files/document/document_problems.h"
#include "core/files/document/json_value.h"
#include "core/files/mesh_format.h"
#include "core/files/printable.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

/// Adds the names of what is in `folder` to `folderParts`; a Problem if it cannot be listed.
std::optional<Problem> list(const fs::path& folder, const PartChoice& choice,
                            GivenParts& found) {
  std::error_code error;
  if (!fs::exists(folder, error)) {
    return Problem{folder.string(), "there is no such folder", "check its name"};
  }
  if (!fs::is_directory(folder, error)) {
    return Problem{folder.string(), "is not a folder", "name the folder that holds the part files"};
  }
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
       entry.increment(error)) {
    const fs::path& file = entry->path();
    const std::string name = file.filename().string();
    std::error_code ignored;
    if (name.starts_with('.') || !entry->is_regular_file(ignored)) continue;
    const bool wanted = choice.only.empty() ||
                        std::find(choice.only.begin(), choice.only.end(), name) != choice.only.end();
    if (!wanted) continue;
    if (MeshReader::knows(file)) {
      found.parts.push_back({file.stem().string(), file, {}});
    } else {
      found.leftOut.push_back(printable(name));
    }
  }
  if (error) return Problem{folder.string(), "cannot be listed: " + error.message(), ""};
  std::sort(found.leftOut.begin(), found.leftOut.end());
  std::sort(found.parts.begin(), found.parts.end(),
            [](const GivenPart& a, const GivenPart& b) { return a.file < b.file; });
  std::stable_sort(found.parts.begin(), found.parts.end(),
                   [](const GivenPart& a, const GivenPart& b) { return a.name < b.name; });
  return std::nullopt;
}

Problems problemsOfNames(const fs::path& folder, const GivenParts& found) {
  Problems problems;
  if (found.parts.empty()) {
    problems.push_back({folder.string(), "holds no mesh file",
                        "export each part into it, as " + allMeshFormats()});
  }
  for (std::size_t i = 0; i < found.parts.size(); ++i) {
    const GivenPart& part = found.parts[i];
    if (printable(part.name) != part.name) {
      problems.push_back({printable(part.file.string()),
                          "has a name that is no readable text, or too long", "rename it"});
    }
    if (i > 0 && found.parts[i - 1].name == part.name) {
      problems.push_back({folder.string(),
                          "has two files for part " + inQuotes(part.name) + ": " +
                              found.parts[i - 1].file.filename().string() + " and " +
                              part.file.filename().string(),
                          "keep one of them"});
    }
  }
  return problems;
}

Problems readMeshes(GivenParts& folder, const MeshReader& reader, unsigned threads,
                    const WorkMonitor* monitor) {
  std::vector<Problems> problems(folder.parts.size());
  parallelFor(folder.parts.size(), threads, [&](std::size_t i) {
    GivenPart& part = folder.parts[i];
    Outcome<MeshFile> read = reader.read(part.file, monitor);
    problems[i] = read.problems();
    if (!read) return;
    part.mesh = std::move(read).value();
  });
  Problems all;
  for (const Problems& some : problems) all.insert(all.end(), some.begin(), some.end());
  return all;
}

}  // namespace

Outcome<GivenParts> readPartFolder(const fs::path& folder, const MeshReader& reader,
                                   unsigned threads, const PartChoice& choice) {
  GivenParts found;
  found.source = folder;
  if (auto problem = list(folder, choice, found)) return *problem;
  Problems problems = problemsOfNames(folder, found);
  if (!problems.empty()) return problems;
  std::error_code error;
  const fs::path whole = fs::weakly_canonical(folder, error);
  found.name = printable((error ? folder : whole).filename().string());
  if (found.name.empty()) found.name = "parts";
  for (GivenPart& part : found.parts) part.file = whole / part.file.filename();
  problems = readMeshes(found, reader, threads, choice.monitor);
  if (!problems.empty()) return problems;
  return found;
}

}  // namespace swingroom
