#include "app/command/new_suggest.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <utility>

#include "app/edits/joint_edits.h"
#include "app/edits/suggested_edits.h"
#include "core/files/loading/load_assembly.h"
#include "core/rigging/rig_suggestion.h"

namespace swingroom {
namespace {

/// Lines of words in columns.
class Table {
 public:
  void add(std::vector<std::string> row) {
    widths_.resize(std::max(widths_.size(), row.size()));
    for (std::size_t i = 0; i < row.size(); ++i) widths_[i] = std::max(widths_[i], row[i].size());
    rows_.push_back(std::move(row));
  }

  std::vector<std::string> lines() const {
    std::vector<std::string> lines;
    for (const auto& row : rows_) {
      std::string line = " ";
      for (std::size_t i = 0; i < row.size(); ++i) {
        line += " " + row[i];
        if (i + 1 < row.size()) line += std::string(widths_[i] - row[i].size() + 1, ' ');
      }
      lines.push_back(line);
    }
    return lines;
  }

 private:
  std::vector<std::vector<std::string>> rows_;
  std::vector<std::size_t> widths_;
};

std::string wordFor(JointType type) {
  switch (type) {
    case JointType::hinge:
      return "hinge";
    case JointType::slide:
      return "slide";
    case JointType::ball:
      return "ball";
    case JointType::fixed:
      break;
  }
  return "fixed";
}

std::string countedOf(std::size_t count, const std::string& what) {
  return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
}

class Accepting {
 public:
  Accepting(const SuggestWish& wish, const NewAssemblyWish& source, NewAssembly& made)
      : wish_(wish), source_(source), made_(made), document_(made.document) {}

  Problems accept() {
    if (wish_.pins && !acceptPins()) return problems_;
    if ((wish_.joints || wish_.zones) && !acceptJoints()) return problems_;
    made_.document = std::move(document_);
    made_.found.insert(made_.found.end(), told_.begin(), told_.end());
    return {};
  }

 private:
  /// What the parts of the document as it is now suggest; none: there are problems.
  std::optional<RigSuggestion> suggested() {
    const MeshReader reader = MeshReader::besideThisProgram();
    MeshSource meshes;
    meshes.reader = &reader;
    meshes.threads = source_.threads;
    meshes.memory = &memory_;
    const auto loaded = loadAssembly(document_, source_.file, meshes);
    if (!loaded) {
      problems_ = loaded.problems();
      return std::nullopt;
    }
    RigQuestion question;
    question.parts = parts_ = rigPartsOf(loaded->assembly, source_.threads, parts_);
    question.joints = joints_ = loaded->assembly.joints();
    if (!source_.ground.empty()) question.ground = loaded->assembly.findPart(source_.ground);
    question.requiredGapMm = document_.requiredGap;
    question.threads = source_.threads;
    return suggestRig(question);
  }

  const std::string& nameOf(PartId part) const { return document_.parts.at(part.index).name; }

  bool take(const edits::Edited& edited) {
    if (!edited)
      problems_ = edited.problems();
    else
      document_ = *edited;
    return edited.ok();
  }

  void tell(const std::string& title, const Table& table) {
    told_.push_back(title);
    for (const std::string& line : table.lines()) told_.push_back(line);
  }

  bool acceptPins() {
    const auto found = suggested();
    if (!found) return false;
    std::vector<edits::PlacedPin> pins;
    Table table;
    for (const SuggestedPin& pin : found->pins) {
      for (std::size_t i = 0; i < pin.places.size(); ++i) {
        const PinPlace& place = pin.places[i];
        const bool isItself = pin.isFree && i == 0;
        pins.push_back({nameOf(pin.pin), isItself, place.name, place.X_WP});
        table.add({place.name, place.reason});
      }
    }
    if (pins.empty()) {
      told_.push_back("No empty holes for a pin were found.");
      return true;
    }
    tell(countedOf(pins.size(), "pin") + " placed:", table);
    return take(edits::placePins(document_, pins));
  }

  bool acceptJoints() {
    const auto found = suggested();
    if (!found) return false;
    if (wish_.zones && !acceptZones(*found)) return false;
    if (!wish_.joints) return true;
    const edits::PartNames names = edits::partNames(document_);
    std::vector<DocumentJoint> joints;
    Table table;
    for (const SuggestedJoint& suggestion : found->joints) {
      const JointChoice& best = suggestion.best;
      joints.push_back(edits::writtenJoint(best.joint, names));
      if (!wish_.zones) {
        joints.back().zones.clear();
        joints.back().fit.reset();
      }
      table.add({wordFor(best.joint.type), best.joint.name,
                 nameOf(*best.joint.parent) + " > " + nameOf(best.joint.child), best.reason});
    }
    if (joints.empty()) {
      told_.push_back("No joints were suggested by how the parts stand.");
      return true;
    }
    const std::string on = found->ground ? ", all on " + nameOf(*found->ground) : "";
    tell(countedOf(joints.size(), "joint") + " accepted" + on + ":", table);
    if (!take(edits::addJoints(document_, joints))) return false;
    tellLoose(*found);
    return true;
  }

  /// What hangs nowhere.
  void tellLoose(const RigSuggestion& found) {
    std::string names;
    std::size_t count = 0;
    for (const DocumentPart& part : document_.parts) {
      const bool hangs = std::any_of(document_.joints.begin(), document_.joints.end(),
                                     [&](const DocumentJoint& j) { return j.child == part.name; });
      if (hangs || (found.ground && nameOf(*found.ground) == part.name)) continue;
      names += (names.empty() ? "" : ", ") + part.name;
      ++count;
    }
    if (count > 0) told_.push_back(countedOf(count, "part") + " without a sign of a joint: " + names);
  }

  bool acceptZones(const RigSuggestion& found) {
    Table table;
    for (const SuggestedZones& suggestion : found.zones) {
      const Joint& joint = joints_.at(suggestion.joint.index);
      Joint with = joint;
      with.zones = suggestion.zones;
      if (suggestion.fitMm) with.fitMm = suggestion.fitMm;
      const DocumentJoint written = edits::writtenJoint(with, edits::partNames(document_));
      for (DocumentJoint& there : document_.joints) {
        if (there.name != joint.name) continue;
        there.zones = written.zones;
        if (suggestion.fitMm) there.fit = written.fit;
      }
      table.add({joint.name, suggestion.reason});
    }
    if (!found.zones.empty()) {
      tell(countedOf(found.zones.size(), "joint") + " given zones:", table);
    }
    return true;
  }

  const SuggestWish& wish_;
  const NewAssemblyWish& source_;
  NewAssembly& made_;
  AssemblyDocument document_;
  MeshMemory memory_;
  std::vector<RigPart> parts_;
  std::vector<Joint> joints_;
  std::vector<std::string> told_;
  Problems problems_;
};

}  // namespace

void addSuggestOption(CLI::App& make, SuggestWish& wish) {
  make.add_option_function<std::vector<std::string>>(
          "--suggest",
          [&wish](const std::vector<std::string>& kinds) {
            const auto wants = [&](const char* kind) {
              return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
            };
            wish = {wants("pins"), wants("joints"), wants("zones")};
          },
          "Accept what the parts suggest as they stand: pins (into empty holes), joints, zones")
      ->delimiter(',')
      ->expected(1, 3)
      ->check(CLI::IsMember({"pins", "joints", "zones"}));
}

Problems acceptSuggestions(const SuggestWish& wish, const NewAssemblyWish& source,
                           NewAssembly& made) {
  if (!wish.any()) return {};
  return Accepting(wish, source, made).accept();
}

}  // namespace swingroom
