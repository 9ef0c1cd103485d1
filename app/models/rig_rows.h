#pragma once

#include <QStringList>
#include <vector>

#include "app/session/rig/rig_editor.h"

namespace swingroom {

/// Where a joint, a pin or a contact is, everything at home. Its carrier takes it along.
struct RigPlace {
  JointType type = JointType::fixed;
  Vector3d through = Vector3d::Zero(), along = Vector3d::UnitZ();
  std::vector<JointZone> zones;
  std::optional<PartId> carrier;  ///< None: the ground.
};

/// One row of the page of the rig: a suggestion, or a joint that is there.
struct RigRow {
  QString title, fact, reason;
  QStringList choices;  ///< A suggested joint's ways to hang; fewer than two: no choice.
  int choice = 0;
  std::vector<PartId> parts;  ///< Of the finder's scene; for a written joint of the session's.
  std::optional<RigItem> item;  ///< None: it is written.
  std::string joint;            ///< The written joint's name.

  bool operator==(const RigRow&) const = default;
};

/// A group of rows under one heading.
struct RigGroup {
  QString heading, acceptAll;  ///< The latter empty: nothing to accept.
  RigKind kind = RigKind::joint;
  bool isWritten = false;
  std::vector<RigRow> rows;

  bool operator==(const RigGroup&) const = default;
};

/// Pins to place, joints, contacts, and the joints that are there; without empty groups.
std::vector<RigGroup> rigGroups(const RigEditor& editor);

/// What the page says of itself above its rows: what is being looked for, or that nothing is open.
QString rigSentence(const RigEditor& editor);

/// Where the row's joint or pin is; none: it has no place of its own.
std::optional<RigPlace> placeOf(const RigEditor& editor, const RigRow& row);

/// "hinge", "slide", "ball", "fixed".
QString typeWord(JointType type);

}  // namespace swingroom
