#pragma once

#include <memory>

#include "app/session/scene.h"
#include "core/measure/print_asked.h"
#include "core/print/print_check.h"

namespace swingroom {

/// What the print checks found, and what they were asked of.
struct PrintKnown {
  ScenePtr scene;  ///< By which ids mean what. Not null.
  PrintAsked asked;
  PrintResult result;
};
using PrintKnownPtr = std::shared_ptr<const PrintKnown>;

/// What to ask of a scene; it has to outlive the answer, as have the results, which may be null.
PrintSubject subjectOf(const Scene& scene, const PrintAsked& asked, const std::vector<SequenceResult>* results);

}  // namespace swingroom
