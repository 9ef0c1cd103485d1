#include "core/files/loading/load_assembly.h"

#include <algorithm>

#include "core/base/ensure.h"
#include "core/files/document/drawings.h"
#include "core/files/document/json_value.h"
#include "core/files/document/read_document.h"
#include "core/files/loading/load_joints.h"
#include "core/files/loading/load_modes.h"
#include "core/files/loading/load_pairs.h"
#include "core/files/loading/load_parts.h"
#include "core/files/loading/load_sequences.h"
#include "core/files/loading/placed_modes.h"
#include "core/files/loading/variants.h"

namespace swingroom {
namespace {

std::string nameWithoutEnding(const std::filesystem::path& file) {
  std::string name = file.filename().string();
  for (const char* ending : {".json", ".swing"}) {
    if (name.ends_with(ending)) name.resize(name.size() - std::string_view(ending).size());
  }
  return name;
}

/// Numbers of the file as a whole.
void checkHeader(const AssemblyDocument& document, DocumentProblems& problems) {
  if (document.requiredGap < 0) problems.mistake("/requiredGap", "must not be negative");
  if (document.resolution <= 0) problems.mistake("/resolution", "must be above 0");
  const Vector3d up(document.up.data());
  const Vector3d front(document.front.data());
  if (up.norm() < 1e-12) problems.mistake("/up", "is zero, which is no direction");
  if (front.norm() < 1e-12) problems.mistake("/front", "is zero, which is no direction");
  if (up.cross(front).norm() <= 1e-9 * up.norm() * front.norm() &&
      up.norm() * front.norm() > 1e-12) {
    problems.mistake("/front", "points along \"up\": front and up must differ");
  }
}

/// Makes an assembly of a file that has been read, as far as its mistakes let it.
class AssemblyLoader {
 public:
  AssemblyLoader(const AssemblyDocument& document, DocumentProblems& problems)
      : document_(document),
        problems_(problems),
        partNames_(document.parts, "/parts", "part", problems),
        jointNames_(document.joints, "/joints", "joint", problems),
        modeNames_(document.modes, "/modes", "mode", problems),
        sequenceNames_(document.sequences, "/sequences", "sequence", problems) {}

  Outcome<LoadedAssembly> load(const std::filesystem::path& file, const MeshSource& source);

 private:
  void loadRules();
  void buildAssembly();
  void addImpliedJoints();

  const AssemblyDocument& document_;
  DocumentProblems& problems_;
  NameIndex partNames_;
  NameIndex jointNames_;
  NameIndex modeNames_;
  NameIndex sequenceNames_;
  AssemblyParts parts_;
  std::vector<JointId> followers_;
  std::vector<WantedPlacements> wanted_;
  std::optional<Assembly> assembly_;
};

void AssemblyLoader::loadRules() {
  std::vector<std::string> stepNames;
  for (const DocumentSequence& sequence : document_.sequences) {
    for (const std::string& name : stepNamesOf(sequence)) stepNames.push_back(name);
  }
  parts_.pairRules = loadPairs(document_, partNames_, modeNames_, stepNames, problems_);
  checkVariants(document_, partNames_, jointNames_, problems_);
}

void AssemblyLoader::buildAssembly() {
  // Where something else is wrong, modes and sequences are still examined, against the joints
  // alone.
  AssemblyParts skeleton = parts_;
  if (problems_.anyIn("/requiredGap") || problems_.anyIn("/resolution") ||
      problems_.anyIn("/pairs")) {
    skeleton.pairRules.clear();
    skeleton.requiredGapMm = AssemblyParts().requiredGapMm;
    skeleton.resolutionMm = AssemblyParts().resolutionMm;
  }
  assembly_.emplace(std::move(skeleton));
}

void AssemblyLoader::addImpliedJoints() {
  const std::vector<Joint> implied = impliedJoints(*assembly_, wanted_, jointNames_, problems_);
  if (implied.empty()) return;
  parts_.joints.insert(parts_.joints.end(), implied.begin(), implied.end());
  buildAssembly();
}

Outcome<LoadedAssembly> AssemblyLoader::load(const std::filesystem::path& file,
                                             const MeshSource& source) {
  checkHeader(document_, problems_);
  parts_.name = document_.name.empty() ? nameWithoutEnding(file) : document_.name;
  parts_.requiredGapMm = document_.requiredGap;
  parts_.resolutionMm = document_.resolution;
  parts_.parts = loadParts(document_, problems_);
  parts_.joints = loadJoints(document_, partNames_, jointNames_, problems_);
  followers_ = followersInOrder(parts_.joints, problems_);
  loadRules();
  checkDrawings(document_, modeNames_, problems_);
  wanted_ = readPlacements(document_, parts_.parts, partNames_, problems_);
  bool sound = !problems_.anyIn("/parts") && !problems_.anyIn("/joints");
  loadMeshes(document_, file.parent_path(), source, parts_.parts, problems_);
  if (sound) {
    buildAssembly();
    checkRings(*assembly_, problems_);
    sound = !problems_.anyIn("/joints");
  }
  if (sound) addImpliedJoints();
  // A part that moves by placements alone has joints that are not known now.
  const auto isPlaced = [](const WantedPlacements& wanted) { return !wanted.empty(); };
  if (!sound && std::any_of(wanted_.begin(), wanted_.end(), isPlaced)) jointNames_.beSilent();
  const MotionContext context{
      parts_.joints, sound ? &*assembly_ : nullptr, partNames_, jointNames_, modeNames_, followers_,
      problems_};
  const std::vector<std::optional<Mode>> modes = loadModes(context, document_, wanted_);
  std::vector<Sequence> sequences = loadSequences(context, document_, modes);
  if (problems_.any()) return problems_.mistakes();
  SWINGROOM_ENSURE(sound && sequences.size() == document_.sequences.size());
  LoadedAssembly loaded{std::move(*assembly_), {}, std::move(sequences), problems_.notes()};
  for (const std::optional<Mode>& mode : modes) loaded.modes.push_back(mode.value());
  return loaded;
}

}  // namespace

Outcome<LoadedAssembly> loadAssembly(const std::filesystem::path& file, const MeshReader& reader,
                                     unsigned threads) {
  const Outcome<std::string> text = readDocumentText(file);
  if (!text) return text.problems();
  DocumentProblems problems(file.string());
  const std::optional<AssemblyDocument> document = readForm(*text, file.string(), problems);
  if (!document) return problems.mistakes();
  return AssemblyLoader(*document, problems).load(file, {&reader, threads, nullptr});
}

Outcome<LoadedAssembly> loadAssembly(const AssemblyDocument& document,
                                     const std::filesystem::path& file, const MeshSource& source) {
  DocumentProblems problems(file.string());
  return AssemblyLoader(document, problems).load(file, source);
}

Outcome<LoadedAssembly> loadJointsAndModes(const AssemblyDocument& document) {
  AssemblyDocument bare = document;
  bare.sequences.clear();
  bare.pairs.clear();
  bare.variants.clear();
  for (DocumentPart& part : bare.parts) {
    part.stages.clear();
    part.use = DocumentPart().use;
  }
  static const MeshReader none = MeshReader::besideThisProgram();  // There is nothing to read.
  return loadAssembly(bare, "", {&none, 1, nullptr});
}

}  // namespace swingroom
