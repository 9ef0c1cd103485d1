#include "core/rigging/contact_suggestion.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "core/assembly/part_tree.h"
#include "core/base/parallel.h"
#include "core/rigging/facing_area.h"
#include "core/rigging/rig_words.h"
#include "core/sweep/contacts.h"
#include "core/sweep/plan.h"

namespace swingroom {
namespace {

constexpr double kLeastFaceMm2 = 1;
constexpr double kAtEnd = 1e-9;  // Of an instant.

double roundedUp(double mm) {
  return std::ceil(mm * 20 - 1e-6) / 20;
}
double roundedDown(double mm) {
  return std::floor(mm * 20 + 1e-6) / 20;
}

/// The findings of one pair, in all ways.
struct PairFindings {
  PartId a, b;
  std::vector<std::pair<std::size_t, const PairResult*>> results;  ///< With their ways.
};

/// One end of a way at which something was found.
struct SeenMode {
  ModeId mode;
  std::size_t way = 0;
  double instant = 0;
  std::optional<Vector3d> at_W;
};

class PairSuggester {
 public:
  PairSuggester(const Assembly& assembly, const std::vector<Mode>& modes,
                const std::vector<Sequence>& ways, const AssemblyGeometry& geometry,
                const PairFindings& pair)
      : assembly_(assembly), modes_(modes), ways_(ways), geometry_(geometry), pair_(pair) {}

  std::vector<SuggestedContact> all() {
    for (const SeenMode& seen : seenModes()) addForMode(seen);
    for (const auto& [way, result] : pair_.results) {
      for (const Stretch& stretch : result->stretches) addForPassing(way, stretch);
    }
    std::vector<SuggestedContact> found;
    for (auto* one : {&grip_, &rest_, &snap_}) {
      if (*one) found.push_back(std::move(**one));
    }
    return found;
  }

 private:
  bool isCovered(ModeId mode) const {
    const PairRule* rule = assembly_.ruleFor(pair_.a, pair_.b);
    if (!rule) return false;
    return std::any_of(rule->contacts.begin(), rule->contacts.end(), [&](const Contact& contact) {
      return std::find(contact.modes.begin(), contact.modes.end(), mode) != contact.modes.end();
    });
  }

  bool isCovered(const std::string& step) const {
    const PairRule* rule = assembly_.ruleFor(pair_.a, pair_.b);
    if (!rule) return false;
    return std::any_of(rule->contacts.begin(), rule->contacts.end(), [&](const Contact& contact) {
      return std::find(contact.steps.begin(), contact.steps.end(), step) != contact.steps.end();
    });
  }

  /// Modes at an end of a way that a stretch of clash or tightness reaches; each once.
  std::vector<SeenMode> seenModes() const {
    std::map<ModeId, SeenMode> seen;
    for (const auto& [way, result] : pair_.results) {
      for (const Stretch& stretch : result->stretches) {
        if (stretch.verdict == Verdict::unproven || !stretch.combination.empty()) continue;
        if (stretch.from <= kAtEnd) {
          seen.try_emplace(ways_[way].from, SeenMode{ways_[way].from, way, 0, stretch.point_W});
        }
        if (stretch.to >= 1 - kAtEnd) {
          seen.try_emplace(ways_[way].to, SeenMode{ways_[way].to, way, 1, stretch.point_W});
        }
      }
    }
    std::vector<SeenMode> list;
    for (const auto& [mode, what] : seen) {
      if (!isCovered(mode)) list.push_back(what);
    }
    return list;
  }

  void addForMode(const SeenMode& seen) {
    const Configuration& standing = modes_[seen.mode.index].configuration;
    const Pose X_AB = PartTree(assembly_, standing).relativePose(pair_.a, pair_.b);
    const JudgedSurfaces surfaces =
        judgedSurfaces(assembly_, standing, geometry_, pair_.a, pair_.b);
    const ContactReading reading = readContact(surfaces, geometry_[pair_.a.index]->solid,
                                               geometry_[pair_.b.index]->solid, X_AB);
    if (!reading.gapMm) return;
    const double depth = reading.depthMm.value_or(0);
    if (depth > assembly_.resolutionMm()) {
      if (depth <= kMostMeantOverlapMm) addGrip(seen, depth);
      return;
    }
    if (*reading.gapMm > kMostRestGapMm) return;
    const double within = *reading.gapMm + 0.1;
    const double face = facingArea(*surfaces.a->mesh, surfaces.b->tree, X_AB, within);
    if (face >= kLeastFaceMm2) addRest(seen, *reading.gapMm, face);
  }

  SuggestedContact& contactOf(std::optional<SuggestedContact>& one, ContactKind kind,
                              std::size_t way, double instant,
                              const std::optional<Vector3d>& at_W) const {
    if (!one) {
      one.emplace();
      one->a = pair_.a;
      one->b = pair_.b;
      one->contact.kind = kind;
      one->at_W = at_W;
      one->way = way;
      one->instant = instant;
    }
    return *one;
  }

  static void widen(std::optional<Span>& span, double min, double max) {
    span = span ? Span{std::min(span->min, min), std::max(span->max, max)} : Span{min, max};
  }

  void addGrip(const SeenMode& seen, double depth) {
    SuggestedContact& grip = contactOf(grip_, ContactKind::grip, seen.way, seen.instant, seen.at_W);
    grip.contact.modes.push_back(seen.mode);
    widen(grip.contact.overlapMm, roundedDown(depth / 2), roundedUp(2 * depth));
    grip.contact.reason = "pressed together";
    addSeen(grip, "overlap " + rig::sized(depth) + " mm in " + nameOf(seen.mode));
  }

