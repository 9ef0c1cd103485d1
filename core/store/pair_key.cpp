#include "core/store/pair_key.h"

#include <algorithm>

#include "core/store/engine_version.h"
#include "core/store/key_writer.h"
#include "core/sweep/contacts.h"
#include "core/sweep/plan.h"

namespace swingroom {
namespace {

/// How the pair hangs together in one step or mode.
struct Hanging {
  RelativeMotion motion;
  std::vector<JointId> mount;  ///< By which one part hangs on the other, if it does.
};

class KeyMaker {
 public:
  KeyMaker(const PairQuestion& question, const std::vector<Digest>& digests)
      : assembly_(*question.assembly),
        modes_(*question.modes),
        sequence_(*question.sequence),
        settings_(*question.settings),
        a_(question.a),
        b_(question.b),
        digests_(digests) {}

  PairKey make() {
    findHangings();
    findJoints();
    addSettings();
    addParts();
    addJoints();
    for (std::size_t i = 0; i < hangings_.size(); ++i) addHanging(hangings_[i]);
    addRule();
    key_.digest = writer_.take();
    return std::move(key_);
  }

 private:
  void findHangings() {
    for (const Step& step : sequence_.steps) hang(step);
    // A replug's end is looked at; for other steps it is where the next one starts, or said by the
    // values.
    const Configuration& end = sequence_.steps.back().end;
    hang({"", StepOrder::together, end, end});
    for (const Mode& mode : modes_) {
      hang({"", StepOrder::together, mode.configuration, mode.configuration});
    }
  }
  void hang(const Step& step) {
    hangings_.push_back(
        {RelativeMotion(assembly_, step, a_, b_), linksBetween(assembly_, step.start, a_, b_)});
  }

  /// By id: the check takes mounts in the order of their joints' ids.
  void findJoints() {
    for (const Hanging& hanging : hangings_) {
      for (const auto& link : hanging.motion.links()) key_.joints.push_back(link.id);
      key_.joints.insert(key_.joints.end(), hanging.mount.begin(), hanging.mount.end());
    }
    std::sort(key_.joints.begin(), key_.joints.end());
    key_.joints.erase(std::unique(key_.joints.begin(), key_.joints.end()), key_.joints.end());
  }
  std::uint32_t positionOf(JointId id) const {
    const auto found = std::lower_bound(key_.joints.begin(), key_.joints.end(), id);
    return static_cast<std::uint32_t>(found - key_.joints.begin());
  }

  void addSettings() {
    writer_.add(kEngineVersion);
    writer_.add(engineText());
    writer_.add(settings_.resolutionMm);
    writer_.add(settings_.budget);
    writer_.add(settings_.depths);
  }

  void addParts() {
    for (const PartId part : {a_, b_}) {
      writer_.add(digests_.at(part.index));
      writer_.add(assembly_.part(part).X_WP_home);
    }
  }

  void addJoints() {
    const auto ofMount = [&](JointId id) {
      return std::any_of(hangings_.begin(), hangings_.end(), [&](const Hanging& hanging) {
        return std::find(hanging.mount.begin(), hanging.mount.end(), id) != hanging.mount.end();
      });
    };
    writer_.add(key_.joints.size());
    for (const JointId id : key_.joints) {
      const Joint& joint = assembly_.joint(id);
      writer_.add(joint.type);
      writer_.add(joint.through);
      writer_.add(joint.along);
      writer_.add(ofMount(id));
      if (!ofMount(id)) continue;  // Of joints farther off zones and fit do not count.
      writer_.add(joint.fitMm);
      writer_.add(joint.zones.size());
      for (const JointZone& zone : joint.zones) {
        writer_.add(zone.radiusMm);
        writer_.add(zone.fromMm);
        writer_.add(zone.toMm);
      }
    }
  }

