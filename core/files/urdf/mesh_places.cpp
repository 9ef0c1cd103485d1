#include "core/files/urdf/mesh_places.h"

#include <tinyxml2.h>

#include <algorithm>
#include <system_error>

#include "core/files/document/document_problems.h"
#include "core/files/document/found_text.h"
#include "core/files/document/json_value.h"
#include "core/files/printable.h"
#include "core/files/urdf/read_urdf.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostLevels = 8;  // Folders above the URDF that are looked at.

bool isFile(const fs::path& path) {
  std::error_code ignored;
  return fs::is_regular_file(path, ignored);
}

/// The name in `folder`/package.xml; empty: none.
std::string packageNameIn(const fs::path& folder) {
  const fs::path file = folder / "package.xml";
  if (!isFile(file)) return {};
  tinyxml2::XMLDocument document;
  if (document.LoadFile(file.c_str()) != tinyxml2::XML_SUCCESS) return {};
  const tinyxml2::XMLElement* root = document.FirstChildElement("package");
  const tinyxml2::XMLElement* name = root ? root->FirstChildElement("name") : nullptr;
  return name && name->GetText() ? name->GetText() : "";
}

/// The folder of the URDF and those above it, nearest first; not the root of the file system.
std::vector<fs::path> foldersAbove(const fs::path& folder) {
  std::vector<fs::path> all;
  for (fs::path at = folder; at.has_relative_path() && all.size() < kMostLevels;
       at = at.parent_path()) {
    all.push_back(at);
  }
  return all;
}

/// "%20" and the like of a file:// address.
std::string decoded(const std::string& text) {
  const auto digit = [](char c) -> int {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
  };
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool coded =
        text[i] == '%' && i + 2 < text.size() && digit(text[i + 1]) >= 0 && digit(text[i + 2]) >= 0;
    if (!coded) {
      plain += text[i];
      continue;
    }
    plain += static_cast<char>(16 * digit(text[i + 1]) + digit(text[i + 2]));
    i += 2;
  }
  return plain;
}

/// The file of that name with other capitals, where `file` is missing; empty: none.
std::string otherCapitals(const fs::path& file) {
  const auto low = [](std::string text) {
    for (char& c : text) {
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return text;
  };
  std::error_code error;
  const std::string wanted = low(file.filename().string());
  for (fs::directory_iterator at(file.parent_path(), error), end; !error && at != end;
       at.increment(error)) {
    const std::string name = at->path().filename().string();
    if (low(name) == wanted) return printable(name);
  }
  return {};
}

}  // namespace

MeshPlaces::MeshPlaces(const fs::path& urdf, std::map<std::string, fs::path> packages)
    : given_(std::move(packages)) {
  std::error_code error;
  folder_ = fs::weakly_canonical(fs::absolute(urdf).parent_path(), error);
  if (error) folder_ = fs::absolute(urdf).parent_path();
}

void MeshPlaces::lose(std::map<std::string, Lost>& where, const std::string& key,
                      const RobotShape& mesh) {
  Lost& lost = where[key];
  if (lost.line == 0) lost.line = mesh.line;
  lost.files.insert(mesh.file);
}

std::optional<fs::path> MeshPlaces::folderOf(const std::string& package, const std::string& rest) {
  if (const auto known = given_.find(package); known != given_.end()) {
    return found_[package] = known->second;
  }
  if (const auto known = found_.find(package); known != found_.end()) return known->second;
  const std::vector<fs::path> above = foldersAbove(folder_);
  std::error_code ignored;
  for (const fs::path& folder : above) {
    if (folder.filename() == package || packageNameIn(folder) == package) {
      return found_[package] = folder;
    }
    if (fs::is_directory(folder / package, ignored)) return found_[package] = folder / package;
  }
  for (const fs::path& folder : above) {
    if (isFile(folder / rest)) return found_[package] = guessed_[package] = folder;
  }
  return std::nullopt;
}

std::optional<fs::path> MeshPlaces::inPackage(const std::string& name, const std::string& rest,
                                              const RobotShape& mesh) {
  const auto folder = folderOf(name, rest);
  if (!folder) {
    lose(lostPackages_, name, mesh);
    return std::nullopt;
  }
  return *folder / rest;
}

