#include "core/sweep/plan.h"

#include <algorithm>
#include <limits>
#include <map>

#include "core/sweep/surfaces.h"

namespace swingroom {
namespace {

/// One phase and what links or excuses the pair in it.
struct PhaseFacts {
  Phase phase;
  std::size_t step = 0;
  bool first = false;  ///< It starts with the pair standing as in the mode that the sequence starts from.
  bool last = false;   ///< It ends with the pair standing as in the mode that the sequence ends in.
  std::vector<JointId> links;  ///< Joints of the mount, if any, by which one part hangs on the other.
};

std::vector<const Joint*> withZones(const Assembly& assembly, const std::vector<JointId>& links) {
  std::vector<const Joint*> zoned;
  for (const JointId id : links) {
    if (!assembly.joint(id).zones.empty()) zoned.push_back(&assembly.joint(id));
  }
  return zoned;
}

class Planner {
 public:
  Planner(const Assembly& assembly, const Sequence& sequence,
          const AssemblyGeometry& geometry, PartId a, PartId b, double resolutionMm)
      : assembly_(assembly),
        sequence_(sequence),
        a_(a),
        b_(b),
        wholeA_(geometry.at(a.index)->surface),
        wholeB_(geometry.at(b.index)->surface),
        resolutionMm_(resolutionMm),
        requiredMm_(assembly.requiredGapMm(a, b)) {}

  PairPlan plan() {
    addPhases();
    std::map<std::vector<JointId>, std::vector<PhaseFacts>> byLinks;
    for (const PhaseFacts& facts : facts_) byLinks[facts.links].push_back(facts);
    for (const auto& [links, facts] : byLinks) planLinked(links, facts);
    return std::move(plan_);
  }

 private:
  void addPhases() {
    const std::size_t count = sequence_.steps.size();
    for (std::size_t s = 0; s < count; ++s) {
      const Step& step = sequence_.steps[s];
      const double from = static_cast<double>(s) / static_cast<double>(count);
      const double to = static_cast<double>(s + 1) / static_cast<double>(count);
      addPhase(step, s, from, to);
    }
    const Step& last = sequence_.steps.back();
    if (last.order == StepOrder::replug) {
      addPhase({last.name, StepOrder::together, last.end, last.end}, count - 1, 1, 1);
    }
    markEnds();
  }

  /// While a pair stands still, it stands as in the mode before or after.
  void markEnds() {
    const std::size_t count = facts_.size();
    facts_.front().first = facts_.back().last = true;
    for (std::size_t i = 1; i < count && staysStill(i - 1) && goesOn(i - 1); ++i) facts_[i].first = true;
    for (std::size_t i = count - 1; i > 0 && staysStill(i) && goesOn(i - 1); --i) facts_[i - 1].last = true;
  }
  bool staysStill(std::size_t i) const { return plan_.motions[i]->isConstant(); }
  /// Phase i + 1 starts as i ends: no hand took a part from one mount to another.
  bool goesOn(std::size_t i) const {
    return plan_.motions[i]->at(1).X_AB.isApprox(plan_.motions[i + 1]->at(0).X_AB, 1e-12);
  }

  void addPhase(const Step& step, std::size_t index, double from, double to) {
    plan_.motions.push_back(std::make_unique<RelativeMotion>(assembly_, step, a_, b_));
    const bool anyOrder = step.order == StepOrder::free && plan_.motions.back()->freedoms() > 1;
    plan_.phases.push_back({plan_.motions.back().get(), from, to, anyOrder});
    facts_.push_back({plan_.phases.back(), index, false, false, linksBetween(assembly_, step.start, a_, b_)});
  }

