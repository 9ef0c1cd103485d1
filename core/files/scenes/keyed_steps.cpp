#include "core/files/scenes/keyed_steps.h"

#include <algorithm>
#include <cmath>

#include "core/assembly/assembly.h"
#include "core/files/document/inferred_document.h"
#include "core/motion/joint_fit.h"

namespace swingroom {
namespace {

constexpr double kMovedInFile = 2e-4;    // Degrees or mm: twice what rounding for the file takes.
constexpr double kStraightInFile = 2e-3;  // How far off one straight line of values is on it.

/// Values of all joints by station, in the file's units, a ball's in three numbers.
using Values = std::vector<Vector3d>;

class StationFitter {
 public:
  StationFitter(const AssemblyDocument& document, const std::vector<PartInTwoModes>& parts)
      : assembly_(motionOf(document, parts)), parts_(parts) {
    last_.assign(assembly_.joints().size(), JointValue::Zero());
  }

  const Assembly& assembly() const { return assembly_; }

  /// Joint values nearest to where every part is wanted, parents first.
  Values fit(const std::vector<Pose>& D) {
    done_.assign(parts_.size(), std::nullopt);
    for (std::size_t p = 0; p < parts_.size(); ++p) place(PartId{p}, D);
    worstMm_ = 0;
    Configuration now = assembly_.home();
    now.values = last_;
    const std::vector<Pose> reached = displacementsOf(assembly_, now);
    for (std::size_t p = 0; p < parts_.size(); ++p) {
      for (const Vector3d& v : parts_[p].mesh->vertices) {
        worstMm_ = std::max(worstMm_, (reached[p] * v - D[p] * v).norm());
      }
    }
    return inFile();
  }

  double worstMm() const { return worstMm_; }

 private:
  const Pose& place(PartId part, const std::vector<Pose>& D) {
    std::optional<Pose>& done = done_[part.index];
    if (done) return *done;
    const auto& mounts = assembly_.mountsOf(part);
    if (mounts.empty()) return done.emplace(Pose::Identity());
    const Mount& mount = mounts.front();
    const Pose D_parent = mount.parent ? place(*mount.parent, D) : Pose::Identity();
    std::vector<Joint> chain;
    for (const JointId id : mount.joints) chain.push_back(assembly_.joint(id));
    const JointFit fit =
        fitJoints(chain, D_parent.inverse() * D[part.index], parts_[part.index].mesh->vertices);
    std::vector<JointValue> values = fit.values;
    for (std::size_t i = 0; i < chain.size(); ++i) {
      JointValue& last = last_[mount.joints[i].index];
      if (chain[i].type == JointType::hinge) {
        // The way round that is nearest to where it was.
        values[i].x() = last.x() + std::remainder(values[i].x() - last.x(), 2 * kPi);
      }
      last = values[i];
    }
    return done.emplace(D_parent * displacementOf(chain, values));
  }

  Values inFile() const {
    Values values;
    for (std::size_t j = 0; j < last_.size(); ++j) {
      const JointType type = assembly_.joint(JointId{j}).type;
      const bool turns = type == JointType::hinge || type == JointType::ball;
      values.push_back(turns ? last_[j] / radFromDeg(1) : last_[j]);
    }
    return values;
  }

  Assembly assembly_;
  const std::vector<PartInTwoModes>& parts_;
  std::vector<JointValue> last_;
  std::vector<std::optional<Pose>> done_;
  double worstMm_ = 0;
};

/// Whether `middle` lies on the way from `from` to `to`, all joints at an even rate.
bool isOnTheWay(const Values& from, const Values& middle, const Values& to) {
  double along = 0, whole = 0;
  for (std::size_t j = 0; j < from.size(); ++j) {
    along += (middle[j] - from[j]).dot(to[j] - from[j]);
    whole += (to[j] - from[j]).squaredNorm();
  }
  if (whole == 0) return false;
  const double share = along / whole;
  if (share < 0 || share > 1) return false;
  for (std::size_t j = 0; j < from.size(); ++j) {
    const Vector3d expected = from[j] + share * (to[j] - from[j]);
    if ((middle[j] - expected).norm() > kStraightInFile) return false;
  }
  return true;
}

class WayWriter {
 public:
  WayWriter(const Assembly& assembly, const KeyedMotion& motion, const std::vector<Values>& values,
            AssemblyDocument& document)
      : assembly_(assembly), motion_(motion), values_(values), document_(document) {}

