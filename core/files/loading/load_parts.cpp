#include "core/files/loading/load_parts.h"

#include <algorithm>
#include <cstdio>
#include <map>
#include <memory>
#include <tuple>

#include "core/base/parallel.h"
#include "core/files/document/json_value.h"
#include "core/files/mesh_format.h"
#include "core/files/mesh_path.h"
#include "core/files/scenes/scene_parts.h"
#include "core/mesh/exact_features.h"
#include "core/mesh/health.h"

namespace swingroom {
namespace {

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

std::string shortText(double x) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g", x);
  return text;
}

std::shared_ptr<const Features> exactFeaturesOf(const Features& features, const MeshWish& wish) {
  if (features.cylinders.empty() && features.balls.empty()) return nullptr;
  return std::make_shared<const Features>(transformed(features, scaleAndMirror(wish)));
}

/// Reads the mesh files and makes what the parts want of them.
class MeshLoader {
 public:
  MeshLoader(const MeshSource& source, DocumentProblems& problems)
      : source_(source), problems_(problems) {}

  void wish(std::size_t part, const MeshWish& wish, const FirstUse& use);
  /// Fills the parts' meshes.
  void load(std::vector<Part>& parts);

 private:
  /// One mesh file and what is wanted of it.
  struct File {
    std::filesystem::path path;
    double deviationMm = 0;
    FirstUse firstUse;
    std::vector<std::size_t> wishes;
    Problems mistakes;
    /// Wishes for parts that the file does not have, and what is said of each.
    std::vector<std::pair<std::size_t, Problem>> lacking;
  };

  void read(File& file);
  void readWhole(File& file, const std::vector<std::size_t>& wishes, const std::string& stamp);
  void readApart(File& file, const std::vector<std::size_t>& wishes, const std::string& stamp);
  MadeMesh make(const TriangleMesh& mesh, bool unitAssumed, double deviationMm,
                const MeshWish& wish) const;
  MeshReader readerFor(const File& file) const;
  void keep(std::size_t wish, MadeMesh made, const std::string& stamp);
  bool keepsLast(const File& file);
  void tell(const File& file);
  void noteUnits();
  void noteDeviations();

