#pragma once

#include <functional>
#include <memory>

#include "app/session/scene.h"
#include "core/base/work_monitor.h"
#include "core/print/process/process_file.h"
#include "core/print/set/print_set.h"

namespace swingroom {

/// A set to print and what it is of.
struct LoadsOf {
  std::shared_ptr<const void> keeps;  ///< Whatever the two point to lives as long.
  const PrintSubject* subject = nullptr;
  const PrintSet* set = nullptr;
};

/// Called on a worker's thread, once. After a cancel what it returns means nothing.
using LoadsMaker = std::function<LoadsOf(WorkMonitor&)>;

/// The set of a scene, worked out anew.
/// @param file  How the scene's file is called in notes.
LoadsMaker loadsOfScene(ScenePtr scene, PrintTables tables, std::string file);

}  // namespace swingroom
