#include "core/files/urdf/robot_modes.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "core/files/document/document_problems.h"
#include "core/files/document/found_text.h"
#include "core/files/document/inferred_document.h"
#include "core/files/document/json_value.h"
#include "core/files/printable.h"

namespace swingroom {
namespace {

constexpr double kTidy = 1e-9;  // Degrees or mm; what the file's decimals are rounded to.
constexpr double kUnlimitedDeg = 90;
constexpr double kUnlimitedMm = 100;

std::string unitWord(const RobotJoint& joint) {
  return slides(joint) ? " mm" : "°";
}

std::string valueWord(const RobotJoint& joint, double value) {
  return numberText(std::round(value * 100) / 100 + 0.0) + unitWord(joint);
}

/// Where a joint may stand, degrees or mm.
struct FreeRange {
  double least = -std::numeric_limits<double>::infinity();
  double most = std::numeric_limits<double>::infinity();

  double nearest(double value) const { return std::min(std::max(value, least), most); }
  bool empty() const { return least > most; }
};

class ModeMaker {
 public:
  ModeMaker(const RobotDescription& robot, const RobotTree& tree, XmlProblems& problems)
      : robot_(robot), tree_(tree), problems_(problems), ranges_(robot.joints.size()) {
    for (std::size_t j = 0; j < ranges_.size(); ++j) {
      if (const auto limits = fileLimits(robot_.joints[j])) {
        ranges_[j] = {(*limits)[0], (*limits)[1]};
      }
    }
    for (std::size_t j = 0; j < ranges_.size(); ++j) narrowLeaderOf(j);
  }

  RobotModes make(const std::vector<RobotState>& states);

 private:
  void narrowLeaderOf(std::size_t joint);
  bool leads(std::size_t j) const {
    return moves(robot_.joints[j].kind) && !robot_.joints[j].mimic;
  }
  void addZero();
  void addState(const RobotState& state);
  void addHalfWay();
  double halfWay(std::size_t j, double from) const;
  std::string freeName(const std::string& wanted);
  void add(const std::string& name, DocumentValues values);

