#pragma once

#include <functional>
#include <memory>

#include "app/session/print/print_known.h"
#include "core/base/work_monitor.h"
#include "core/print/process/process_file.h"
#include "core/print/set/print_set.h"

namespace swingroom {

/// A set to print and what it is of.
struct LoadsOf {
  std::shared_ptr<const void> keeps;  ///< Whatever the two point to lives as long.
  const PrintSubject* subject = nullptr;
  const PrintSet* set = nullptr;
  Problems notes;  ///< What stood in for figures that are not known.
};

/// Called on a worker's thread, once. After a cancel what it returns means nothing.
using LoadsMaker = std::function<LoadsOf(WorkMonitor&)>;

/// The set of a scene, worked out anew.
/// @param read  The tables. If they cannot be read, the built-in ones stand in, which is noted.
/// @param file  How the scene's file is called in notes.
LoadsMaker loadsOfScene(ScenePtr scene, const Outcome<PrintTables>& read, std::string file);

/// The set that the print checks have found already. Not null.
LoadsMaker loadsOfKnown(PrintKnownPtr known);

}  // namespace swingroom
