#include "core/files/load_parts.h"

#include <algorithm>
#include <map>
#include <memory>
#include <tuple>

#include "core/base/parallel.h"
#include "core/files/json_value.h"
#include "core/mesh/health.h"

namespace swingroom {
namespace {

/// A mesh file as a part wants it.
struct MeshWish {
  std::filesystem::path file;
  double scale = 1;
  std::optional<DocumentMirror> mirror;

  auto key() const {
    const bool mirrored = mirror.has_value();
    const DocumentMirror plane = mirror.value_or(DocumentMirror{});
    return std::make_tuple(file.string(), scale, mirrored, plane.through, plane.normal);
  }
};

/// The first part that asks for a mesh file: where its mistakes are told.
struct FirstUse {
  std::string pointer;
  std::string written;  ///< The path in the assembly file.
};

/// x -> x - 2 n (n.(x - c)) after scaling.
Eigen::Affine3d scaleAndMirror(const MeshWish& wish) {
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  X.linear() *= wish.scale;
  if (!wish.mirror) return X;
  const Vector3d through(wish.mirror->through.data());
  const Vector3d normal = Vector3d(wish.mirror->normal.data()).normalized();
  Eigen::Affine3d mirror = Eigen::Affine3d::Identity();
  mirror.linear() -= 2 * normal * normal.transpose();
  mirror.translation() = 2 * normal.dot(through) * normal;
  return mirror * X;
}

/// Reads the mesh files and makes what the parts want of them.
class MeshLoader {
 public:
  MeshLoader(const MeshReader& reader, unsigned threads, DocumentProblems& problems)
      : reader_(reader), threads_(threads), problems_(problems) {}

  void wish(std::size_t part, const MeshWish& wish, const FirstUse& use);
  /// Fills the parts' meshes.
  void load(std::vector<Part>& parts);

 private:
  struct Made {
    std::shared_ptr<const TriangleMesh> mesh;
    std::vector<std::string> notes;
  };

  void readFiles();
  std::vector<Made> make() const;
  void tell(std::size_t file, const Problems& mistakes);
  void noteUnits();

