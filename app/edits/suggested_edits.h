#pragma once

#include "app/edits/rig_edits.h"
#include "core/rigging/contact_suggestion.h"
#include "core/rigging/rig_suggestion.h"

/// What was suggested, taken into a document. Suggestions name parts by their place in the list of
/// parts; `parts` has the names that these had when it was asked.
namespace swingroom::edits {

using PartNames = std::vector<std::string>;
PartNames partNames(const AssemblyDocument& document);

/// As a file has it: degrees, names, numbers rounded to what tells them apart (0.0001 mm).
DocumentJoint writtenJoint(const Joint& joint, const PartNames& parts);
DocumentContact writtenContact(const Contact& contact, const std::vector<Mode>& modes);

/// One place of a pin: the pin part itself if `isItself`, else one more part of the same file.
struct PlacedPin {
  std::string pin;
  bool isItself = false;
  std::string name;
  Pose X_WP = Pose::Identity();
};
Edited placePins(const AssemblyDocument& document, const std::vector<PlacedPin>& pins);

/// All of them, or the first problem. Names that are taken get numbers.
Edited addJoints(const AssemblyDocument& document, const std::vector<DocumentJoint>& joints);

struct PairContact {
  std::string a, b;
  DocumentContact contact;
};
AssemblyDocument addContacts(AssemblyDocument document, const std::vector<PairContact>& contacts);

}  // namespace swingroom::edits
