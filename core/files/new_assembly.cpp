#include "core/files/new_assembly.h"

#include <algorithm>

#include "core/base/parallel.h"
#include "core/files/document_problems.h"
#include "core/files/found_text.h"
#include "core/files/inferred_document.h"
#include "core/files/json_value.h"
#include "core/files/part_folder.h"
#include "core/motion/joint_inference.h"
#include "core/motion/registration.h"

namespace swingroom {
namespace {

constexpr double kToldResidualMm = 0.002;  // Well above what rounding of files makes.

std::vector<std::string> namesMissing(const PartFolder& from, const PartFolder& in) {
  std::vector<std::string> missing;
  for (const FolderPart& part : from.parts) {
    const bool there = std::any_of(in.parts.begin(), in.parts.end(), [&](const FolderPart& other) {
      return other.name == part.name;
    });
    if (!there) missing.push_back(part.file.filename().string());
  }
  return missing;
}

Problems differentParts(const PartFolder& first, const PartFolder& second) {
  Problems problems;
  const auto tell = [&](const PartFolder& has, const PartFolder& lacks) {
    const std::vector<std::string> missing = namesMissing(has, lacks);
    if (missing.empty()) return;
    problems.push_back({lacks.parts.front().file.parent_path().string(),
                        "lacks " + listed(missing) + ", which the other folder has",
                        "both folders must hold the same parts under the same names"});
  };
  tell(first, second);
  tell(second, first);
  return problems;
}

/// Each part's displacement, or everything that is wrong with the parts.
Outcome<std::vector<Registration>> registerAll(const PartFolder& first, const PartFolder& second,
                                               unsigned threads, const WorkMonitor* monitor) {
  std::vector<Registration> registered(first.parts.size());
  std::vector<Problems> problems(first.parts.size());
  parallelFor(first.parts.size(), threads, [&](std::size_t i) {
    if (isCancelled(monitor)) return;
    const FolderPart& part = first.parts[i];
    const auto outcome =
        registerPart(part.file.filename().string(), part.mesh.mesh, second.parts[i].mesh.mesh);
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

void noteFolder(const PartFolder& folder, Problems& notes) {
  if (folder.leftOut.empty()) return;
  notes.push_back({folder.parts.front().file.parent_path().string(),
                   "left out what is no mesh file: " + listed(folder.leftOut), ""});
}

std::string unitSentence(const PartFolder& folder, double mmPerUnit) {
  const auto assumed = std::count_if(folder.parts.begin(), folder.parts.end(),
                                     [](const FolderPart& part) { return part.mesh.unitAssumed; });
  if (assumed == 0) return "All files say their unit.";
  Eigen::AlignedBox3d box;
  for (const FolderPart& part : folder.parts) box.extend(boundsOf(part.mesh.mesh));
  return "One unit of the " + counted(static_cast<std::size_t>(assumed), "file") +
         " without a unit is taken as " + numberText(mmPerUnit) +
         " mm (--unit): all together are " +
         numberText(std::round(box.sizes().maxCoeff() * 10) / 10) + " mm at the longest.";
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
    Outcome<PartFolder> first = read(wish_.folder);
    if (!first) return first.problems();
    made_.document.name = nameFor(wish_.file);
    made_.document.requiredGap = wish_.requiredGapMm;
    if (!wish_.ground.empty() && !indexOf(*first, wish_.ground)) return noSuchGround(*first);
    made_.document.parts = documentParts(*first, wish_.file);
    made_.found.push_back(unitSentence(*first, wish_.mmPerUnit));
    noteFolder(*first, made_.notes);
    if (!wish_.otherFolder) {
      addOneMode(*first);
      return std::move(made_);
    }
    Outcome<PartFolder> second = read(*wish_.otherFolder);
    if (!second) return second.problems();
    noteFolder(*second, made_.notes);
    Problems problems = addTwoModes(*first, *second);
    if (!problems.empty()) return problems;
    return std::move(made_);
  }

 private:
  Outcome<PartFolder> read(const std::filesystem::path& folder) const {
    return readPartFolder(folder, wish_.mmPerUnit, reader_, wish_.threads,
                          {wish_.only, wish_.monitor});
  }

  static std::optional<std::size_t> indexOf(const PartFolder& folder, const std::string& part) {
    for (std::size_t i = 0; i < folder.parts.size(); ++i) {
      if (folder.parts[i].name == part) return i;
    }
    return std::nullopt;
  }

  Problem noSuchGround(const PartFolder& folder) const {
    std::vector<std::string> names;
    for (const FolderPart& part : folder.parts) names.push_back(part.name);
    return {wish_.folder.string(), "has no part named " + inQuotes(wish_.ground) + " to stand still",
            "its parts are " + listed(names)};
  }

  /// All motion as it is seen from the ground part.
  void seeFromGround(const PartFolder& folder, std::vector<PartInTwoModes>& parts) {
    const auto ground = indexOf(folder, wish_.ground);
    if (!ground) return;
    const Pose back = parts[*ground].D.inverse();
    for (PartInTwoModes& part : parts) {
      part.D = back * part.D;
      for (Pose& other : part.alternatives) other = back * other;
    }
    made_.found.push_back(inQuotes(wish_.ground) + " stands still; all else moves against it.");
  }

  void addOneMode(const PartFolder& folder) {
    made_.document.modes.push_back({folder.name, DocumentValues{}, {}, {}, {}});
    made_.found.push_back(counted(folder.parts.size(), "part") + " in one mode, " +
                          inQuotes(folder.name) + ".");
    made_.found.push_back(
        "One mode does not tell how parts move: add joints to the file, or give a second folder "
        "with "
        "the same parts in another mode.");
  }

  Problems addTwoModes(const PartFolder& first, const PartFolder& second) {
    Problems problems = differentParts(first, second);
    if (!problems.empty()) return problems;
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
    addMotionOf(parts, first.name, second.name == first.name ? second.name + " 2" : second.name);
    return {};
  }

  void noteResidual(const FolderPart& part, const Registration& fit) {
    made_.notes.push_back({part.file.filename().string(),
                           "is the same part in both folders only to " +
                               numberText(std::round(fit.residualMm * 1e4) / 1e4) + " mm",
                           "its joint can be no better than that"});
  }

  void addMotionOf(const std::vector<PartInTwoModes>& parts, const std::string& firstMode,
                   const std::string& secondMode) {
    const InferredMotion motion = inferJoints(parts, made_.document.requiredGap, wish_.threads);
    addMotion(motion, firstMode, secondMode, made_.document);
    const std::vector<double> misfits =
        misfitsOf(made_.document, parts, displacementsWanted(parts, motion.groups));
    const FoundMotion found{made_.document, motion, parts, misfits};
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
  NewAssembly made_;
};

}  // namespace

Outcome<NewAssembly> newAssembly(const NewAssemblyWish& wish, const MeshReader& reader) {
  return Maker(wish, reader).make();
}

}  // namespace swingroom
