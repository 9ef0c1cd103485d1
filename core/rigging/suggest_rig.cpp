#include "core/rigging/joint_tree.h"
#include "core/rigging/pin_places.h"
#include "core/rigging/rig_suggestion.h"
#include "core/rigging/zone_suggestion.h"

namespace swingroom {

RigSuggestion suggestRig(const RigQuestion& question) {
  RigSuggestion suggestion;
  const std::vector<JointEdge> edges =
      jointEdgesOf(question.parts, question.requiredGapMm, question.threads, question.monitor);
  if (isCancelled(question.monitor)) return suggestion;
  suggestion.zones = zonesFor(question.joints, edges);
  suggestion.pins = pinPlacesOf(question.parts);
  suggestion.ground = question.ground ? question.ground : groundGuess(question, edges);
  if (!suggestion.ground) return suggestion;
  suggestion.joints = hangAll(question, edges, suggestion.pins, suggestion.ground->index);
  return suggestion;
}

}  // namespace swingroom
