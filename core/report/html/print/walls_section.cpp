#include <algorithm>
#include <limits>

#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

/// Parts that share one map.
struct WallGroup {
  const WallMap* map = nullptr;
  std::vector<PartId> parts;

  double leastMm() const {
    return map->leastLowerMm.value_or(std::numeric_limits<double>::infinity());
  }
};

std::vector<WallGroup> wallGroups(const WallsResult& walls) {
  std::vector<WallGroup> groups;
  for (std::size_t p = 0; p < walls.maps.size(); ++p) {
    const WallMap* map = walls.maps[p].get();
    if (!map) continue;
    const auto same = [&](const WallGroup& group) { return group.map == map; };
    auto known = std::find_if(groups.begin(), groups.end(), same);
    if (known == groups.end()) known = groups.insert(groups.end(), {map, {}});
    known->parts.push_back(PartId{p});
  }
  std::stable_sort(groups.begin(), groups.end(), [](const WallGroup& a, const WallGroup& b) {
    return a.leastMm() < b.leastMm();
  });
  return groups;
}

std::string neededText(const PartPrint& print) {
  const double wall = rounded(print.process.leastWallMm.value);
  const double free = rounded(print.process.leastFreeWallMm.value);
  if (wall == free) return figure(wall, 2);
  return figure(wall, 2) + "<span class=\"q\">free " + figure(free, 2) + "</span>";
}

std::string wallRow(const PrintReport& print, const WallGroup& group) {
  const PrintSubject& subject = *print.subject;
  const WallMap& map = *group.map;
  std::string out = "<tr>" + rowHead(partList(subject, group.parts));
  const ThinSpot* thinnest = thinnestOf(map);
  if (!map.judged) {
    return out + "<td colspan=\"6\">not judged: " + escaped(map.whyNot) + "</td></tr>";
  }
  const std::string found = foundOf(*print.result, {group.parts.front()},
                                    {PrintWord::thinWall, PrintWord::neck, PrintWord::thinPin});
  if (!thinnest) {
    return out + figureCell("over " + fixed(map.mostMm, 2)) + textCell("none thinner") +
           figureCell(neededText(subject.print(group.parts.front()))) + figureCell("") +
           figureCell("0") + textCell("") + "</tr>";
  }
  return out +
         figureCell(range(roundedDown(*map.leastLowerMm), roundedUp(*map.leastUpperMm), 2)) +
         textCell(std::string(wordFor(thinnest->kind)) + (thinnest->free ? ", held on one side" : "") +
                  (found.empty() ? "" : "<br>" + found)) +
         figureCell(neededText(subject.print(group.parts.front()))) +
         figureCell(figure(rounded(thinnest->areaMm2), 1)) +
         figureCell(std::to_string(map.spots.size())) + textCell(point(thinnest->at_P, 1)) + "</tr>";
}

struct Thin {
  const WallGroup* group = nullptr;
  const ThinSpot* spot = nullptr;
};

std::string spotRow(const PrintSubject& subject, const Thin& thin) {
  const ThinSpot& spot = *thin.spot;
  return "<tr>" + rowHead(partList(subject, thin.group->parts)) +
         figureCell(range(roundedDown(spot.lowerMm), roundedUp(spot.upperMm), 2)) +
         textCell(wordFor(spot.kind)) +
         figureCell(spot.kind == WallKind::neck ? figure(rounded(spot.acrossMm), 2) : "") +
         textCell(spot.free ? "one side or none" : "two sides or more") +
         figureCell(figure(rounded(spot.areaMm2), 1)) + textCell(point(spot.at_P, 1)) + "</tr>";
}

/// The thinnest of all parts.
std::string thinnestTable(const PrintSubject& subject, const std::vector<WallGroup>& groups) {
  constexpr std::size_t kMost = 30;
  std::vector<Thin> all;
  for (const WallGroup& group : groups) {
    for (const ThinSpot& spot : group.map->spots) all.push_back({&group, &spot});
  }
  std::stable_sort(all.begin(), all.end(), [](const Thin& a, const Thin& b) {
    return a.spot->upperMm < b.spot->upperMm;
  });
  if (all.size() > kMost) all.resize(kMost);
  std::string rows;
  for (const Thin& thin : all) rows += spotRow(subject, thin);
  if (rows.empty()) return "";
  return folded("The " + counted(all.size(), "thinnest place", "thinnest places") + " of all parts",
                tableOf({{"Part"},
                         {"Thick", true},
                         {"Kind"},
                         {"Across", true},
                         {"Held along"},
                         {"Area, mm²", true},
                         {"At"}},
                        rows));
}

}  // namespace

std::string wallsSection(const ReportPage& page) {
  const PrintReport& print = *page.report->print;
  const std::vector<WallGroup> groups = wallGroups(print.result->walls);
  if (groups.empty()) return "";
  std::vector<std::string> rows;
  for (const WallGroup& group : groups) rows.push_back(wallRow(print, group));
  return sectionOf("print-walls", "Walls",
                   "In mm, thinnest first: no wall or neck of the part is thinner than the first "
                   "figure, and one is no thicker than the second. Places are in the part's own "
                   "frame. Edges that taper to nothing and low reliefs are left out; a thin place of "
                   "hardly any area is listed and is no finding.",
                   longTable({{"Part"},
                              {"Least thickness", true},
                              {"Kind"},
                              {"Least that prints", true},
                              {"Area there, mm²", true},
                              {"Thin places", true},
                              {"Thinnest at"}},
                             rows, 12, "more parts") +
                       thinnestTable(*print.subject, groups));
}

}  // namespace swingroom::html
