#include "core/files/sources/new_from_parts.h"

#include <algorithm>

#include "core/base/parallel.h"
#include "core/files/document/document_problems.h"
#include "core/files/document/found_text.h"
#include "core/files/document/inferred_document.h"
#include "core/files/document/json_value.h"
#include "core/files/scenes/keyed_displacements.h"
#include "core/files/scenes/keyed_parts.h"
#include "core/files/scenes/part_scene.h"
#include "core/files/sources/given_unit.h"
#include "core/files/sources/part_folder.h"
#include "core/files/sources/source_kind.h"
#include "core/motion/joint_inference.h"
#include "core/motion/registration.h"

namespace swingroom {
namespace {

constexpr double kToldResidualMm = 0.002;  // Well above what rounding of files makes.

/// As the maker knows it: a file of a folder, or a part of a file.
std::string label(const GivenPart& part) {
  return part.inFile.empty() ? part.file.filename().string() : part.name;
}

std::vector<std::string> namesMissing(const GivenParts& from, const GivenParts& in) {
  std::vector<std::string> missing;
  for (const GivenPart& part : from.parts) {
    const bool there = std::any_of(in.parts.begin(), in.parts.end(),
                                   [&](const GivenPart& other) { return other.name == part.name; });
    if (!there) missing.push_back(label(part));
  }
  return missing;
}

/// The parts of `given` in the order that they have in `like`, which has the same ones.
void orderLike(const GivenParts& like, GivenParts& given) {
  std::vector<GivenPart> ordered;
  for (const GivenPart& part : like.parts) {
    ordered.push_back(
        std::move(*std::find_if(given.parts.begin(), given.parts.end(),
                                [&](const GivenPart& other) { return other.name == part.name; })));
  }
  given.parts = std::move(ordered);
}

Problems differentParts(const GivenParts& first, const GivenParts& second) {
  Problems problems;
  const auto tell = [&](const GivenParts& has, const GivenParts& lacks) {
    const std::vector<std::string> missing = namesMissing(has, lacks);
    if (missing.empty()) return;
    problems.push_back({lacks.source.string(), "lacks " + listed(missing) + ", which the other has",
                        "both must hold the same parts under the same names"});
  };
  tell(first, second);
  tell(second, first);
  return problems;
}

/// Each part's displacement, or everything that is wrong with the parts.
Outcome<std::vector<Registration>> registerAll(const GivenParts& first, const GivenParts& second,
                                               unsigned threads, const WorkMonitor* monitor) {
  std::vector<Registration> registered(first.parts.size());
  std::vector<Problems> problems(first.parts.size());
  parallelFor(first.parts.size(), threads, [&](std::size_t i) {
    if (isCancelled(monitor)) return;
    const GivenPart& part = first.parts[i];
    const auto outcome = registerPart(label(part), part.mesh.mesh, second.parts[i].mesh.mesh);
    if (outcome) {
      registered[i] = *outcome;
    } else {
      problems[i] = outcome.problems();
    }
  });
  Problems all;
  for (const Problems& some : problems) all.insert(all.end(), some.begin(), some.end());
  if (!all.empty()) return all;
  return registered;
}

void noteFolder(const GivenParts& folder, Problems& notes) {
  notes.insert(notes.end(), folder.notes.begin(), folder.notes.end());
  if (folder.leftOut.empty()) return;
  notes.push_back(
      {folder.source.string(), "left out what is no mesh file: " + listed(folder.leftOut), ""});
}

std::string nameFor(const std::filesystem::path& file) {
  std::filesystem::path name = file.filename();
  if (name.extension() == ".json") name = name.stem();
  if (name.extension() == ".swing") name = name.stem();
  return name.string();
}

class Maker {
 public:
  Maker(const NewAssemblyWish& wish, const MeshReader& reader) : wish_(wish), reader_(reader) {}

