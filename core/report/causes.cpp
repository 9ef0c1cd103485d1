#include <algorithm>
#include <map>
#include <set>

#include "core/report/findings.h"

namespace swingroom {
namespace {

const char* wordFor(JointType type) {
  switch (type) {
    case JointType::hinge:
      return "hinge";
    case JointType::slide:
      return "slide";
    case JointType::ball:
      return "ball joint";
    case JointType::fixed:
      break;
  }
  return "fixed joint";
}

class CauseSearch {
 public:
  CauseSearch(const CheckReport& report, const std::vector<Finding>& findings)
      : report_(report), assembly_(report.loaded->assembly), findings_(findings) {
    for (std::size_t i = 0; i < findings.size(); ++i) left_.insert(i);
  }

  std::vector<Cause> search() {
    takeMisplacedParts();
    takeJointsWithoutZone();
    takeMovers();
    takeSharedParts();
    for (const std::size_t alone : std::set<std::size_t>(left_)) take("", {alone});
    std::stable_sort(causes_.begin(), causes_.end(), [](const Cause& a, const Cause& b) {
      return a.findings.front() < b.findings.front();
    });
    return std::move(causes_);
  }

 private:
  void take(const std::string& sentence, const std::vector<std::size_t>& findings) {
    for (const std::size_t finding : findings) left_.erase(finding);
    causes_.push_back({sentence, findings});
  }

  const PairResult& worst(std::size_t finding) const {
    return resultOf(report_, findings_[finding].where.front());
  }
  const std::string& nameOf(PartId part) const { return assembly_.part(part).name; }

  /// The largest of `groups`; empty unless it has at least `least`.
  template <typename Key>
  static std::optional<Key> largest(const std::map<Key, std::vector<std::size_t>>& groups,
                                    std::size_t least) {
    std::optional<Key> best;
    for (const auto& [key, members] : groups) {
      if (members.size() < least) continue;
      if (!best || members.size() > groups.at(*best).size()) best = key;
    }
    return best;
  }

  void takeMisplacedParts() {
    const auto meshed = static_cast<std::size_t>(
        std::count_if(assembly_.parts().begin(), assembly_.parts().end(),
                      [](const Part& part) { return part.mesh != nullptr; }));
    while (true) {
      std::map<PartId, std::vector<std::size_t>> byPart;
      for (const std::size_t i : left_) {
        if (findings_[i].verdict != Verdict::clash) continue;
        byPart[findings_[i].a].push_back(i);
        byPart[findings_[i].b].push_back(i);
      }
      const auto part = largest(byPart, std::max<std::size_t>(3, meshed / 2));
      if (!part) return;
      const auto& members = byPart.at(*part);
      take(nameOf(*part) + " clashes with " + std::to_string(members.size()) + " of " +
               std::to_string(meshed - 1) +
               " other parts: likely its unit, scale or place is wrong.",
           members);
    }
  }

  /// The joint, other than a fixed one, by which one part hangs on the other where it is worst;
  /// none: there is none, or it has zones.
  std::optional<JointId> jointWithoutZone(std::size_t finding) const {
    const Finding& pair = findings_[finding];
    for (std::size_t j = 0; j < assembly_.joints().size(); ++j) {
      const Joint& joint = assembly_.joint(JointId{j});
      const bool links = (joint.parent == pair.a && joint.child == pair.b) ||
                         (joint.parent == pair.b && joint.child == pair.a);
      if (links && joint.zones.empty() && joint.type != JointType::fixed) return JointId{j};
    }
    return std::nullopt;
  }

  void takeJointsWithoutZone() {
    constexpr std::size_t kMostNames = 6;
    std::vector<std::size_t> members;
    std::string names;
    for (const std::size_t i : left_) {
      const auto joint =
          findings_[i].verdict == Verdict::clash ? jointWithoutZone(i) : std::nullopt;
      if (!joint) continue;
      members.push_back(i);
      if (members.size() > kMostNames) continue;
      const auto& found = assembly_.joint(*joint);
      names += (names.empty() ? "" : ", ") + std::string(wordFor(found.type)) + " " + found.name;
    }
    if (members.empty()) return;
    if (members.size() > kMostNames) {
      names += " and " + std::to_string(members.size() - kMostNames) + " more";
    }
    const bool one = members.size() == 1;
    take(std::string(one ? "A joint" : "Joints") + " with overlap and no zone (" + names +
             "): likely the parts touch there by design, and a zone should say so.",
         members);
  }

  void takeMovers() {
    while (true) {
      std::map<JointId, std::vector<std::size_t>> byMover;
      for (const std::size_t i : left_) {
        std::set<JointId> movers;
        for (const Stretch& stretch : worst(i).stretches) {
          if (stretch.mover) movers.insert(*stretch.mover);
        }
        for (const JointId mover : movers) byMover[mover].push_back(i);
      }
      const auto mover = largest(byMover, 2);
      if (!mover) return;
      const Joint& joint = assembly_.joint(*mover);
      take(std::string("Likely the ") + wordFor(joint.type) + " " + joint.name +
               " brings these parts together: it moves them into each other where each clash "
               "begins.",
           byMover.at(*mover));
    }
  }

  /// Way and step of the worst instant.
  std::pair<std::size_t, std::size_t> stepOf(std::size_t finding) const {
    const std::size_t way = findings_[finding].where.front().way;
    return {way, stepAt(report_.ways[way], worstInstant(worst(finding))).step};
  }

  void takeSharedParts() {
    using Key = std::pair<PartId, std::pair<std::size_t, std::size_t>>;
    while (true) {
      std::map<Key, std::vector<std::size_t>> shared;
      for (const std::size_t i : left_) {
        if (findings_[i].verdict > Verdict::tight) continue;
        shared[{findings_[i].a, stepOf(i)}].push_back(i);
        shared[{findings_[i].b, stepOf(i)}].push_back(i);
      }
      const auto key = largest(shared, 2);
      if (!key) return;
      take(nameOf(key->first) + " is in all of these, " + placeOf(key->second, shared.at(*key)) +
               ": likely one change to it mends several.",
           shared.at(*key));
    }
  }

  /// "in step NAME", or for what never ends in a way "all the way through NAME".
  std::string placeOf(const std::pair<std::size_t, std::size_t>& step,
                      const std::vector<std::size_t>& members) const {
    const Sequence& way = report_.ways[step.first];
    if (way.from == way.to && way.steps.size() == 1) {
      return "in mode " + report_.loaded->modes[way.from.index].name;
    }
    const bool always = std::all_of(members.begin(), members.end(), [&](std::size_t i) {
      const auto& stretches = worst(i).stretches;
      return stretches.size() == 1 && stretches[0].from <= 0 && stretches[0].to >= 1;
    });
    return always ? "all the way through " + way.name : "in step " + way.steps[step.second].name;
  }

  const CheckReport& report_;
  const Assembly& assembly_;
  const std::vector<Finding>& findings_;
  std::set<std::size_t> left_;
  std::vector<Cause> causes_;
};

}  // namespace

std::vector<Cause> causesOf(const CheckReport& report, const std::vector<Finding>& findings) {
  return CauseSearch(report, findings).search();
}

}  // namespace swingroom
