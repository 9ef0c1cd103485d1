#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/print/set/print_set.h"

namespace swingroom {

/// One file of a set to print: all that has one process, material and colour.
struct SetFile {
  std::string name;  ///< "tug_PLA_2F4858.3mf": letters, digits and underscores; no two alike.
  std::string process, material, colour;
  std::vector<std::size_t> loads;  ///< Of the set, in its order; not empty.
  std::size_t pieces = 0;

  bool operator==(const SetFile&) const = default;
};

/// Which files a set is written as, in the order of its loads.
std::vector<SetFile> setFilesOf(const PrintSubject& subject, const PrintSet& set);

/// Writes them into the folder, which is made if it is not there: 3MF, a build item a piece, each
/// object named after its part. Loads after the first lie beside it to the right, a bed's width and
/// 20 mm on.
/// @returns The files; or what went wrong with the first that could not be written.
Outcome<std::vector<SetFile>> writeSetFiles(const std::filesystem::path& folder,
                                            const PrintSubject& subject, const PrintSet& set);

}  // namespace swingroom