  Outcome<NewAssembly> make() {
    if (!wish_.poses.empty()) return makeKeyed();
    Outcome<GivenParts> first = read(wish_.source);
    if (!first) return first.problems();
    if (auto problem = begin(*first)) return *problem;
    if (!wish_.other) {
      addOneMode(*first, first->name);
      return std::move(made_);
    }
    Outcome<GivenParts> second = read(*wish_.other);
    if (!second) return second.problems();
    noteFolder(*second, made_.notes);
    Problems problems = differentParts(*first, *second);
    if (!problems.empty()) return problems;
    orderLike(*first, *second);
    const TakenUnit other = takeUnitOfOther(*first, unit_, *second, wish_.mmPerUnit);
    addUnit(other);
    problems = addTwoModes(*first, *second);
    if (!problems.empty()) {  // Another unit is why parts differ: told first.
      problems.insert(problems.begin(), other.notes.begin(), other.notes.end());
      return problems;
    }
    return std::move(made_);
  }

 private:
  /// Puts the parts into the document, as they stand in the first mode.
  std::optional<Problem> begin(GivenParts& first) {
    made_.document.name = nameFor(wish_.file);
    made_.document.requiredGap = wish_.requiredGapMm;
    if (!wish_.ground.empty() && !indexOf(first, wish_.ground)) return noSuchGround(first);
    unit_ = takeUnit(first, wish_.mmPerUnit);
    addUnit(unit_);
    made_.document.parts = documentParts(first, wish_.file);
    noteFolder(first, made_.notes);
    return std::nullopt;
  }

  Outcome<NewAssembly> makeKeyed() {
    if (auto problem = keyedProblem(wish_)) return *problem;
    const Outcome<SceneFile> scene = reader_.readScene(wish_.source, wish_.monitor);
    if (!scene) return scene.problems();
    const Outcome<KeyedMotion> motion = readKeyedMotion(*scene, wish_.source, wish_.poses);
    if (!motion) return motion.problems();
    Outcome<GivenParts> first =
        givenParts(*scene, wish_.source, motion->stations.front().X_SPs);
    if (!first) return first.problems();
    if (auto problem = begin(*first)) return *problem;
    made_.notes.insert(made_.notes.end(), motion->notes.begin(), motion->notes.end());
    if (motion->stations.size() == 1) {
      addOneMode(*first, motion->stations.front().mode);
      return std::move(made_);
    }
    auto D = displacementsAt(*motion, *first, scene->unitAssumed ? unit_.mmPerUnit : 1);
    if (!D) return D.problems();
    const Problems problems = addKeyedMotion(*motion, *first, *D);
    if (!problems.empty()) return problems;
    return std::move(made_);
  }

  /// @param D  By station after the first, by part.
  Problems addKeyedMotion(const KeyedMotion& motion, const GivenParts& first,
                          std::vector<std::vector<Pose>>& D) {
    std::vector<PartInTwoModes> parts = keyedParts(first, D);
    if (nothingMoves(D)) {
      return {{wish_.source.string(), "no part moves between the modes that were asked for",
               "choose other times, or key every part in each mode"}};
    }
    if (const auto ground = indexOf(first, wish_.ground)) {
      seeFrom(*ground, D);
      parts = keyedParts(first, D);
      tellGround();
    }
    const std::string &from = motion.stations.front().mode, &to = motion.stations.back().mode;
    if (motion.stations.size() == 2) {
      inferAndTell(parts, from, to);
      return {};
    }
    const InferredMotion inferred = inferJoints(parts, made_.document.requiredGap, wish_.threads);
    if (!inferred.groups.takenOff.empty()) {
      seeFrom(inferred.groups.groups.front().parts.front(), D);
      parts = keyedParts(first, D);
    }
    const KeptMotion kept = keepMotion(motion, parts, D, inferred, made_.document);
    tell({made_.document, inferred, parts, misfitsOf(made_.document, parts, D.back())});
    made_.found.insert(made_.found.end(), kept.found.begin(), kept.found.end());
    made_.notes.insert(made_.notes.end(), kept.notes.begin(), kept.notes.end());
    return {};
  }

  Outcome<GivenParts> read(const std::filesystem::path& source) const {
    return readGivenParts(source, reader_, wish_.threads, {wish_.only, wish_.monitor});
  }

  void addUnit(const TakenUnit& unit) {
    if (!unit.said.empty()) made_.found.push_back(unit.said);
    made_.notes.insert(made_.notes.end(), unit.notes.begin(), unit.notes.end());
  }

  static std::optional<std::size_t> indexOf(const GivenParts& folder, const std::string& part) {
    for (std::size_t i = 0; i < folder.parts.size(); ++i) {
      if (folder.parts[i].name == part) return i;
    }
    return std::nullopt;
  }

