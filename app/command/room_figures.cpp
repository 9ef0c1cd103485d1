#include "app/command/room_figures.h"

#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <memory>

#include "app/command/say.h"
#include "core/measure/report_folder.h"
#include "core/report/words.h"
#include "core/room/growth.h"

namespace swingroom {
namespace {

constexpr double kMostScale = 2;
constexpr double kFineMm = 0.01;  ///< Of growth, unless a coarser map was asked for.

/// Rounded towards less, so that no figure says more than is proven.
std::string roundedDown(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return words::fixed(std::floor(value * scale + 1e-9) / scale, decimals);
}
std::string roundedUp(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return words::fixed(std::ceil(value * scale - 1e-9) / scale, decimals);
}

double areaOf(const RoomPlace& place) {
  const auto& [a, b, c] = place.corners_P;
  return 0.5 * (b - a).cross(c - a).norm();
}

Vector3d middleOf(const RoomPlace& place) {
  return (place.corners_P[0] + place.corners_P[1] + place.corners_P[2]) / 3;
}

const char* wordFor(RoomState state) {
  constexpr const char* words[] = {"room", "capped", "none", "zone", "contact"};
  return words[static_cast<int>(state)];
}

bool isJudged(const RoomPlace& place) {
  return place.state != RoomState::zone && place.state != RoomState::contact;
}

/// Says figures of one part's room on standard output.
class RoomTeller {
 public:
  RoomTeller(const RoomSubject& subject, const std::vector<Mode>& modes)
      : subject_(subject), modes_(modes), part_(subject.assembly.part(subject.part)) {}

  void tellMap(const RoomMap& map) const {
    std::printf("Room of %s, to %s mm, as modelled; up to %s mm is looked for:\n", part_.name.c_str(),
                words::shortest(map.resolutionMm).c_str(), words::shortest(map.capMm).c_str());
    const RoomPlace* least = leastOf(map);
    if (!least) {
      std::printf("  all of its surface is in joint zones or touches by design: nothing to judge\n");
      return;
    }
    tellArea(map);
    for (const RoomPlace* place : leastByPart(map)) tellPlace(*place);
    if (!least->stop) std::printf("  nothing comes near enough to matter\n");
  }

  void tellScale(const GrowthLimit& limit, const Vector3d& centre_P, const std::string& what) const {
    const std::string about = words::point(part_.X_WP_home * centre_P) + what;
    if (limit.none) {
      std::printf("Scale about %s: no growth, %s\n", about.c_str(), stopText(*limit.stop).c_str());
    } else if (limit.broken) {
      std::printf("Scale about %s: clear up to %s; at %s %s%s\n", about.c_str(), roundedDown(limit.proven, 4).c_str(),
                  roundedUp(*limit.broken, 4).c_str(), stopText(*limit.stop).c_str(), doneText(limit));
    } else {
      std::printf("Scale about %s: clear up to %s, no more was looked at%s\n", about.c_str(),
                  roundedDown(limit.proven, 4).c_str(), doneText(limit));
    }
  }

  void tellOffset(const GrowthLimit& limit) const {
    if (limit.none) {
      std::printf("Offset of the whole surface: no growth, %s\n", stopText(*limit.stop).c_str());
    } else if (limit.broken) {
      std::printf("Offset of the whole surface: clear up to %s mm; at %s mm %s%s\n",
                  roundedDown(limit.proven, 3).c_str(), roundedUp(*limit.broken, 3).c_str(),
                  stopText(*limit.stop).c_str(), doneText(limit));
    } else {
      std::printf("Offset of the whole surface: clear up to %s mm, no more was looked at%s\n",
                  roundedDown(limit.proven, 3).c_str(), doneText(limit));
    }
    std::printf("Joint zones, and where other parts may touch by design, are left out of both.\n");
  }

 private:
  static const char* doneText(const GrowthLimit& limit) { return limit.done ? "" : " (between the two: too close to tell)"; }

