#include "core/files/scenes/keyed_parts.h"

#include <algorithm>
#include <cmath>
#include <system_error>

#include "core/files/document/found_text.h"
#include "core/files/document/inferred_document.h"
#include "core/files/document/json_value.h"
#include "core/files/scenes/keyed_steps.h"

namespace swingroom {
namespace {

constexpr double kToldStationMm = 0.02;

std::string sizedMm(double mm) {
  return numberText(std::max(1e-4, std::round(mm * 1e4) / 1e4)) + " mm";
}

}  // namespace

std::optional<Problem> keyedProblem(const NewAssemblyWish& wish) {
  std::error_code ignored;
  if (wish.other) {
    return Problem{wish.other->string(), "is a second mode beside those that are keyed in " +
                                             wish.source.filename().string(),
                   "give either keyed modes or a second file"};
  }
  if (std::filesystem::is_directory(wish.source, ignored)) {
    return Problem{wish.source.string(), "is a folder, in which nothing is keyed",
                   "give the folder of the other mode, or one file with an animation"};
  }
  return std::nullopt;
}

std::vector<PartInTwoModes> keyedParts(const GivenParts& first, const Displacements& D) {
  std::vector<PartInTwoModes> parts;
  for (std::size_t i = 0; i < first.parts.size(); ++i) {
    PartInTwoModes part{first.parts[i].name, &first.parts[i].mesh.mesh, D.back().at(i), {}};
    for (std::size_t k = 0; k + 1 < D.size(); ++k) part.onTheWay.push_back(D[k].at(i));
    parts.push_back(std::move(part));
  }
  return parts;
}

bool nothingMoves(const Displacements& D) {
  return std::all_of(D.begin(), D.end(), [](const std::vector<Pose>& station) {
    return std::all_of(station.begin(), station.end(), [](const Pose& pose) {
      return pose.matrix().isApprox(Pose::Identity().matrix(), 1e-12);
    });
  });
}

void seeFrom(std::size_t ground, Displacements& D) {
  for (std::vector<Pose>& station : D) {
    const Pose back = station.at(ground).inverse();
    for (Pose& pose : station) pose = back * pose;
  }
}

KeptMotion keepMotion(const KeyedMotion& motion, const std::vector<PartInTwoModes>& parts,
                      const Displacements& D, const InferredMotion& inferred,
                      AssemblyDocument& document) {
  document.joints = documentJoints(inferred, document.parts);
  const std::vector<double> misfits = addKeyedWay(motion, parts, D, document);
  addPairs(inferred, document);
  KeptMotion kept;
  std::size_t steps = 0;
  for (const DocumentSequence& sequence : document.sequences) steps += sequence.steps.size();
  kept.found.push_back(counted(motion.stations.size(), "keyed time") + " make " +
                       counted(document.modes.size(), "mode") + " and " + counted(steps, "step") +
                       "; at each every part is within " +
                       sizedMm(*std::max_element(misfits.begin(), misfits.end())) +
                       " of where the file has it.");
  for (std::size_t s = 0; s < misfits.size(); ++s) {
    if (misfits[s] <= kToldStationMm) continue;
    kept.notes.push_back({"at " + secondsText(motion.stations[s + 1].timeS),
                          "a part is " + sizedMm(misfits[s]) + " from where the file has it",
                          "it moves in more ways than the joints that were found allow: add the one "
                          "that is missing"});
  }
  return kept;
}

}  // namespace swingroom