  const RobotDescription& robot_;
  const RobotTree& tree_;
  XmlProblems& problems_;
  std::vector<FreeRange> ranges_;  ///< By joint; of leaders such that their followers fit too.
  DocumentValues zero_;
  std::set<std::string> names_;
  RobotModes made_;
};

/// A follower's limits bind whoever leads it, through as many as stand between.
void ModeMaker::narrowLeaderOf(std::size_t joint) {
  FreeRange range = ranges_[joint];
  for (std::size_t j = joint; tree_.leader[j]; j = *tree_.leader[j]) {
    const RobotJoint& follower = robot_.joints[j];
    const RobotJoint& leader = robot_.joints[*tree_.leader[j]];
    const double ratio = follower.mimic->multiplier * perFileUnit(leader) / perFileUnit(follower);
    const double offset = follower.mimic->offset / perFileUnit(follower);
    if (ratio == 0) return;
    range = {(range.least - offset) / ratio, (range.most - offset) / ratio};
    if (ratio < 0) std::swap(range.least, range.most);
    FreeRange& own = ranges_[*tree_.leader[j]];
    const FreeRange both{std::max(own.least, range.least), std::min(own.most, range.most)};
    if (both.empty()) {
      problems_.mistake(follower.mimic->line,
                        "joint " + inQuotes(robot_.joints[joint].name) +
                            " can never be within its limits while it mimics " +
                            inQuotes(leader.name),
                        "check its limits, multiplier and offset");
      return;
    }
    own = both;
  }
}

std::string ModeMaker::freeName(const std::string& wanted) {
  std::string name = printable(wanted, 100);
  for (int i = 2; names_.contains(name); ++i) name = wanted + " " + std::to_string(i);
  names_.insert(name);
  return name;
}

void ModeMaker::add(const std::string& name, DocumentValues values) {
  DocumentMode mode;
  mode.name = name;
  mode.values = std::move(values);
  made_.modes.push_back(std::move(mode));
}

void ModeMaker::addZero() {
  std::vector<std::string> elsewhere;
  for (std::size_t j = 0; j < robot_.joints.size(); ++j) {
    const RobotJoint& joint = robot_.joints[j];
    if (!leads(j)) continue;
    const double value = ranges_[j].nearest(0);
    zero_[joint.name] = value;
    if (value != 0) elsewhere.push_back(joint.name + " at " + valueWord(joint, value));
  }
  const std::string name = freeName(elsewhere.empty() ? "zero" : "near zero");
  add(name, zero_);
  if (elsewhere.empty()) return;
  std::string all;
  for (const std::string& one : elsewhere) all += (all.empty() ? "" : ", ") + one;
  made_.found.push_back("Mode " + inQuotes(name) + ": every joint at 0, but for limits " + all +
                        ".");
}

void ModeMaker::addState(const RobotState& state) {
  DocumentValues values = zero_;
  for (const auto& [name, value] : state.values) {
    const std::size_t j = *jointNamed(robot_, name);
    const RobotJoint& joint = robot_.joints[j];
    const double wanted = roundedWithin(value / perFileUnit(joint), kTidy);
    const double possible = ranges_[j].nearest(wanted);
    values[name] = possible;
    if (std::abs(wanted - possible) <= 1e-6) continue;
    problems_.note(0, "state " + inQuotes(state.name) + " puts joint " + inQuotes(name) + " at " +
                          valueWord(joint, wanted) +
                          ", outside its limits: " + valueWord(joint, possible) + " is taken");
  }
  add(freeName(state.name), std::move(values));
}

double ModeMaker::halfWay(std::size_t j, double from) const {
  const FreeRange& range = ranges_[j];
  const double step = slides(robot_.joints[j]) ? kUnlimitedMm : kUnlimitedDeg;
  const double up = std::min(range.most - from, 2 * step);
  const double down = std::min(from - range.least, 2 * step);
  const double value = from + (down > up ? -down : up) / 2;
  return range.nearest(std::round(value * 10) / 10);
}

void ModeMaker::addHalfWay() {
  DocumentValues values = zero_;
  for (std::size_t j = 0; j < robot_.joints.size(); ++j) {
    if (!leads(j)) continue;
    DocumentValue& value = values.at(robot_.joints[j].name);
    value = halfWay(j, std::get<double>(value));
  }
  if (values == zero_) return;
  const std::string name = freeName("half way");
  add(name, std::move(values));
  made_.found.push_back("No named states were given: mode " + inQuotes(name) +
                        " has every joint half way to its farther limit, so that a first check "
                        "can run. Give poses or named states of your own, or make modes in the "
                        "window.");
}

RobotModes ModeMaker::make(const std::vector<RobotState>& states) {
  addZero();
  for (const RobotState& state : states) addState(state);
  if (states.empty()) addHalfWay();
  if (made_.modes.size() < 2) {
    made_.found.push_back("Nothing moves: there is one mode, " + inQuotes(made_.modes[0].name) +
                          ".");
    return std::move(made_);
  }
  DocumentSequence way;
  way.from = made_.modes[0].name;
  way.to = made_.modes[1].name;
  way.name = way.from + " to " + way.to;
  made_.sequences.push_back(way);
  return std::move(made_);
}

}  // namespace

std::optional<TwoNumbers> fileLimits(const RobotJoint& joint) {
  if (!joint.limits) return std::nullopt;
  const double unit = perFileUnit(joint);
  return TwoNumbers{roundedWithin((*joint.limits)[0] / unit, kTidy),
                    roundedWithin((*joint.limits)[1] / unit, kTidy)};
}

RobotModes robotModes(const RobotDescription& robot, const RobotTree& tree,
                      const std::vector<RobotState>& states, XmlProblems& problems) {
  return ModeMaker(robot, tree, problems).make(states);
}

Outcome<RobotState> parsedPose(const std::string& words, const RobotDescription& robot) {
  const std::string where = "--pose " + words;
  const auto equals = words.find('=');
  RobotState state;
  state.name = words.substr(0, equals);
  if (equals == std::string::npos || state.name.empty()) {
    return Problem{where, "is not NAME=joint:value,...",
                   "for example --pose folded=elbow:90,wrist:-45; degrees and mm"};
  }
  Problems problems;
  std::size_t begin = equals + 1;
  while (begin < words.size()) {
    const auto end = std::min(words.find(',', begin), words.size());
    const std::string one = words.substr(begin, end - begin);
    begin = end + 1;
    const auto colon = one.rfind(':');
    const std::string name = one.substr(0, colon);
    const auto numbers =
        colon == std::string::npos ? std::nullopt : numbersIn(one.substr(colon + 1));
    if (!numbers || numbers->size() != 1) {
      problems.push_back({where, inQuotes(one) + " is not joint:value", "degrees and mm"});
      continue;
    }
    const auto index = jointNamed(robot, name);
    const bool leads = index && moves(robot.joints[*index].kind) && !robot.joints[*index].mimic;
    if (!leads) {
      std::string hint = didYouMean(name, movingJointNames(robot));
      if (hint.empty()) hint = "its moving joints are " + listed(movingJointNames(robot));
      problems.push_back({where,
                          index
                              ? "joint " + inQuotes(name) + " cannot be set: it is fixed or follows"
                              : "the robot has no joint " + inQuotes(name),
                          hint});
      continue;
    }
    state.values[name] = numbers->front() * perFileUnit(robot.joints[*index]);
  }
  if (!problems.empty()) return problems;
  return state;
}

}  // namespace swingroom
