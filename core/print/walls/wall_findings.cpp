#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <utility>

#include "core/print/walls/walls.h"

namespace swingroom {
namespace {

/// A wall that was meant to be as thick as it has to be is not thin by a mesh file's rounding.
constexpr double kWallRoundingMm = 1e-3;
/// Smaller ones print as a part of what is about them; of both sides.
constexpr double kWallLeastAreaMm2 = 0.5;
/// Edges are told from this length on, of one part.
constexpr double kWallLeastEdgesMm = 10;

std::string wallMm(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", mm);
  return text;
}

class WallFinder {
 public:
  WallFinder(const PrintSubject& subject, PartId part, const WallMap& map, PrintFindings& findings)
      : subject_(subject),
        part_(part),
        map_(map),
        process_(subject.print(part).process),
        findings_(findings) {}

  void addAll() {
    for (std::size_t i = 0; i < map_.spots.size(); ++i) {
      if (map_.spots[i].kind == WallKind::neck)
        addNeck(i);
      else
        addWall(i);
    }
    for (const PinFigure& pin : map_.pins) addPin(pin);
    addEdges();
  }

 private:
  PrintFinding& add(PrintWord word, PrintGrade grade, const Vector3d& at_P) {
    PrintFinding finding;
    finding.word = word;
    finding.grade = grade;
    finding.parts = {part_};
    finding.at_P = at_P;
    finding.unit = "mm";
    findings_.push_back(std::move(finding));
    return findings_.back();
  }

  /// Of both sides, thinner than what is needed.
  double areaUnder(std::size_t spot, double needed) const {
    double areaMm2 = 0;
    for (const WallPlace& place : map_.places) {
      if (place.spot != spot || !(place.lowerMm < needed - kWallRoundingMm)) continue;
      const auto& t = place.corners_P;
      areaMm2 += (t[1] - t[0]).cross(t[2] - t[0]).norm() / 2;
    }
    return areaMm2;
  }

  void addWall(std::size_t index) {
    const ThinSpot& spot = map_.spots[index];
    const double needed = spot.free ? process_.leastFreeWallMm.value : process_.leastWallMm.value;
    if (!(spot.lowerMm < needed - kWallRoundingMm)) return;
    if (areaUnder(index, needed) < kWallLeastAreaMm2) return;
    const bool surely = spot.upperMm < needed - kWallRoundingMm;
    PrintFinding& finding =
        add(PrintWord::thinWall, surely ? PrintGrade::finding : PrintGrade::hint, spot.at_P);
    finding.lower = spot.lowerMm;
    finding.upper = spot.upperMm;
    finding.needed = needed;
    finding.sentence =
        (surely ? wallMm(spot.upperMm) + " mm thick at its thinnest, "
                : "between " + wallMm(spot.lowerMm) + " and " + wallMm(spot.upperMm) +
                      " mm thick at its thinnest, ") +
        (spot.free ? "held along one side at most; " : "held on two sides or more; ") +
        wallMm(needed) + " mm is the least that prints";
  }

  void addNeck(std::size_t index) {
    const ThinSpot& spot = map_.spots[index];
    const double wall = process_.leastFreeWallMm.value, pin = process_.leastPinMm.value;
    if (!(spot.upperMm < std::max(wall, pin) - kWallRoundingMm)) return;
    if (isPinItself(spot)) return;
    if (areaUnder(index, std::max(wall, pin)) < kWallLeastAreaMm2) return;
    const bool fails = spot.upperMm < wall - kWallRoundingMm;
    // Of those that only are no pins, the thinnest is enough.
    if (!fails && (spot.acrossMm >= pin || std::exchange(neckTold_, true))) return;
    PrintFinding& finding =
        add(PrintWord::neck, fails ? PrintGrade::finding : PrintGrade::hint, spot.at_P);
    finding.lower = spot.lowerMm;
    finding.upper = spot.upperMm;
    finding.needed = fails ? wall : pin;
    finding.sentence = wallMm(spot.upperMm) + " mm by " + wallMm(spot.acrossMm) +
                       " mm at its thinnest; " +
                       (fails ? wallMm(wall) + " mm is the least wall that prints"
                              : "a pin that bears is to be " + wallMm(pin) + " mm thick");
  }