  void addHanging(const Hanging& hanging) {
    writer_.add(hanging.mount.size());
    for (const JointId id : hanging.mount) writer_.add(positionOf(id));
    writer_.add(hanging.motion.links().size());
    for (const auto& link : hanging.motion.links()) {
      writer_.add(positionOf(link.id));
      writer_.add(link.towardsParent);
      writer_.add(link.moves);
      writer_.add(link.start);
      if (link.moves) writer_.add(link.end);
      if (link.moves) writer_.add(link.freedom);
    }
  }

  void addRule() {
    writer_.add(assembly_.requiredGapMm(a_, b_));
    const PairRule* rule = assembly_.ruleFor(a_, b_);
    writer_.add(rule && rule->allowReason);
    writer_.add(modes_.size());
    writer_.add(sequence_.steps.size());
    for (std::size_t s = 0; s < sequence_.steps.size(); ++s) {
      const StepOrder order = sequence_.steps[s].order;
      writer_.add(order == StepOrder::replug);
      writer_.add(order == StepOrder::free && hangings_[s].motion.freedoms() > 1);
    }
    std::vector<const Contact*> counting;
    if (rule) {
      for (const Contact& contact : rule->contacts) {
        if (counts(contact)) counting.push_back(&contact);
      }
    }
    writer_.add(counting.size());
    if (counting.empty()) return;
    for (const ModeId end : {sequence_.from, sequence_.to}) {
      writer_.add(end.index);
      writer_.add(modes_.at(end.index).name);
    }
    for (const Contact* contact : counting) addContact(*contact);
    const bool placed =
        std::any_of(counting.begin(), counting.end(), [](const Contact* c) { return c->place; });
    if (placed) addStandings();
  }

  static bool covers(const Contact& contact, ModeId mode) {
    return std::find(contact.modes.begin(), contact.modes.end(), mode) != contact.modes.end();
  }
  static bool covers(const Contact& contact, const Step& step) {
    return std::find(contact.steps.begin(), contact.steps.end(), step.name) != contact.steps.end();
  }
  /// A contact says something about this sequence.
  bool counts(const Contact& contact) const {
    return covers(contact, sequence_.from) || covers(contact, sequence_.to) ||
           std::any_of(sequence_.steps.begin(), sequence_.steps.end(),
                       [&](const Step& step) { return covers(contact, step); });
  }

  void addContact(const Contact& contact) {
    writer_.add(contact.kind);
    writer_.add(covers(contact, sequence_.from));
    writer_.add(covers(contact, sequence_.to));
    for (const Step& step : sequence_.steps) writer_.add(covers(contact, step));
    for (const auto& span : {contact.overlapMm, contact.gapMm}) {
      writer_.add(span.has_value());
      writer_.add(span ? span->min : 0.0);
      writer_.add(span ? span->max : 0.0);
    }
    writer_.add(contact.place.has_value());
    if (!contact.place) return;
    writer_.add(contact.place->at);
    writer_.add(contact.place->radiusMm);
  }

  /// A place is given in the world, as the parts stand in a mode or at a step's start.
  void addStandings() {
    const double count = static_cast<double>(sequence_.steps.size());
    for (std::size_t s = 0; s <= sequence_.steps.size(); ++s) {
      addStanding(configurationAt(assembly_, sequence_, static_cast<double>(s) / count));
    }
    for (const ModeId end : {sequence_.from, sequence_.to}) {
      addStanding(modes_.at(end.index).configuration);
    }
  }
  void addStanding(const Configuration& configuration) {
    const std::vector<Pose> poses = posesOf(assembly_, configuration);
    writer_.add(poses[a_.index]);
    writer_.add(poses[b_.index]);
  }

  const Assembly& assembly_;
  const std::vector<Mode>& modes_;
  const Sequence& sequence_;
  const SweepSettings& settings_;
  PartId a_, b_;
  const std::vector<Digest>& digests_;
  std::vector<Hanging> hangings_;
  KeyWriter writer_;
  PairKey key_;
};

}  // namespace

PairKey keyOf(const PairQuestion& question, const std::vector<Digest>& digests) {
  return KeyMaker(question, digests).make();
}

}  // namespace swingroom