  Problem noSuchGround(const GivenParts& folder) const {
    std::vector<std::string> names;
    for (const GivenPart& part : folder.parts) names.push_back(part.name);
    return {wish_.source.string(),
            "has no part named " + inQuotes(wish_.ground) + " to stand still",
            "its parts are " + listed(names)};
  }

  /// All motion as it is seen from the ground part.
  void seeFromGround(const GivenParts& folder, std::vector<PartInTwoModes>& parts) {
    const auto ground = indexOf(folder, wish_.ground);
    if (!ground) return;
    const Pose back = parts[*ground].D.inverse();
    for (PartInTwoModes& part : parts) {
      part.D = back * part.D;
      for (Pose& other : part.alternatives) other = back * other;
    }
    tellGround();
  }

  void tellGround() {
    made_.found.push_back(inQuotes(wish_.ground) + " stands still; all else moves against it.");
  }

  void addOneMode(const GivenParts& folder, const std::string& mode) {
    made_.document.modes.push_back({mode, DocumentValues{}, {}, {}, {}});
    made_.found.push_back(counted(folder.parts.size(), "part") + " in one mode, " +
                          inQuotes(mode) + ".");
  }

  Problems addTwoModes(const GivenParts& first, const GivenParts& second) {
    const auto registered = registerAll(first, second, wish_.threads, wish_.monitor);
    if (isCancelled(wish_.monitor)) return {{first.name, "was not read to its end", ""}};
    if (!registered) return registered.problems();
    std::vector<PartInTwoModes> parts;
    for (std::size_t i = 0; i < first.parts.size(); ++i) {
      const Registration& fit = (*registered)[i];
      parts.push_back({first.parts[i].name, &first.parts[i].mesh.mesh, fit.D, fit.alternatives});
      if (fit.residualMm > kToldResidualMm) noteResidual(first.parts[i], fit);
    }
    seeFromGround(first, parts);
    inferAndTell(parts, first.name, second.name == first.name ? second.name + " 2" : second.name);
    return {};
  }

  void noteResidual(const GivenPart& part, const Registration& fit) {
    made_.notes.push_back({label(part),
                           "is the same part in both only to " +
                               numberText(std::round(fit.residualMm * 1e4) / 1e4) + " mm",
                           "its joint can be no better than that"});
  }

  void inferAndTell(const std::vector<PartInTwoModes>& parts, const std::string& firstMode,
                    const std::string& secondMode) {
    const InferredMotion motion = inferJoints(parts, made_.document.requiredGap, wish_.threads);
    addMotion(motion, firstMode, secondMode, made_.document);
    const std::vector<double> misfits =
        misfitsOf(made_.document, parts, displacementsWanted(parts, motion.groups));
    tell({made_.document, motion, parts, misfits});
  }

  void tell(const FoundMotion& found) {
    for (const std::string& sentence : foundSentences(found)) made_.found.push_back(sentence);
    for (const Problem& note : foundNotes(found)) made_.notes.push_back(note);
  }

  /// Where the folders have the parts; of those that fit in several ways, the way that was taken.
  static std::vector<Pose> displacementsWanted(const std::vector<PartInTwoModes>& parts,
                                               const MotionGroups& groups) {
    const Pose back =
        groups.takenOff.empty() ? Pose::Identity() : groups.takenOff.front().inverse();
    std::vector<Pose> wanted;
    for (const PartInTwoModes& part : parts) wanted.push_back(back * part.D);
    for (const MotionGroup& group : groups.groups) {
      for (const std::size_t part : group.parts) {
        if (!parts[part].alternatives.empty()) wanted[part] = group.D;
      }
    }
    return wanted;
  }

  const NewAssemblyWish& wish_;
  const MeshReader& reader_;
  TakenUnit unit_;
  NewAssembly made_;
};

}  // namespace

Outcome<GivenParts> readGivenParts(const std::filesystem::path& source, const MeshReader& reader,
                                   unsigned threads, const PartChoice& choice) {
  if (isSceneName(source) && !std::filesystem::is_directory(source)) {
    return readPartScene(source, reader, choice.monitor);
  }
  return readPartFolder(source, reader, threads, choice);
}

Outcome<NewAssembly> newFromParts(const NewAssemblyWish& wish, const MeshReader& reader) {
  return Maker(wish, reader).make();
}

}  // namespace swingroom