std::optional<fs::path> MeshPlaces::find(const RobotShape& mesh) {
  named_.insert(mesh.file);
  const std::string& written = mesh.file;
  std::optional<fs::path> path;
  const auto colon = written.find("://");
  if (colon == std::string::npos) {
    path = fs::path(written).is_absolute() ? fs::path(written) : folder_ / written;
  } else {
    const std::string scheme = written.substr(0, colon);
    const std::string rest = written.substr(colon + 3);
    if (scheme == "file") {
      path = decoded(rest);
    } else if (scheme == "package" || scheme == "model") {
      const auto slash = rest.find('/');
      if (slash != std::string::npos) {
        path = inPackage(rest.substr(0, slash), rest.substr(slash + 1), mesh);
      } else {
        lose(lostFiles_, "", mesh);
      }
    } else {
      lose(strange_, scheme, mesh);
    }
  }
  if (!path) return std::nullopt;
  std::error_code error;
  const fs::path whole = fs::absolute(*path, error).lexically_normal();
  if (isFile(whole)) return whole;
  lose(lostFiles_, "", mesh);
  return std::nullopt;
}

std::map<std::string, std::optional<fs::path>> MeshPlaces::packages() const {
  std::map<std::string, std::optional<fs::path>> all;
  for (const auto& [package, folder] : found_) all[package] = folder;
  for (const auto& [package, lost] : lostPackages_) all[package] = std::nullopt;
  return all;
}

/// How many of these files lie beside the URDF, by their bare names.
std::size_t MeshPlaces::besideTheRobot(const std::set<std::string>& files) const {
  return static_cast<std::size_t>(std::count_if(files.begin(), files.end(), [&](const auto& file) {
    return isFile(folder_ / fs::path(file).filename());
  }));
}

void MeshPlaces::tellPackage(const std::string& package, const Lost& lost,
                             XmlProblems& problems) const {
  std::string hint = "say which folder it is (on the command line: --package " + package +
                     "=FOLDER), or put the URDF into a folder below it";
  if (const std::size_t beside = besideTheRobot(lost.files); beside > 0) {
    hint += "; " + counted(beside, "file") + " of these names " + (beside == 1 ? "lies" : "lie") +
            " beside the URDF: paths without package:// would find them";
  }
  problems.mistake(lost.line,
                   "package " + inQuotes(package) + " is not found, in which " +
                       counted(lost.files.size(), "mesh file") + " should be",
                   hint);
}

void MeshPlaces::tellFiles(const Lost& lost, XmlProblems& problems) const {
  const std::vector<std::string> files(lost.files.begin(), lost.files.end());
  std::string hint = "check their names and folders";
  if (files.size() == 1) {
    hint = "check its name and folder";
    const fs::path file = folder_ / files.front();
    const std::string other = otherCapitals(file);
    if (!other.empty()) hint = "there is " + other + ": capitals count";
  }
  problems.mistake(lost.line,
                   counted(files.size(), "mesh file") + " of " + std::to_string(named_.size()) +
                       (files.size() == 1 ? " is" : " are") + " not there: " + listed(files),
                   hint);
}

void MeshPlaces::tell(XmlProblems& problems) const {
  for (const auto& [package, lost] : lostPackages_) tellPackage(package, lost, problems);
  for (const auto& [key, lost] : lostFiles_) tellFiles(lost, problems);
  for (const auto& [scheme, lost] : strange_) {
    problems.mistake(lost.line,
                     inQuotes(*lost.files.begin()) +
                         " cannot be reached: only paths, package:// "
                         "and file:// are read",
                     "copy it to this computer and name it by its path");
  }
  for (const auto& [package, folder] : guessed_) {
    problems.note(
        0,
        "no folder is named " + inQuotes(package) +
            " and none above the URDF says it is "
            "that package; " +
            folder.string() + " is taken for it, for the meshes are there",
        "or say which folder it is (on the command line: --package " + package + "=FOLDER)");
  }
}

std::map<std::string, std::optional<fs::path>> packagesOf(
    const fs::path& urdf, const std::map<std::string, fs::path>& given) {
  XmlProblems unheard(urdf);
  MeshPlaces places(urdf, given);
  if (const auto robot = readUrdf(unheard)) {
    for (const RobotLink& link : robot->links) {
      for (const auto* bodies : {&link.visuals, &link.collisions}) {
        for (const RobotBody& body : *bodies) {
          if (body.shape.kind == RobotShapeKind::mesh) places.find(body.shape);
        }
      }
    }
  }
  return places.packages();
}

}  // namespace swingroom