  static const RoomPlace* leastOf(const RoomMap& map) {
    const RoomPlace* least = nullptr;
    for (const RoomPlace& place : map.places) {
      if (isJudged(place) && (!least || isLess(place, *least))) least = &place;
    }
    return least;
  }
  static bool isLess(const RoomPlace& a, const RoomPlace& b) {
    const bool noneA = a.state == RoomState::none, noneB = b.state == RoomState::none;
    if (noneA != noneB) return noneA;
    return a.lowerMm != b.lowerMm ? a.lowerMm < b.lowerMm : a.upperMm < b.upperMm;
  }

  /// Of each part that comes near, the place that it leaves least; nearest first.
  static std::vector<const RoomPlace*> leastByPart(const RoomMap& map) {
    std::map<PartId, const RoomPlace*> byPart;
    for (const RoomPlace& place : map.places) {
      if (!place.stop || !isJudged(place)) continue;
      const RoomPlace*& least = byPart[place.stop->part];
      if (!least || isLess(place, *least)) least = &place;
    }
    std::vector<const RoomPlace*> sorted;
    for (const auto& [part, place] : byPart) sorted.push_back(place);
    std::stable_sort(sorted.begin(), sorted.end(), [](const auto* a, const auto* b) { return isLess(*a, *b); });
    return sorted;
  }

  void tellArea(const RoomMap& map) const {
    double whole = 0, none = 0, little = 0, full = 0, zone = 0, contact = 0;
    for (const RoomPlace& place : map.places) {
      const double area = areaOf(place);
      whole += area;
      if (place.state == RoomState::none) none += area;
      if (place.state == RoomState::room && place.lowerMm < 1) little += area;
      if (place.state == RoomState::capped) full += area;
      if (place.state == RoomState::zone) zone += area;
      if (place.state == RoomState::contact) contact += area;
    }
    const auto share = [&](double area) { return words::fixed(100 * area / whole, 0) + " %"; };
    std::printf("  of its surface %s has none, %s less than 1 mm, %s all that is looked for; left out: %s in joint "
                "zones, %s where it touches by design\n",
                share(none).c_str(), share(little).c_str(), share(full).c_str(), share(zone).c_str(),
                share(contact).c_str());
  }

  void tellPlace(const RoomPlace& place) const {
    const std::string figure = place.state == RoomState::none
                                   ? "no room"
                                   : roundedDown(place.lowerMm, 3) + " to " + roundedUp(place.upperMm, 3) + " mm";
    std::printf("  %-20s by %s, %s, at %s\n", figure.c_str(), subject_.assembly.part(place.stop->part).name.c_str(),
                when(place.stop->way, place.stop->instant).c_str(), where(middleOf(place)).c_str());
  }

  std::string stopText(const GrowthStop& stop) const {
    return subject_.assembly.part(stop.part).name + " is nearer than its required gap, " +
           when(stop.way, stop.instant) + ", at " + where(stop.place_P);
  }

  std::string when(std::uint32_t way, double instant) const {
    const Sequence& sequence = subject_.ways[way];
    if (words::standsStill(sequence)) return words::whereInWay(modes_, sequence, instant);
    return words::wayName(modes_, sequence) + " " + words::whereInWay(modes_, sequence, instant);
  }

  /// As everything stands with every joint at 0, as places are written in the file.
  std::string where(const Vector3d& p_P) const { return words::point(part_.X_WP_home * p_P); }