  void planLinked(const std::vector<JointId>& links, const std::vector<PhaseFacts>& facts) {
    const bool fixed = !links.empty() && std::all_of(links.begin(), links.end(), [&](JointId id) {
      return assembly_.joint(id).type == JointType::fixed;
    });
    const std::vector<const Joint*> zoned = withZones(assembly_, links);
    for (const JointId id : links) {
      if (assembly_.joint(id).zones.empty()) continue;
      plan_.zoneJoints.push_back(id);
      if (!plan_.fitMm) plan_.fitMm = assembly_.joint(id).fitMm;
    }
    CutPart cutA{nullptr, wholeA_, 0}, cutB{nullptr, wholeB_, 0};
    if (!zoned.empty()) {
      cutA = cutAtZones(wholeA_->mesh, assembly_.part(a_).X_WP_home, zoned);
      cutB = cutAtZones(wholeB_->mesh, assembly_.part(b_).X_WP_home, zoned);
      plan_.excusedAreaMm2 += cutA.insideAreaMm2 + cutB.insideAreaMm2;
      planZone(cutA, cutB, phasesOf(facts));
    }
    if (fixed) return planFixed(links, facts, cutA.outside, cutB.outside);
    std::vector<Phase> plain;
    for (const PhaseFacts& fact : facts) {
      const auto contacts = contactsIn(fact);
      if (contacts.empty()) {
        plain.push_back(fact.phase);
      } else {
        planContacts(fact, contacts, cutA.outside, cutB.outside);
      }
    }
    addTrack(TrackRole::outside, cutA.outside, cutB.outside, plain, requiredMm_, {});
  }

  static std::vector<Phase> phasesOf(const std::vector<PhaseFacts>& facts) {
    std::vector<Phase> phases;
    for (const PhaseFacts& fact : facts) phases.push_back(fact.phase);
    return phases;
  }

  void addTrack(TrackRole role, const std::shared_ptr<const Surface>& a, const std::shared_ptr<const Surface>& b,
                const std::vector<Phase>& phases, double neededMm, const Excuse& excuse) {
    if (phases.empty() || a->tree.empty() || b->tree.empty()) return;
    const bool bracketed = role != TrackRole::zoneRim;
    const double mattersMm = bracketed ? requiredMm_ + kMattersAboveRequiredMm : 0;
    plan_.tracks.push_back({role, a, b, phases, neededMm, mattersMm, excuse});
  }

  void planZone(const CutPart& cutA, const CutPart& cutB, const std::vector<Phase>& phases) {
    // A clearance fit asks for half of it a side; a faceted pin and hole miss it by less than the resolution.
    const double fitMm = plan_.fitMm.value_or(0);
    const double neededMm = fitMm > 0 ? std::max(0.0, fitMm / 2 - resolutionMm_) : 0;
    Excuse excuse;
    if (plan_.fitMm && fitMm <= 0) excuse = {-fitMm / 2 + resolutionMm_, true, false, false};
    addTrack(TrackRole::zone, cutA.inside, cutB.inside, phases, neededMm, excuse);
    addTrack(TrackRole::zoneRim, cutA.inside, cutB.outside, phases, 0, excuse);
    addTrack(TrackRole::zoneRim, cutA.outside, cutB.inside, phases, 0, excuse);
  }

  /// Parts joined by `fixed` may touch; overlap needs a fit or a grip.
  void planFixed(const std::vector<JointId>& links, const std::vector<PhaseFacts>& facts,
                 const std::shared_ptr<const Surface>& a, const std::shared_ptr<const Surface>& b) {
    double depthMm = resolutionMm_;
    for (const JointId id : links) {
      const auto& fitMm = assembly_.joint(id).fitMm;
      if (fitMm && *fitMm < 0) depthMm = std::max(depthMm, -*fitMm / 2 + resolutionMm_);
    }
    for (const PhaseFacts& fact : facts) {
      for (const Contact* contact : contactsIn(fact)) depthMm = std::max(depthMm, allowedDepthMm(*contact));
    }
    addTrack(TrackRole::contact, a, b, phasesOf(facts), 0, {depthMm, true, false, false});
  }

  bool coversMode(const Contact& contact, ModeId mode) const {
    return std::find(contact.modes.begin(), contact.modes.end(), mode) != contact.modes.end();
  }
  bool coversStep(const Contact& contact, const PhaseFacts& fact) const {
    const auto& name = sequence_.steps[fact.step].name;
    return std::find(contact.steps.begin(), contact.steps.end(), name) != contact.steps.end();
  }

  std::vector<const Contact*> contactsIn(const PhaseFacts& fact) const {
    std::vector<const Contact*> covering;
    const PairRule* rule = assembly_.ruleFor(a_, b_);
    if (!rule) return covering;
    for (const Contact& contact : rule->contacts) {
      const bool covers = coversStep(contact, fact) || (fact.first && coversMode(contact, sequence_.from)) ||
                          (fact.last && coversMode(contact, sequence_.to));
      if (covers) covering.push_back(&contact);
    }
    return covering;
  }