  /// Its pin is told instead.
  bool isPinItself(const ThinSpot& spot) const {
    return std::any_of(map_.pins.begin(), map_.pins.end(), [&](const PinFigure& pin) {
      const Vector3d off = spot.at_P - pin.middle_P;
      const double along = off.dot(pin.along_P);
      return std::abs(along) <= pin.lengthMm / 2 + 0.1 &&
             (off - along * pin.along_P).norm() <= pin.diameterMm / 2 &&
             spot.upperMm > 0.9 * pin.diameterMm;
    });
  }

  bool isJointPin(const PinFigure& pin) const {
    const Pose& X_WP = subject_.part(part_).X_WP_home;
    const Vector3d middle = X_WP * pin.middle_P, along = X_WP.linear() * pin.along_P;
    const auto& joints = subject_.assembly->joints();
    return std::any_of(joints.begin(), joints.end(), [&](const Joint& joint) {
      if (joint.type != JointType::hinge) return false;
      if (joint.parent != part_ && joint.child != part_) return false;
      const Vector3d off = middle - joint.through;
      return joint.along.cross(along).norm() < 0.02 &&
             joint.along.cross(off).norm() < 0.25 * pin.diameterMm;
    });
  }

  void addPin(const PinFigure& pin) {
    const bool turns = isJointPin(pin);
    const double needed = turns ? process_.leastJointPinMm.value : process_.leastPinMm.value;
    // What was fitted is as good as its corners lie on it.
    if (!(pin.diameterMm < needed - kWallRoundingMm - 2 * pin.residualMm)) return;
    PrintFinding& finding = add(PrintWord::thinPin, PrintGrade::finding, pin.middle_P);
    finding.lower = pin.diameterMm - 2 * pin.residualMm;
    finding.upper = pin.diameterMm + 2 * pin.residualMm;
    finding.needed = needed;
    finding.sentence = "a pin " + wallMm(pin.diameterMm) + " mm in diameter" +
                       (turns ? ", on which a joint turns; " : "; ") + wallMm(needed) +
                       " mm is the least";
  }

  void addEdges() {
    if (map_.blades.empty()) return;
    double lengthMm = 0;
    const BladeEdge* sharpest = &map_.blades.front();
    for (const BladeEdge& edge : map_.blades) {
      lengthMm += edge.lengthMm;
      if (edge.openingRad < sharpest->openingRad) sharpest = &edge;
    }
    if (lengthMm < kWallLeastEdgesMm) return;
    PrintFinding& finding = add(PrintWord::thinEdge, PrintGrade::hint, sharpest->at_P);
    const double degrees = sharpest->openingRad * 180 / std::numbers::pi;
    finding.lower = finding.upper = lengthMm;
    char text[160];
    std::snprintf(text, sizeof text,
                  "%.0f mm of edges that taper to nothing, the sharpest at %.0f degrees; "
                  "they print blunt or not at all",
                  lengthMm, degrees);
    finding.sentence = text;
  }

  const PrintSubject& subject_;
  PartId part_;
  const WallMap& map_;
  const PrintProcess& process_;
  PrintFindings& findings_;
  bool neckTold_ = false;
};

}  // namespace

void addWallFindings(const PrintSubject& subject, const WallsResult& result,
                     PrintFindings& findings) {
  for (std::size_t i = 0; i < result.maps.size(); ++i) {
    if (result.maps[i] && result.maps[i]->judged)
      WallFinder(subject, PartId{i}, *result.maps[i], findings).addAll();
  }
}

}  // namespace swingroom