  void write() {
    std::size_t from = 0;
    addMode(0);
    for (std::size_t s = 1; s < motion_.stations.size(); ++s) {
      if (motion_.stations[s].mode.empty()) continue;
      addMode(s);
      addSequence(from, s);
      from = s;
    }
  }

 private:
  DocumentValue written(std::size_t joint, const Vector3d& value) const {
    const auto rounded = [](double x) { return roundedWithin(x, 1e-4); };
    if (assembly_.joint(JointId{joint}).type == JointType::ball) {
      return ThreeNumbers{rounded(value.x()), rounded(value.y()), rounded(value.z())};
    }
    return rounded(value.x());
  }

  bool isFixed(std::size_t joint) const {
    return assembly_.joint(JointId{joint}).type == JointType::fixed;
  }

  void addMode(std::size_t station) {
    DocumentValues values;
    for (std::size_t j = 0; j < assembly_.joints().size(); ++j) {
      if (!isFixed(j)) values[nameOf(j)] = written(j, values_[station][j]);
    }
    document_.modes.push_back({motion_.stations[station].mode, values, {}, {}, {}});
  }

  /// Stations at which a step ends, without those that one step goes through.
  std::vector<std::size_t> endsOf(std::size_t from, std::size_t to) const {
    std::vector<std::size_t> ends;
    std::size_t start = from;
    for (std::size_t s = from + 1; s < to; ++s) {
      // All stations since the step's start must be on the straight line to the next one.
      bool straight = true;
      for (std::size_t m = start + 1; m <= s && straight; ++m) {
        straight = isOnTheWay(values_[start], values_[m], values_[s + 1]);
      }
      if (straight) continue;
      ends.push_back(s);
      start = s;
    }
    ends.push_back(to);
    return ends;
  }

  void addSequence(std::size_t from, std::size_t to) {
    const std::string &a = motion_.stations[from].mode, &b = motion_.stations[to].mode;
    DocumentSequence sequence{a + " to " + b, a, b, {}, {}};
    const std::vector<std::size_t> ends = endsOf(from, to);
    std::size_t start = from;
    for (const std::size_t end : ends) {
      DocumentStep step;
      step.name = ends.size() == 1 ? "all together"
                                   : secondsText(motion_.stations[start].timeS) + " to " +
                                         secondsText(motion_.stations[end].timeS);
      DocumentValues moves;
      for (std::size_t j = 0; j < assembly_.joints().size(); ++j) {
        const bool moved = (values_[end][j] - values_[start][j]).norm() > kMovedInFile;
        if (!isFixed(j) && moved) moves[nameOf(j)] = written(j, values_[end][j]);
      }
      start = end;
      if (moves.empty()) continue;
      step.moves = moves;
      sequence.steps.push_back(step);
    }
    if (!sequence.steps.empty()) document_.sequences.push_back(sequence);
  }

  const std::string& nameOf(std::size_t joint) const {
    return assembly_.joint(JointId{joint}).name;
  }

  const Assembly& assembly_;
  const KeyedMotion& motion_;
  const std::vector<Values>& values_;
  AssemblyDocument& document_;
};

}  // namespace

std::vector<double> addKeyedWay(const KeyedMotion& motion, const std::vector<PartInTwoModes>& parts,
                                const std::vector<std::vector<Pose>>& D,
                                AssemblyDocument& document) {
  StationFitter fitter(document, parts);
  std::vector<Values> values{Values(document.joints.size(), Vector3d::Zero())};
  std::vector<double> misfits;
  for (const std::vector<Pose>& station : D) {
    values.push_back(fitter.fit(station));
    misfits.push_back(fitter.worstMm());
  }
  WayWriter(fitter.assembly(), motion, values, document).write();
  return misfits;
}

}  // namespace swingroom