  const RoomSubject& subject_;
  const std::vector<Mode>& modes_;
  const Part& part_;
};

/// A name as a field of a table: RFC 4180.
std::string tableField(const std::string& name) {
  if (name.find_first_of(",\"\n\r") == std::string::npos) return name;
  std::string text = "\"";
  for (const char c : name) text += c == '"' ? std::string("\"\"") : std::string(1, c);
  return text + "\"";
}

std::string mapText(const RoomMap& map, const RoomSubject& subject) {
  std::string text = "triangle,ax,ay,az,bx,by,bz,cx,cy,cz,state,lower,upper,part,way,instant\n";
  for (const RoomPlace& place : map.places) {
    text += std::to_string(place.triangle);
    for (const Vector3d& corner : place.corners_P) {
      for (const double x : corner) text += "," + words::fixed(x, 6);
    }
    text += std::string(",") + wordFor(place.state) + "," + roundedDown(place.lowerMm, 6) + "," +
            roundedUp(place.upperMm, 6) + ",";
    if (place.stop) {
      text += tableField(subject.assembly.part(place.stop->part).name) + "," + tableField(subject.ways[place.stop->way].name) +
              "," + words::fixed(place.stop->instant, 6);
    } else {
      text += ",,";
    }
    text += "\n";
  }
  return text;
}

/// Where the part is scaled about, and what that is.
std::pair<Vector3d, std::string> centreOf(const FigureWords& words, const RoomSubject& subject) {
  const Part& part = subject.assembly.part(subject.part);
  const Pose X_PW = part.X_WP_home.inverse();
  if (words.about.size() == 3) return {X_PW * Vector3d(words.about[0], words.about[1], words.about[2]), ""};
  for (const JointType type : {JointType::ball, JointType::hinge}) {
    for (const Joint& joint : subject.assembly.joints()) {
      if (joint.child == subject.part && joint.type == type) return {X_PW * joint.through, " (joint " + joint.name + ")"};
    }
  }
  return {boundsOf(*part.mesh).center(), " (its middle)"};
}

std::unique_ptr<WorkMonitor> roomMonitor() {
  if (!isatty(STDERR_FILENO)) return std::make_unique<WorkMonitor>();
  return std::make_unique<WorkMonitor>([](std::size_t done, std::size_t total) {
    std::fprintf(stderr, done < total ? "\r%zu of %zu" : "\r\033[K", done, total);
  });
}

}  // namespace

void addFigureOptions(CLI::App& room, FigureWords& words) {
  room.add_option("--resolution", words.resolutionMm, "Width of the figures' brackets, mm (default: 0.1)")
      ->check(CLI::Range(1e-3, 1.0));
  room.add_flag("--growth", words.growth, "How far the part may be scaled, and its whole surface offset");
  room.add_option("--about", words.about,
                  "x,y,z that it is scaled about, in the assembly frame (default: its ball or hinge, else its middle)")
      ->delimiter(',')
      ->expected(3);
  room.add_option("--map", words.mapFile, "Write the room of every place of its surface to this file (CSV)");
}

int runFigures(const FigureWords& words, const RoomSubject& subject, const std::vector<Mode>& modes,
               unsigned threads) {
  const RoomTeller teller(subject, modes);
  RoomSettings settings;
  settings.resolutionMm = words.resolutionMm;
  settings.threads = threads;
  const RoomMap map = roomMap(subject, settings, *roomMonitor());
  teller.tellMap(map);
  if (!words.mapFile.empty()) {
    if (const auto problem = writeFile(words.mapFile, mapText(map, subject))) {
      say(*problem);
      return 2;
    }
  }
  if (words.growth || !words.about.empty()) {
    GrowthSettings growth;
    growth.resolutionMm = std::min(kFineMm, words.resolutionMm);
    growth.mostScale = kMostScale;
    growth.threads = threads;
    const auto [centre_P, what] = centreOf(words, subject);
    teller.tellScale(scaleLimit(subject, centre_P, growth, *roomMonitor()), centre_P, what);
    teller.tellOffset(offsetLimit(subject, growth, *roomMonitor()));
  }
  const bool none = std::any_of(map.places.begin(), map.places.end(),
                                [](const RoomPlace& place) { return place.state == RoomState::none; });
  return none ? 1 : 0;
}

}  // namespace swingroom