  const MeshSource& source_;
  DocumentProblems& problems_;
  std::vector<File> files_;
  std::vector<MeshWish> wishes_;
  std::vector<FirstUse> firstUses_;  ///< By wish.
  std::vector<MadeMesh> made_;
  std::map<std::size_t, std::size_t> wishOfPart_;
};

void MeshLoader::wish(std::size_t part, const MeshWish& wish, const FirstUse& use) {
  const auto sameWish = std::find(wishes_.begin(), wishes_.end(), wish);
  wishOfPart_[part] = static_cast<std::size_t>(sameWish - wishes_.begin());
  if (sameWish != wishes_.end()) return;
  auto file = std::find_if(files_.begin(), files_.end(),
                           [&](const File& known) {
    return known.path == wish.file && known.deviationMm == wish.deviationMm;
  });
  if (file == files_.end()) {
    file = files_.insert(file, File{wish.file, wish.deviationMm, use, {}, {}, {}});
  }
  file->wishes.push_back(wishes_.size());
  wishes_.push_back(wish);
  firstUses_.push_back(use);
}

MeshReader MeshLoader::readerFor(const File& file) const {
  return file.deviationMm > 0 ? source_.reader->withDeviation(file.deviationMm) : *source_.reader;
}

MadeMesh MeshLoader::make(const TriangleMesh& mesh, bool unitAssumed, double deviationMm,
                          const MeshWish& wish) const {
  const bool asItIs = wish.scale == 1 && !wish.mirror;
  MadeMesh made;
  made.unitAssumed = unitAssumed;
  made.mesh = std::make_shared<const TriangleMesh>(
      asItIs ? mesh : transformed(mesh, scaleAndMirror(wish)));
  made.notes = healthNotes(*made.mesh, examine(*made.mesh));
  if (wish.deviationMm > 0 && deviationMm > wish.deviationMm) {
    made.notes.push_back("could be meshed to within " + shortText(deviationMm) +
                         " mm of its surfaces only, not " + shortText(wish.deviationMm));
  }
  return made;
}

void MeshLoader::keep(std::size_t wish, MadeMesh made, const std::string& stamp) {
  made_[wish] = std::move(made);
  if (source_.memory) source_.memory->keep(wishes_[wish], stamp, made_[wish]);
}

void MeshLoader::read(File& file) {
  const std::string stamp = source_.memory ? source_.memory->stampOf(file.path) : "";
  std::vector<std::size_t> whole, apart;
  for (const std::size_t w : file.wishes) {
    auto known = source_.memory ? source_.memory->find(wishes_[w], stamp) : std::nullopt;
    if (known) {
      made_[w] = std::move(*known);
    } else {
      (wishes_[w].inFile.empty() ? whole : apart).push_back(w);
    }
  }
  if (!whole.empty()) readWhole(file, whole, stamp);
  if (!apart.empty()) readApart(file, apart, stamp);
}

void MeshLoader::readWhole(File& file, const std::vector<std::size_t>& wishes,
                           const std::string& stamp) {
  const Outcome<MeshFile> outcome = readerFor(file).read(file.path, source_.monitor);
  file.mistakes = outcome.problems();
  if (!outcome) return;
  for (const std::size_t w : wishes) {
    keep(w, make(outcome->mesh, outcome->unitAssumed, outcome->deviationMm, wishes_[w]), stamp);
  }
}

void MeshLoader::readApart(File& file, const std::vector<std::size_t>& wishes,
                           const std::string& stamp) {
  const Outcome<SceneFile> scene = readerFor(file).readScene(file.path, source_.monitor);
  if (!scene) {
    if (file.mistakes.empty()) file.mistakes = scene.problems();  // Not twice the same.
    return;
  }
  for (const std::size_t w : wishes) {
    if (const SceneSurface* surface = findSurface(*scene, wishes_[w].inFile)) {
      MadeMesh made =
          make(surface->mesh, scene->unitAssumed, surface->deviationMm, wishes_[w]);
      made.exactFeatures = exactFeaturesOf(surface->features, wishes_[w]);
      keep(w, std::move(made), stamp);
    } else {
      file.lacking.emplace_back(w, noSuchPart(*scene, wishes_[w].inFile));
    }
  }
}

/// Of a file that cannot be read and may be half-written: whether all wishes have what was made of
/// it last.
bool MeshLoader::keepsLast(const File& file) {
  if (!source_.late || !source_.late->mayBeLate.contains(file.path)) return false;
  const std::size_t wrong = file.mistakes.size() + file.lacking.size();
  if (wrong == 0) return false;
  source_.late->late.insert(file.path);
  for (const std::size_t wish : file.wishes) {
    if (made_[wish].mesh) continue;
    auto last = source_.memory ? source_.memory->findLast(wishes_[wish]) : std::nullopt;
    if (!last) {
      source_.late->mistakes += wrong;
      return false;
    }
    made_[wish] = std::move(*last);
  }
  return true;
}

void MeshLoader::tell(const File& file) {
  if (keepsLast(file)) return;
  for (const Problem& mistake : file.mistakes) {
    // The reader says "FILE" or "FILE, triangle 812": the file as the maker wrote it is enough.
    std::string place = mistake.where;
    const std::string path = file.path.string();
    if (place.starts_with(path)) place.replace(0, path.size(), file.firstUse.written);
    problems_.mistake(file.firstUse.pointer, place + ": " + mistake.what, mistake.hint);
  }
  for (const auto& [wish, problem] : file.lacking) {
    problems_.mistake(firstUses_[wish].pointer,
                      firstUses_[wish].written + ": " + problem.what, problem.hint);
  }
}

void MeshLoader::noteUnits() {
  const auto assumed = std::count_if(files_.begin(), files_.end(), [&](const File& file) {
    // A scale says what the numbers are.
    const std::size_t first = file.wishes.front();
    return made_[first].unitAssumed && wishes_[first].scale == 1;
  });
  if (assumed == 0) return;
  problems_.note("/parts", "mm is taken for " + std::to_string(assumed) + " of " +
                               std::to_string(files_.size()) +
                               " mesh files, whose formats have no unit");
}

/// What is proven is proven of the meshes: so near are they to what the file says.
void MeshLoader::noteDeviations() {
  std::size_t count = 0;
  double mostMm = 0;
  for (const auto& [part, wish] : wishOfPart_) {
    if (wishes_[wish].deviationMm <= 0) continue;
    ++count;
    mostMm = std::max(mostMm, wishes_[wish].deviationMm * wishes_[wish].scale);
  }
  if (count == 0) return;
  problems_.note("/parts", std::to_string(count) + (count == 1 ? " part is" : " parts are") +
                               " meshed from STEP surfaces to within " + shortText(mostMm) +
                               " mm: what is told is of the meshes");
}

void MeshLoader::load(std::vector<Part>& parts) {
  made_.resize(wishes_.size());
  parallelFor(files_.size(), source_.threads, [&](std::size_t i) { read(files_[i]); });
  for (const File& file : files_) tell(file);
  for (const auto& [part, wish] : wishOfPart_) {
    parts[part].mesh = made_[wish].mesh;
    parts[part].exactFeatures = made_[wish].exactFeatures;
  }
  for (std::size_t i = 0; i < made_.size(); ++i) {
    for (const std::string& note : made_[i].notes) {
      problems_.noteElsewhere({writtenMeshPath({wishes_[i].file, wishes_[i].inFile}), note, ""});
    }
  }
  noteUnits();
  noteDeviations();
}

Part loadPart(const DocumentPart& written, const std::string& pointer, DocumentProblems& problems) {
  if (written.scale <= 0) problems.mistake(pointerTo(pointer, "scale"), "must be above 0");
  const double deviation = written.deviation.value_or(kUsualDeviationMm);
  if (!(deviation >= kLeastDeviationMm && deviation <= kGreatestDeviationMm)) {
    problems.mistake(pointerTo(pointer, "deviation"), "must be from 0.0005 to 1 mm");
  }
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
                const MeshSource& source, std::vector<Part>& parts, DocumentProblems& problems) {
  MeshLoader meshes(source, problems);
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
    const MeshPath mesh = meshPathOf(folder, *path);
    const bool hasSurfaces = meshFormatOf(mesh.file) == MeshFormat::step;
    const double deviationMm =
        hasSurfaces ? written.deviation.value_or(kUsualDeviationMm) : 0;
    meshes.wish(i, {mesh.file, written.scale, written.mirror, mesh.part, deviationMm}, {at, *path});
  }
  meshes.load(parts);
}

}  // namespace swingroom