  void addRest(const SeenMode& seen, double gap, double face) {
    SuggestedContact& rest = contactOf(rest_, ContactKind::rest, seen.way, seen.instant, seen.at_W);
    rest.contact.modes.push_back(seen.mode);
    widen(rest.contact.gapMm, 0, std::max(kMostRestGapMm, roundedUp(2 * gap)));
    rest.contact.reason = "faces meet";
    char area[32];
    std::snprintf(area, sizeof area, "%.0f mm²", face);
    const std::string meet =
        gap < 0.005 ? std::string("faces touch") : "faces " + rig::sized(gap) + " mm apart";
    addSeen(rest, meet + " (" + area + ") in " + nameOf(seen.mode));
  }

  /// A clash that the modes' contacts do not let pass.
  void addForPassing(std::size_t way, const Stretch& stretch) {
    if (stretch.verdict != Verdict::clash || !stretch.depthMm) return;
    const double depth = *stretch.depthMm;
    if (depth > kMostMeantOverlapMm || isGripped(way, stretch)) return;
    std::vector<std::string> steps = stepsOf(way, stretch);
    std::erase_if(steps, [&](const std::string& step) { return isCovered(step); });
    if (steps.empty()) return;
    const double instant = stretch.deepestAt.value_or(stretch.from);
    SuggestedContact& snap = contactOf(snap_, ContactKind::snap, way, instant, stretch.point_W);
    for (const std::string& step : steps) {
      auto& known = snap.contact.steps;
      if (std::find(known.begin(), known.end(), step) == known.end()) known.push_back(step);
    }
    widen(snap.contact.overlapMm, 0, roundedUp(1.2 * depth));
    snap.contact.reason = "passes with a snap";
    addSeen(snap, "overlap up to " + rig::sized(depth) + " mm while passing in step " +
                      steps.front() + ", none before and after");
  }

  /// The stretch holds a mode in which the pair grips, and is no deeper than that may be.
  bool isGripped(std::size_t way, const Stretch& stretch) const {
    const auto gripsIn = [&](ModeId mode) {
      if (isCovered(mode)) return true;
      if (!grip_) return false;
      const auto& in = grip_->contact.modes;
      return std::find(in.begin(), in.end(), mode) != in.end() &&
             *stretch.depthMm <= grip_->contact.overlapMm->max;
    };
    return (stretch.from <= kAtEnd && gripsIn(ways_[way].from)) ||
           (stretch.to >= 1 - kAtEnd && gripsIn(ways_[way].to));
  }

  /// Steps in which the pair moves and that the stretch reaches into.
  std::vector<std::string> stepsOf(std::size_t way, const Stretch& stretch) const {
    const Sequence& sequence = ways_[way];
    const double share = 1.0 / static_cast<double>(sequence.steps.size());
    std::vector<std::string> names;
    for (std::size_t i = 0; i < sequence.steps.size(); ++i) {
      const double from = static_cast<double>(i) * share, to = from + share;
      if (std::min(to, stretch.to) - std::max(from, stretch.from) < 1e-6 * share) continue;
      if (moves(sequence.steps[i])) names.push_back(sequence.steps[i].name);
    }
    return names;
  }

  bool moves(const Step& step) const {
    const Pose before = PartTree(assembly_, step.start).relativePose(pair_.a, pair_.b);
    for (const double part : {0.5, 1.0}) {
      const Configuration standing = configurationIn(assembly_, step, part);
      const Pose X = PartTree(assembly_, standing).relativePose(pair_.a, pair_.b);
      if (!X.isApprox(before, 1e-12)) return true;
    }
    return false;
  }

  const std::string& nameOf(ModeId mode) const { return modes_[mode.index].name; }

  static void addSeen(SuggestedContact& contact, const std::string& what) {
    contact.reason += (contact.reason.empty() ? "" : "; ") + what;
  }

  const Assembly& assembly_;
  const std::vector<Mode>& modes_;
  const std::vector<Sequence>& ways_;
  const AssemblyGeometry& geometry_;
  const PairFindings& pair_;
  std::optional<SuggestedContact> grip_, rest_, snap_;
};

std::vector<PairFindings> findingsOf(const std::vector<SequenceResult>& results) {
  std::map<std::pair<PartId, PartId>, PairFindings> byPair;
  for (std::size_t way = 0; way < results.size(); ++way) {
    for (const PairResult& pair : results[way].pairs) {
      if (pair.verdict != Verdict::clash && pair.verdict != Verdict::tight) continue;
      PairFindings& findings = byPair[{pair.a, pair.b}];
      findings.a = pair.a;
      findings.b = pair.b;
      findings.results.emplace_back(way, &pair);
    }
  }
  std::vector<PairFindings> list;
  for (auto& [ids, findings] : byPair) list.push_back(std::move(findings));
  return list;
}

}  // namespace

std::vector<SuggestedContact> suggestContacts(const Assembly& assembly,
                                              const std::vector<Mode>& modes,
                                              const std::vector<Sequence>& ways,
                                              const std::vector<SequenceResult>& results,
                                              const AssemblyGeometry& geometry, unsigned threads) {
  const std::vector<PairFindings> pairs = findingsOf(results);
  std::vector<std::vector<SuggestedContact>> found(pairs.size());
  parallelFor(pairs.size(), threads, [&](std::size_t i) {
    const bool known = geometry.at(pairs[i].a.index) && geometry.at(pairs[i].b.index);
    if (known) found[i] = PairSuggester(assembly, modes, ways, geometry, pairs[i]).all();
  });
  std::vector<SuggestedContact> all;
  for (auto& of : found) {
    all.insert(all.end(), std::make_move_iterator(of.begin()), std::make_move_iterator(of.end()));
  }
  return all;
}

}  // namespace swingroom
