#pragma once

#include <optional>

#include "app/edits/edit_names.h"

/// Edits of one part's properties.
namespace swingroom::edits {

/// In every place that names it: joints, modes, steps, pairs, variants, and the names that joints
/// get which no one wrote.
Edited renamePart(const AssemblyDocument& document, const std::string& name,
                  const std::string& wanted);

/// What is said of a part beside its mesh and its place.
struct PartProperties {
  PartKind kind = PartKind::printed;
  std::string material;
  int count = 1;
  bool clear = false;  ///< See-through.
  std::string stage;   ///< In use.
};
PartProperties propertiesOf(const DocumentPart& part);

/// Sets what differs; the rest of the part stays as it is written.
/// Refuses a count below 1 and a stage that the part does not have.
Edited setProperties(const AssemblyDocument& document, const std::string& name,
                     const PartProperties& wanted);

}  // namespace swingroom::edits