  double allowedDepthMm(const Contact& contact) const {
    if (contact.overlapMm) return contact.overlapMm->max + resolutionMm_;
    if (contact.kind == ContactKind::snap) return std::numeric_limits<double>::infinity();
    return resolutionMm_;
  }

  /// In the phase of a contact its place, if it has one, is cut out of both parts and judged by the contact;
  /// all else by the required gap.
  void planContacts(const PhaseFacts& fact, const std::vector<const Contact*>& contacts,
                    std::shared_ptr<const Surface> a, std::shared_ptr<const Surface> b) {
    const bool wholePart = std::any_of(contacts.begin(), contacts.end(), [](const Contact* c) { return !c->place; });
    if (wholePart) {
      addTrack(TrackRole::contact, a, b, {fact.phase}, requiredMm_, excuseOf(fact, contacts));
      return;
    }
    for (const Contact* contact : contacts) {
      const std::vector<Pose> poses = posesOf(assembly_, standingOf(*contact, fact));
      const CutPart cutA = cutAtPlace(*a->mesh, poses[a_.index], *contact->place);
      const CutPart cutB = cutAtPlace(*b->mesh, poses[b_.index], *contact->place);
      const Excuse excuse = excuseOf(fact, {contact});
      addTrack(TrackRole::contact, cutA.inside, b, {fact.phase}, requiredMm_, excuse);
      addTrack(TrackRole::contact, cutA.outside, cutB.inside, {fact.phase}, requiredMm_, excuse);
      a = cutA.outside;
      b = cutB.outside;
    }
    addTrack(TrackRole::outside, a, b, {fact.phase}, requiredMm_, {});
  }

  /// How the assembly stands where the contact's place is said.
  Configuration standingOf(const Contact& contact, const PhaseFacts& fact) const {
    if (coversStep(contact, fact)) return configurationAt(assembly_, sequence_, fact.phase.from);
    if (fact.first && coversMode(contact, sequence_.from)) return configurationAt(assembly_, sequence_, 0);
    return sequence_.steps.back().end;
  }

  Excuse excuseOf(const PhaseFacts& fact, const std::vector<const Contact*>& contacts) const {
    Excuse excuse;
    for (const Contact* contact : contacts) {
      excuse.depthMm = std::max(excuse.depthMm, allowedDepthMm(*contact));
      excuse.everywhere |= coversStep(*contact, fact);
      excuse.atStart |= fact.first && coversMode(*contact, sequence_.from);
      excuse.atEnd |= fact.last && coversMode(*contact, sequence_.to);
    }
    return excuse;
  }

  const Assembly& assembly_;
  const Sequence& sequence_;
  PartId a_, b_;
  std::shared_ptr<const Surface> wholeA_, wholeB_;
  double resolutionMm_;
  double requiredMm_;
  std::vector<PhaseFacts> facts_;
  PairPlan plan_;
};

}  // namespace

std::vector<JointId> linksBetween(const Assembly& assembly, const Configuration& configuration, PartId a, PartId b) {
  const Mount* ofA = holdingMount(assembly, configuration, a);
  if (ofA && ofA->parent == b) return ofA->joints;
  const Mount* ofB = holdingMount(assembly, configuration, b);
  if (ofB && ofB->parent == a) return ofB->joints;
  return {};
}

JudgedSurfaces judgedSurfaces(const Assembly& assembly, const Configuration& configuration,
                              const AssemblyGeometry& geometry, PartId a, PartId b) {
  const JudgedSurfaces whole{geometry.at(a.index)->surface, geometry.at(b.index)->surface};
  const auto zoned = withZones(assembly, linksBetween(assembly, configuration, a, b));
  if (zoned.empty()) return whole;
  return {cutAtZones(whole.a->mesh, assembly.part(a).X_WP_home, zoned).outside,
          cutAtZones(whole.b->mesh, assembly.part(b).X_WP_home, zoned).outside};
}

PairPlan planPair(const Assembly& assembly, const Sequence& sequence,
                  const AssemblyGeometry& geometry, PartId a, PartId b, double resolutionMm) {
  return Planner(assembly, sequence, geometry, a, b, resolutionMm).plan();
}

}  // namespace swingroom
