// What a joint is: its type, axis, range, clicks, fit, zones and what it follows.
#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/edits/joint_uses.h"
#include "app/edits/rig_edits.h"
#include "app/edits/sound_edit.h"

namespace swingroom::edits {
namespace {

struct ShapeText {
  Q_DECLARE_TR_FUNCTIONS(ShapeText)
};

/// A joint of the document, changed, and the whole refused if it cannot be read then.
template <typename Change>
Edited changeJoint(const AssemblyDocument& document, const std::string& name, Change change) {
  AssemblyDocument changed = document;
  DocumentJoint* joint = findNamed(changed.joints, name);
  if (!joint) return notThere(jointCalled(name));
  change(*joint, changed);
  return soundEdit(document, std::move(changed), jointCalled(name));
}

/// None: zero, or not a number.
std::optional<ThreeNumbers> unit(const std::optional<ThreeNumbers>& v) {
  if (!v) return std::nullopt;
  const double length = std::hypot((*v)[0], (*v)[1], (*v)[2]);
  if (!(length > 1e-12)) return std::nullopt;
  return ThreeNumbers{(*v)[0] / length, (*v)[1] / length, (*v)[2] / length};
}

double rounded9(double value) {
  return std::round(value * 1e9) / 1e9 + 0.0;
}

TwoNumbers reversed(const TwoNumbers& range) {
  return {negative(range[1]), negative(range[0])};
}

void reverseValues(AssemblyDocument& document, const std::string& joint) {
  forEachValue(document, joint, [](DocumentValue& value) {
    if (auto* number = std::get_if<double>(&value)) *number = negative(*number);
  });
}

void reverseRange(DocumentJoint& joint) {
  if (!joint.range) return;
  if (auto* range = std::get_if<TwoNumbers>(&*joint.range)) {
    *range = reversed(*range);
  } else if (auto& ball = std::get<DocumentBallRange>(*joint.range); ball.twist) {
    ball.twist = reversed(*ball.twist);
  }
}

/// Its zones as spheres have them, of which there is one, or as cylinders.
void fitZonesToType(DocumentJoint& joint) {
  if (joint.zones.empty()) return;
  if (joint.type == JointType::ball) {
    const auto isSmaller = [](const DocumentZone& a, const DocumentZone& b) {
      return a.radius < b.radius;
    };
    DocumentZone zone = *std::max_element(joint.zones.begin(), joint.zones.end(), isSmaller);
    zone.from = zone.to = std::nullopt;
    joint.zones = {zone};
    return;
  }
  // What is about no axis is no zone.
  if (!joint.through || !joint.along) joint.zones.clear();
  for (DocumentZone& zone : joint.zones) {
    if (!zone.from) zone.from = -zone.radius;
    if (!zone.to) zone.to = zone.radius;
  }
}

void turnsOfBall(AssemblyDocument& document, DocumentJoint& joint, const ThreeNumbers& along) {
  forEachValue(document, joint.name, [&](DocumentValue& value) {
    if (const auto* angle = std::get_if<double>(&value)) {
      value = ThreeNumbers{rounded9(*angle * along[0]), rounded9(*angle * along[1]),
                           rounded9(*angle * along[2])};
    }
  });
  joint.range.reset();
  joint.clicks.clear();
}

/// @returns Whether all of its turns were about that axis.
bool turnsOfHinge(AssemblyDocument& document, DocumentJoint& joint, const ThreeNumbers& along) {
  bool whole = true;
  forEachValue(document, joint.name, [&](DocumentValue& value) {
    const auto* turn = std::get_if<ThreeNumbers>(&value);
    if (!turn) return;
    const double angle = (*turn)[0] * along[0] + (*turn)[1] * along[1] + (*turn)[2] * along[2];
    for (std::size_t i = 0; i < 3; ++i) {
      whole = whole && std::abs((*turn)[i] - angle * along[i]) < 1e-6;
    }
    value = rounded9(angle);
  });
  if (joint.range) {
    const auto* ball = std::get_if<DocumentBallRange>(&*joint.range);
    const auto twist = ball ? ball->twist : std::nullopt;
    joint.range.reset();
    if (twist) joint.range = *twist;
  }
  return whole;
}

}  // namespace

Outcome<Removal> retypeJoint(const AssemblyDocument& document, const std::string& name,
                             JointType type, const JointAxis& axis) {
  Removal removal{document, {}};
  AssemblyDocument& changed = removal.document;
  DocumentJoint* joint = findNamed(changed.joints, name);
  if (!joint) return notThere(jointCalled(name));
  if (axis.through) joint->through = axis.through;
  if (axis.along) joint->along = axis.along;
  const JointType was = joint->type;
  if (was == type) return soundRemoval(document, std::move(removal), jointCalled(name));
  const auto add = [&](const std::vector<std::string>& clauses) {
    removal.also.insert(removal.also.end(), clauses.begin(), clauses.end());
  };
  add(freeFollowers(changed, name));
  const auto along = unit(joint->along);
  const bool isTurn = along && (was == JointType::hinge || was == JointType::ball) &&
                      (type == JointType::hinge || type == JointType::ball);
  if (isTurn) followNoMore(changed, name);
  joint->type = type;
  if (isTurn && type == JointType::ball) {
    if (joint->range) removal.also.push_back(ShapeText::tr("its range").toStdString());
    if (!joint->clicks.empty()) removal.also.push_back(ShapeText::tr("its clicks").toStdString());
    turnsOfBall(changed, *joint, *along);
  } else if (isTurn) {
    if (!turnsOfHinge(changed, *joint, *along)) {
      removal.also.push_back(ShapeText::tr("its turns about other axes").toStdString());
    }
  } else {
    if (was != JointType::fixed) {
      removal.also.push_back(ShapeText::tr("its values, range and clicks").toStdString());
    }
    joint->range.reset();
    joint->clicks.clear();
    joint->follows.reset();
    add(dropValues(changed, name));
  }
  joint = findNamed(changed.joints, name);
  fitZonesToType(*joint);
  nameAtZero(changed, *joint);
  add(keepWhole(document, changed));
  return soundRemoval(document, std::move(removal), jointCalled(name));
}

Edited reverseJoint(const AssemblyDocument& document, const std::string& name) {
  return changeJoint(document, name, [&](DocumentJoint& joint, AssemblyDocument& changed) {
    if (!joint.along) return;
    joint.along = negative(*joint.along);
    reverseRange(joint);
    std::reverse(joint.clicks.begin(), joint.clicks.end());
    for (double& click : joint.clicks) click = negative(click);
    for (DocumentZone& zone : joint.zones) {
      if (!zone.from || !zone.to) continue;
      const TwoNumbers span = reversed({*zone.from, *zone.to});
      zone.from = span[0];
      zone.to = span[1];
    }
    if (joint.type == JointType::ball) return;  // Its values know nothing of the axis.
    if (joint.follows) {
      joint.follows->ratio = negative(joint.follows->ratio);
      joint.follows->offset = negative(joint.follows->offset);
    }
    for (DocumentJoint& other : changed.joints) {
      if (other.follows && other.follows->joint == name) {
        other.follows->ratio = negative(other.follows->ratio);
      }
    }
    reverseValues(changed, name);
  });
}

Edited setJointAxis(const AssemblyDocument& document, const std::string& name,
                    const JointAxis& axis) {
  return changeJoint(document, name, [&](DocumentJoint& joint, AssemblyDocument&) {
    if (axis.through) joint.through = axis.through;
    if (axis.along) joint.along = axis.along;
  });
}

Edited setJointRange(const AssemblyDocument& document, const std::string& name,
                     const std::optional<DocumentRange>& range) {
  return changeJoint(document, name,
                     [&](DocumentJoint& joint, AssemblyDocument&) { joint.range = range; });
}

Edited setJointClicks(const AssemblyDocument& document, const std::string& name,
                      std::vector<double> clicks) {
  std::sort(clicks.begin(), clicks.end());
  clicks.erase(std::unique(clicks.begin(), clicks.end()), clicks.end());
  return changeJoint(document, name,
                     [&](DocumentJoint& joint, AssemblyDocument&) { joint.clicks = clicks; });
}

Edited setJointFit(const AssemblyDocument& document, const std::string& name,
                   std::optional<double> fitMm) {
  return changeJoint(document, name,
                     [&](DocumentJoint& joint, AssemblyDocument&) { joint.fit = fitMm; });
}

Edited setJointZones(const AssemblyDocument& document, const std::string& name,
                     const std::vector<DocumentZone>& zones) {
  return changeJoint(document, name,
                     [&](DocumentJoint& joint, AssemblyDocument&) { joint.zones = zones; });
}

Outcome<Removal> setJointFollows(const AssemblyDocument& document, const std::string& name,
                                 const std::optional<DocumentFollows>& follows) {
  Removal removal{document, {}};
  AssemblyDocument& changed = removal.document;
  DocumentJoint* joint = findNamed(changed.joints, name);
  if (!joint) return notThere(jointCalled(name));
  if (follows) {
    joint->follows = follows;
    removal.also = dropValues(changed, name);
  } else {
    followNoMore(changed, name);
  }
  const auto ways = keepWhole(document, changed);
  removal.also.insert(removal.also.end(), ways.begin(), ways.end());
  return soundRemoval(document, std::move(removal), jointCalled(name));
}

}  // namespace swingroom::edits