  const MeshReader& reader_;
  unsigned threads_;
  DocumentProblems& problems_;
  std::vector<std::filesystem::path> files_;
  std::vector<FirstUse> firstUses_;
  std::vector<std::optional<MeshFile>> read_;
  std::vector<MeshWish> wishes_;
  std::vector<std::size_t> fileOfWish_;
  std::map<std::size_t, std::size_t> wishOfPart_;
};

void MeshLoader::wish(std::size_t part, const MeshWish& wish, const FirstUse& use) {
  const auto sameWish = std::find_if(wishes_.begin(), wishes_.end(), [&](const MeshWish& other) {
    return other.key() == wish.key();
  });
  wishOfPart_[part] = static_cast<std::size_t>(sameWish - wishes_.begin());
  if (sameWish != wishes_.end()) return;
  const auto sameFile = std::find(files_.begin(), files_.end(), wish.file);
  fileOfWish_.push_back(static_cast<std::size_t>(sameFile - files_.begin()));
  if (sameFile == files_.end()) {
    files_.push_back(wish.file);
    firstUses_.push_back(use);
  }
  wishes_.push_back(wish);
}

void MeshLoader::tell(std::size_t file, const Problems& mistakes) {
  for (const Problem& mistake : mistakes) {
    // The reader says "FILE" or "FILE, triangle 812": the file as the maker wrote it is enough.
    std::string place = mistake.where;
    const std::string path = files_[file].string();
    if (place.starts_with(path)) place.replace(0, path.size(), firstUses_[file].written);
    problems_.mistake(firstUses_[file].pointer, place + ": " + mistake.what, mistake.hint);
  }
}

void MeshLoader::readFiles() {
  std::vector<std::optional<Outcome<MeshFile>>> outcomes(files_.size());
  parallelFor(files_.size(), threads_,
              [&](std::size_t i) { outcomes[i] = reader_.read(files_[i]); });
  read_.resize(files_.size());
  for (std::size_t i = 0; i < files_.size(); ++i) {
    tell(i, outcomes[i]->problems());
    if (outcomes[i]->ok()) read_[i] = std::move(*outcomes[i]).value();
  }
}

std::vector<MeshLoader::Made> MeshLoader::make() const {
  std::vector<Made> made(wishes_.size());
  parallelFor(wishes_.size(), threads_, [&](std::size_t i) {
    const auto& file = read_[fileOfWish_[i]];
    if (!file) return;
    const bool asItIs = wishes_[i].scale == 1 && !wishes_[i].mirror;
    made[i].mesh = std::make_shared<const TriangleMesh>(
        asItIs ? file->mesh : transformed(file->mesh, scaleAndMirror(wishes_[i])));
    made[i].notes = healthNotes(*made[i].mesh, examine(*made[i].mesh));
  });
  return made;
}

void MeshLoader::noteUnits() {
  const auto assumed = std::count_if(read_.begin(), read_.end(),
                                     [](const auto& file) { return file && file->unitAssumed; });
  if (assumed == 0) return;
  problems_.note("/parts", "mm is taken for " + std::to_string(assumed) + " of " +
                               std::to_string(files_.size()) +
                               " mesh files, whose formats have no unit");
}

void MeshLoader::load(std::vector<Part>& parts) {
  readFiles();
  const std::vector<Made> made = make();
  for (const auto& [part, wish] : wishOfPart_) parts[part].mesh = made[wish].mesh;
  for (std::size_t i = 0; i < made.size(); ++i) {
    for (const std::string& note : made[i].notes) {
      problems_.noteElsewhere({wishes_[i].file.string(), note, ""});
    }
  }
  noteUnits();
}

Part loadPart(const DocumentPart& written, const std::string& pointer, DocumentProblems& problems) {
  if (written.scale <= 0) problems.mistake(pointerTo(pointer, "scale"), "must be above 0");
  if (written.count.value_or(1) < 1) {
    problems.mistake(pointerTo(pointer, "count"), "must be at least 1");
  }
  if (written.mirror && Vector3d(written.mirror->normal.data()).norm() < 1e-12) {
    problems.mistake(pointer + "/mirror/normal", "is zero, which is no direction");
  }
  Part part;
  part.name = written.name;
  part.kind = written.kind;
  if (written.placement) {
    const auto pose = poseOf(*written.placement, pointerTo(pointer, "placement"), problems);
    part.X_WP_home = pose.value_or(Pose::Identity());
  }
  return part;
}

/// Path of the mesh in use, as written, if there is one; tells what is wrong with it.
std::optional<std::string> meshInUse(const DocumentPart& written, const std::string& pointer,
                                     DocumentProblems& problems) {
  std::vector<std::string> stages;
  for (const auto& [stage, file] : written.stages) stages.push_back(stage);
  if (stages.empty() && written.use == DocumentPart().use) {
    if (!problems.anyIn(pointerTo(pointer, "stages"))) {
      problems.note(pointer, inQuotes(written.name) + " has no mesh: it is not checked");
    }
    return std::nullopt;
  }
  const auto inUse = written.stages.find(written.use);
  if (inUse == written.stages.end()) {
    problems.mistake(pointerTo(pointer, "use"),
                     "is stage " + inQuotes(written.use) + ", but " +
                         (stages.empty() ? "the part has no stages"
                                         : "the part's stages are " + listed(stages)));
    return std::nullopt;
  }
  const std::string at = pointerTo(pointerTo(pointer, "stages"), written.use);
  if (problems.anyIn(at)) return std::nullopt;
  if (inUse->second.empty()) {
    problems.mistake(at, "is empty: the mesh file should be named here");
    return std::nullopt;
  }
  return inUse->second;
}

}  // namespace

std::optional<Pose> poseOf(const DocumentPlacement& placement, const std::string& pointer,
                           DocumentProblems& problems) {
  const FourNumbers& turn = placement.turn;
  const Eigen::Quaterniond q(turn[0], turn[1], turn[2], turn[3]);
  if (q.norm() < 1e-12) {
    problems.mistake(pointerTo(pointer, "turn"), "is zero, which is no rotation",
                     "no turn is [1, 0, 0, 0]");
    return std::nullopt;
  }
  Pose X = Pose::Identity();
  X.linear() = q.normalized().toRotationMatrix();
  X.translation() = Vector3d(placement.at.data());
  return X;
}

std::vector<Part> loadParts(const AssemblyDocument& document, DocumentProblems& problems) {
  std::vector<Part> parts;
  for (std::size_t i = 0; i < document.parts.size(); ++i) {
    parts.push_back(loadPart(document.parts[i], pointerTo("/parts", i), problems));
  }
  return parts;
}

void loadMeshes(const AssemblyDocument& document, const std::filesystem::path& folder,
                const MeshReader& reader, unsigned threads, std::vector<Part>& parts,
                DocumentProblems& problems) {
  MeshLoader meshes(reader, threads, problems);
  for (std::size_t i = 0; i < document.parts.size(); ++i) {
    const DocumentPart& written = document.parts[i];
    const std::string pointer = pointerTo("/parts", i);
    const auto path = meshInUse(written, pointer, problems);
    if (!path) continue;
    const std::string at = pointerTo(pointerTo(pointer, "stages"), written.use);
    if (std::filesystem::path(*path).is_absolute()) {
      problems.note(at, "is an absolute path, which ties the file to this computer",
                    "a path from the assembly file's folder works everywhere");
    }
    const MeshWish wish{(folder / *path).lexically_normal(), written.scale, written.mirror};
    meshes.wish(i, wish, {at, *path});
  }
  meshes.load(parts);
}

}  // namespace swingroom
