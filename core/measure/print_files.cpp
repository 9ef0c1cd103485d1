#include "core/measure/print_files.h"

#include <algorithm>

#include "core/files/formats/writing/write_set.h"

namespace swingroom {
namespace {

constexpr double kBetweenBedsMm = 20;

std::string plainName(const std::string& text) {
  std::string plain;
  for (const char c : text) {
    const bool isPlain = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    if (isPlain) {
      plain += c;
    } else if (!plain.empty() && plain.back() != '_') {
      plain += '_';
    }
  }
  while (!plain.empty() && plain.back() == '_') plain.pop_back();
  return plain;
}

std::string nameOfSetFile(const PrintSubject& subject, const BedLoad& load,
                          const std::vector<SetFile>& others) {
  std::string name = plainName(subject.assembly->name());
  if (name.empty()) name = "set";
  for (const std::string& text : {plainName(load.material), plainName(load.colour)}) {
    if (!text.empty()) name += "_" + text;
  }
  const auto isTaken = [&](const std::string& candidate) {
    return std::any_of(others.begin(), others.end(),
                       [&](const SetFile& file) { return file.name == candidate; });
  };
  std::string free = name + ".3mf";
  for (int k = 2; isTaken(free); ++k) free = name + "_" + std::to_string(k) + ".3mf";
  return free;
}

std::vector<SetObject> objectsIn(const PrintSubject& subject, const PrintSet& set,
                                 const SetFile& file) {
  std::vector<SetObject> objects;
  std::vector<std::size_t> itemOf;
  for (std::size_t l = 0; l < file.loads.size(); ++l) {
    for (const LoadedPiece& piece : set.loads[file.loads[l]].pieces) {
      const PartId part = set.items[piece.item].parts.front();
      const auto known = std::find(itemOf.begin(), itemOf.end(), piece.item);
      const auto at = static_cast<std::size_t>(known - itemOf.begin());
      if (known == itemOf.end()) {
        itemOf.push_back(piece.item);
        objects.push_back({set.items[piece.item].name,
                           subject.part(part).mesh,
                           file.material,
                           rgbOf(file.colour),
                           {}});
      }
      Pose X_BP = piece.X_BP();
      X_BP.translation().x() +=
          static_cast<double>(l) * (subject.print(part).process.bedMm[0] + kBetweenBedsMm);
      objects[at].places.push_back(X_BP);
    }
  }
  return objects;
}

}  // namespace

std::vector<SetFile> setFilesOf(const PrintSubject& subject, const PrintSet& set) {
  std::vector<SetFile> files;
  for (std::size_t l = 0; l < set.loads.size(); ++l) {
    const BedLoad& load = set.loads[l];
    const auto same = std::find_if(files.begin(), files.end(), [&](const SetFile& file) {
      return file.process == load.process && file.material == load.material &&
             file.colour == load.colour;
    });
    if (same != files.end()) {
      same->loads.push_back(l);
      same->pieces += load.pieces.size();
      continue;
    }
    files.push_back({nameOfSetFile(subject, load, files),
                     load.process,
                     load.material,
                     load.colour,
                     {l},
                     load.pieces.size()});
  }
  return files;
}

Outcome<std::vector<SetFile>> writeSetFiles(const std::filesystem::path& folder,
                                            const PrintSubject& subject, const PrintSet& set) {
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  if (failed) return Problem{folder.string(), "cannot be made", failed.message()};
  std::vector<SetFile> files = setFilesOf(subject, set);
  for (const SetFile& file : files) {
    const auto problem =
        writeSet(folder / file.name, objectsIn(subject, set, file), subject.assembly->name());
    if (problem) return *problem;
  }
  return files;
}

}  // namespace swingroom
