#include "app/edits/joint_uses.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/edits/edit_names.h"
#include "app/edits/step_names.h"
#include "core/files/document/json_value.h"
#include "core/files/loading/load_sequences.h"

namespace swingroom::edits {
namespace {

struct UsesText {
  Q_DECLARE_TR_FUNCTIONS(UsesText)
};

std::string clause(const QString& text, const std::string& name) {
  return text.arg(QString::fromStdString(inQuotes(name))).toStdString();
}

bool holdsIn(const AssemblyDocument& document, const DocumentMode& mode,
             const DocumentJoint& joint) {
  const auto mount = mode.mounts.find(joint.child);
  if (mount == mode.mounts.end()) return true;
  const DocumentJoint* by = findNamed(document.joints, mount->second);
  return !by || by->parent == joint.parent;
}

/// Where a joint can stand nearest to 0.
DocumentValue nearestToZero(const DocumentJoint& joint) {
  if (joint.type == JointType::ball) return ThreeNumbers{0, 0, 0};
  const auto isNearer = [](double a, double b) { return std::abs(a) < std::abs(b); };
  if (!joint.clicks.empty()) {
    return *std::min_element(joint.clicks.begin(), joint.clicks.end(), isNearer);
  }
  const auto* range = joint.range ? std::get_if<TwoNumbers>(&*joint.range) : nullptr;
  if (!range || (*range)[0] > (*range)[1]) return 0.0;
  return std::clamp(0.0, (*range)[0], (*range)[1]);
}

/// Where `joint` stands by what it follows, however far that goes on; `values` has the leaders'.
double followed(const AssemblyDocument& document, const DocumentJoint& joint,
                const DocumentValues& values, std::size_t depth = 0) {
  if (joint.follows && depth <= document.joints.size()) {
    const DocumentJoint* leader = findNamed(document.joints, joint.follows->joint);
    const double led = leader ? followed(document, *leader, values, depth + 1) : 0;
    return joint.follows->ratio * led + joint.follows->offset;
  }
  const auto value = values.find(joint.name);
  const auto* number = value == values.end() ? nullptr : std::get_if<double>(&value->second);
  return number ? *number : 0;
}

/// The joint at the end of all following.
std::string leaderOf(const AssemblyDocument& document, const DocumentJoint& joint) {
  const DocumentJoint* at = &joint;
  for (std::size_t i = 0; at && at->follows && i <= document.joints.size(); ++i) {
    at = findNamed(document.joints, at->follows->joint);
  }
  return at ? at->name : "";
}

/// Without the digits that multiplying adds.
double rounded(double value) {
  return std::round(value * 1e9) / 1e9 + 0.0;
}

std::vector<std::string> contactClause(std::size_t contacts) {
  if (contacts == 0) return {};
  if (contacts == 1) return {UsesText::tr("1 contact").toStdString()};
  return {UsesText::tr("%1 contacts").arg(contacts).toStdString()};
}

void append(std::vector<std::string>& all, const std::vector<std::string>& more) {
  all.insert(all.end(), more.begin(), more.end());
}

/// Whether a step of the hand puts its part where it hangs, or nowhere, by way and position.
std::set<std::pair<std::string, std::size_t>> idleHands(const AssemblyDocument& document) {
  std::set<std::pair<std::string, std::size_t>> idle;
  const auto mountBy = [&](const std::string& part, const std::string& name) {
    const DocumentJoint* joint = findNamed(document.joints, name);
    if (!joint || joint->child != part) return std::string();
    for (const std::string& first : firstOfMounts(document, part)) {
      if (findNamed(document.joints, first)->parent == joint->parent) return first;
    }
    return std::string();
  };
  for (const DocumentSequence& way : document.sequences) {
    const DocumentMode* from = findNamed(document.modes, way.from);
    std::map<std::string, std::string> hangs = from ? from->mounts : decltype(hangs){};
    for (std::size_t s = 0; s < way.steps.size(); ++s) {
      const auto& replug = way.steps[s].replug;
      if (!replug) continue;
      const std::string onto = mountBy(replug->part, replug->onto);
      const std::string was = mountBy(replug->part, hangs[replug->part]);
      const bool single = firstOfMounts(document, replug->part).size() < 2;
      if (single || onto.empty() || onto == was) idle.emplace(way.name, s);
      if (!onto.empty()) hangs[replug->part] = onto;
    }
  }
  return idle;
}

}  // namespace

double negative(double v) {
  return v == 0 ? 0 : -v;
}

ThreeNumbers negative(const ThreeNumbers& v) {
  return {negative(v[0]), negative(v[1]), negative(v[2])};
}

void forEachValue(AssemblyDocument& document, const std::string& joint,
                  const std::function<void(DocumentValue&)>& change) {
  const auto visit = [&](DocumentValues& values) {
    const auto value = values.find(joint);
    if (value != values.end()) change(value->second);
  };
  for (DocumentMode& mode : document.modes) {
    if (mode.values) visit(*mode.values);
  }
  for (DocumentSequence& way : document.sequences) {
    for (DocumentStep& step : way.steps) visit(step.moves);
  }
}

std::vector<std::string> dropValues(AssemblyDocument& document, const std::string& joint) {
  for (DocumentMode& mode : document.modes) {
    if (mode.values) mode.values->erase(joint);
  }
  std::vector<std::string> clauses =
      removeSteps(document, [&](const DocumentSequence& way, std::size_t step) {
        const DocumentValues& moves = way.steps[step].moves;
        return moves.size() == 1 && moves.contains(joint) && !way.steps[step].replug;
      });
  for (DocumentSequence& way : document.sequences) {
    for (DocumentStep& step : way.steps) step.moves.erase(joint);
  }
  return clauses;
}

void nameAtZero(AssemblyDocument& document, const DocumentJoint& joint) {
  if (joint.type == JointType::fixed || joint.follows) return;
  for (DocumentMode& mode : document.modes) {
    if (mode.values && holdsIn(document, mode, joint)) {
      mode.values->emplace(joint.name, nearestToZero(joint));
    }
  }
}

void followNoMore(AssemblyDocument& document, const std::string& name) {
  DocumentJoint* joint = findNamed(document.joints, name);
  if (!joint || !joint->follows) return;
  const std::string leader = leaderOf(document, *joint);
  for (DocumentSequence& way : document.sequences) {
    const DocumentMode* from = findNamed(document.modes, way.from);
    DocumentValues values = from && from->values ? *from->values : DocumentValues();
    for (DocumentStep& step : way.steps) {
      for (const auto& [moved, value] : step.moves) values[moved] = value;
      if (!step.moves.contains(leader)) continue;
      step.moves[name] = rounded(followed(document, *joint, values));
    }
  }
  for (DocumentMode& mode : document.modes) {
    if (mode.values) (*mode.values)[name] = rounded(followed(document, *joint, *mode.values));
  }
  joint->follows.reset();
}

std::vector<std::string> freeFollowers(AssemblyDocument& document, const std::string& joint) {
  std::vector<std::string> clauses;
  std::vector<std::string> followers;
  for (const DocumentJoint& one : document.joints) {
    if (one.follows && one.follows->joint == joint) followers.push_back(one.name);
  }
  for (const std::string& follower : followers) {
    followNoMore(document, follower);
    clauses.push_back(clause(UsesText::tr("%1 has values of its own then"), follower));
  }
  return clauses;
}

std::vector<std::string> removeSteps(
    AssemblyDocument& document,
    const std::function<bool(const DocumentSequence&, std::size_t)>& isGone) {
  std::vector<std::string> clauses;
  std::set<std::string> gone;
  for (std::size_t w = 0; w < document.sequences.size(); ++w) {
    std::vector<bool> goes;
    const DocumentSequence before = document.sequences[w];
    for (std::size_t s = 0; s < before.steps.size(); ++s) goes.push_back(isGone(before, s));
    if (std::find(goes.begin(), goes.end(), true) == goes.end()) continue;
    fixStepNames(document, document.sequences[w]);
    DocumentSequence& way = document.sequences[w];
    const std::vector<std::string> names = stepNamesOf(way);
    std::vector<DocumentStep> kept;
    for (std::size_t s = 0; s < goes.size(); ++s) {
      if (!goes[s]) {
        kept.push_back(way.steps[s]);
        continue;
      }
      gone.insert(names[s]);
      clauses.push_back(clause(UsesText::tr("the step %1"), names[s]));
    }
    way.steps = std::move(kept);
  }
  for (const std::string& left : allStepNames(document)) gone.erase(left);
  append(clauses, contactClause(forget(document, {}, gone)));
  return clauses;
}

std::vector<std::string> firstOfMounts(const AssemblyDocument& document, const std::string& part) {
  std::vector<std::string> firsts;
  std::set<std::optional<std::string>> parents;
  for (const DocumentJoint& joint : document.joints) {
    if (joint.child == part && parents.insert(joint.parent).second) firsts.push_back(joint.name);
  }
  return firsts;
}

std::vector<std::string> settleMounts(AssemblyDocument& document) {
  for (const DocumentPart& part : document.parts) {
    const std::vector<std::string> mounts = firstOfMounts(document, part.name);
    for (DocumentMode& mode : document.modes) {
      if (mounts.size() < 2) {
        mode.mounts.erase(part.name);
        continue;
      }
      std::string& by = mode.mounts[part.name];
      const DocumentJoint* joint = findNamed(document.joints, by);
      if (!joint || joint->child != part.name) by = mounts.front();
    }
  }
  const auto idle = idleHands(document);
  return removeSteps(document, [&](const DocumentSequence& way, std::size_t step) {
    return idle.contains({way.name, step});
  });
}

void nameOtherOfMount(AssemblyDocument& document, const DocumentJoint& joint) {
  const auto other =
      std::find_if(document.joints.begin(), document.joints.end(), [&](const DocumentJoint& one) {
        return one.name != joint.name && one.child == joint.child && one.parent == joint.parent;
      });
  if (other == document.joints.end()) return;
  for (DocumentMode& mode : document.modes) {
    for (auto& [part, by] : mode.mounts) {
      if (by == joint.name) by = other->name;
    }
  }
  for (DocumentSequence& way : document.sequences) {
    for (DocumentStep& step : way.steps) {
      if (step.replug && step.replug->onto == joint.name) step.replug->onto = other->name;
    }
  }
}

std::vector<std::string> takeJointOut(AssemblyDocument& document, const std::string& name) {
  const DocumentJoint* there = findNamed(document.joints, name);
  if (!there) return {};
  const DocumentJoint joint = *there;
  std::vector<std::string> clauses = freeFollowers(document, name);
  append(clauses, dropValues(document, name));
  nameOtherOfMount(document, joint);
  std::erase_if(document.joints, [&](const DocumentJoint& one) { return one.name == name; });
  if (forgetInVariants(document, {}, {name}) > 0) {
    clauses.push_back(UsesText::tr("what variants put in its place").toStdString());
  }
  return clauses;
}

}  // namespace swingroom::edits
