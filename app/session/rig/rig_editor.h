#pragma once

#include <QObject>
#include <map>
#include <set>

#include "app/edits/suggested_edits.h"
#include "app/session/rig/rig_finder.h"

namespace swingroom {

/// What can be taken or left on the page of the rig.
enum class RigKind { pin, joint, contact };

/// One suggestion that is still open, by its place in what the finder found.
struct RigItem {
  RigKind kind = RigKind::joint;
  std::size_t index = 0;   ///< Of the pin, the joint or the contact.
  std::size_t place = 0;   ///< Of a pin's places.
  std::size_t choice = 0;  ///< Of a joint: 0 the best, then its others.
  std::string key;         ///< The same for the same suggestion in another scene.

  bool operator==(const RigItem&) const = default;
};

/// Takes suggestions into the document, or leaves them out for this sitting, and edits the joints
/// that are there. Each is one entry of the undo list.
class RigEditor : public QObject {
  Q_OBJECT

 public:
  RigEditor(Session& session, RigFinder& finder, QObject* parent = nullptr);

  Session& session() const { return session_; }
  RigFinder& finder() const { return finder_; }
  const AssemblyDocument& document() const { return session_.document().document(); }

  /// Open suggestions: pins, joints, contacts, each kind in the finder's order.
  std::vector<RigItem> items() const;
  const JointChoice& choiceOf(const RigItem& item) const;
  /// The joint as it would be written.
  DocumentJoint jointOf(const RigItem& item) const;
  /// Another type or parent for a suggested joint.
  void choose(const RigItem& item, std::size_t choice);

  void accept(const std::vector<RigItem>& items);
  void acceptAll(RigKind kind);
  /// Pins, then, as soon as they stand, all joints, and the contacts that are known by now.
  void acceptEverything();
  bool isAccepting() const { return accepting_; }

  void leaveOut(const RigItem& item);
  std::size_t leftOut() const { return leftOut_.size(); }
  void takeBackLeftOut();

  /// @returns Why it cannot be; none: it is. The joint's name comes by `jointAdded`.
  std::optional<Problem> addJoint(const DocumentJoint& joint);
  /// Type, parent, axis, range, fit and name of a joint that is there, as one edit.
  std::optional<Problem> changeJoint(const std::string& name, const DocumentJoint& wanted);
  void removeJoint(const std::string& name);
  void reverseJoint(const std::string& name);

 Q_SIGNALS:
  /// Other suggestions, or another document.
  void changed();
  void refused(const Problem& problem);
  void told(const QString& sentence);
  void jointAdded(const QString& name);

 private:
  void goOn();
  bool apply(const QString& name, const edits::Edited& edited);
  void applyRemoval(const QString& name, const Outcome<edits::Removal>& removal);
  void addPins(std::vector<RigItem>& items) const;
  void addJoints(std::vector<RigItem>& items) const;
  void addContacts(std::vector<RigItem>& items) const;
  const std::string& partName(PartId part) const;

  Session& session_;
  RigFinder& finder_;
  std::map<std::string, std::string> chosen_;  ///< By a joint's key: "hinge torso".
  std::set<std::string> leftOut_;
  bool accepting_ = false;
};

}  // namespace swingroom
