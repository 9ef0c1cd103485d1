#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/files/loading/load_assembly.h"

namespace swingroom {

/// Where the assembly stands in the file's own numbers: degrees, mm, names.
struct WrittenStanding {
  DocumentValues values;  ///< Of every joint that can be given one: not fixed, following none.
  /// Of parts that can hang in several ways: the first joint of the mount that holds.
  std::map<std::string, std::string> mounts;

  bool operator==(const WrittenStanding&) const = default;
};

/// Rounded to 1e-6 degrees or mm: what is finer comes from turning radians into degrees.
WrittenStanding writtenStanding(const Assembly& assembly, const Configuration& standing);
DocumentValue writtenValue(const Joint& joint, const JointValue& value);

/// A joint that a way leaves elsewhere than its last mode wants it.
struct ShortOf {
  std::string joint;
  DocumentValue at, wanted;
  std::string amount;  ///< "12.5 mm".
};

/// A document's joints, modes and ways without its meshes: what edits of them go by. Ways need not
/// be sound: a step may leave its joints anywhere. Const once made.
class WrittenMotion {
 public:
  /// Fails where joints or modes have mistakes; a way's are not looked at.
  static Outcome<WrittenMotion> of(const AssemblyDocument& document);

  const Assembly& assembly() const { return loaded_.assembly; }
  /// Null: there is no such joint, or it takes no value.
  const Joint* joint(const std::string& name) const;
  /// Values as the file has them, digit for digit. Empty for a mode that is not there.
  WrittenStanding mode(const std::string& name) const;
  /// Where everything stands at the way's start and after each of its steps. A way without steps is
  /// one step.
  std::vector<WrittenStanding> stands(const DocumentSequence& way) const;
  /// What the way's steps leave short of its last mode, in file order of the joints. Mounts apart.
  std::vector<ShortOf> missing(const DocumentSequence& way) const;
  /// Parts that the way leaves on another mount than its last mode wants.
  std::vector<std::string> wronglyMounted(const DocumentSequence& way) const;

  /// Joints that no one wrote, but placements need, as the file would say them.
  std::vector<DocumentJoint> impliedJoints() const;

  bool holds(const std::string& joint, const WrittenStanding& standing) const;
  bool same(const std::string& joint, const DocumentValue& a, const DocumentValue& b) const;
  /// Values of joints that hold in `end` and stand elsewhere than in `start`.
  DocumentValues difference(const WrittenStanding& start, const WrittenStanding& end) const;
  /// `part` (0 to 1) of the way from one to the other, as a step with all joints together goes.
  WrittenStanding between(const WrittenStanding& start, const WrittenStanding& end,
                          double part) const;
  /// "90°", and why a joint cannot stand there; the latter empty: it can.
  std::string text(const std::string& joint, const DocumentValue& value) const;
  std::string complaint(const std::string& joint, const DocumentValue& value) const;
  /// Of the first joint that holds and cannot stand where it does; empty: all can.
  std::string complaint(const WrittenStanding& standing) const;

 private:
  explicit WrittenMotion(const AssemblyDocument& document, LoadedAssembly&& loaded)
      : modes_(document.modes), joints_(document.joints.size()), loaded_(std::move(loaded)) {}
  /// The first joint of the part's mount that has `joint`; empty: none has.
  std::string mountBy(const std::string& part, const std::string& joint) const;
  void replug(const DocumentSequence& way, const DocumentReplug& replug,
              WrittenStanding& standing) const;

  std::vector<DocumentMode> modes_;
  std::size_t joints_;  ///< That the file has.
  LoadedAssembly loaded_;
};

}  // namespace swingroom
