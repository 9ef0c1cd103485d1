#include <algorithm>

#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

bool matters(const PrintedGap& gap) {
  return gap.state == PrintedState::closes ||
         (gap.state == PrintedState::apart && gap.upperMm.has_value());
}

/// The gap of the same pair in the same way as modelled.
const PairResult* modelledOf(const CheckReport& report, const PrintedGap& gap) {
  if (gap.way >= report.results.size()) return nullptr;
  const auto& pairs = report.results[gap.way].pairs;
  const auto found = std::find_if(pairs.begin(), pairs.end(), [&](const PairResult& pair) {
    return pair.a == gap.a && pair.b == gap.b;
  });
  return found == pairs.end() ? nullptr : &*found;
}

std::string modelledCell(const CheckReport& report, const PrintedGap& gap) {
  const PairResult* pair = modelledOf(report, gap);
  if (!pair || !pair->gap.upperMm) return figureCell("<span class=\"q\">not known</span>");
  return figureCell(figure(roundedUp(*pair->gap.upperMm), 2));
}

std::string playCell(const PrintedGap& gap) {
  if (gap.state != PrintedState::apart) return figureCell("");
  if (!gap.playIsKnown) return figureCell("<span class=\"q\">not known</span>");
  const double lower = roundedDown(gap.playLowerMm);
  if (!gap.playUpperMm) return figureCell("from " + figure(lower, 2));
  return figureCell(range(lower, roundedUp(*gap.playUpperMm), 2));
}

std::string says(const PrintResult& result, const PrintedGap& gap) {
  std::string text = foundOf(
      result, {gap.a, gap.b},
      {PrintWord::closesAsPrinted, PrintWord::withinScatter, PrintWord::rubsWithPlay});
  const bool rubs = gap.playUpperMm && *gap.playUpperMm <= 0;
  if (text.empty()) {
    text = "<span class=\"word\">" + layerMark(rubs && !gap.hangTogether ? LayerMark::hint : LayerMark::passes) +
           " apart</span>";
  }
  // What hangs by the joint itself is stopped by the touch.
  const char* touch = gap.hangTogether ? "touch: ends their play" : "touch with play";
  if (rubs) text += std::string("<span class=\"q\">") + touch + "</span>";
  return text;
}

std::string gapRow(const ReportPage& page, const PrintedGap& gap) {
  const PrintSubject& subject = *page.report->print->subject;
  return "<tr>" + rowHead(partPair(subject, gap.a, gap.b)) + modelledCell(*page.report, gap) +
         figureCell(figure(rounded(gap.growthMm), 2)) +
         figureCell(gap.upperMm ? range(roundedDown(gap.lowerMm), roundedUp(*gap.upperMm), 2)
                                : "from " + figure(roundedDown(gap.lowerMm), 2)) +
         playCell(gap) + textCell(whereInWay(*page.report, gap.way, gap.instant)) +
         textCell(says(*page.report->print->result, gap)) + "</tr>";
}

/// Of the pairs that have no row, and of how many joints the play is known.
std::string othersText(const PrintedGaps& printed) {
  std::size_t contacts = 0, far = 0;
  for (const PrintedGap& gap : printed.pairs) {
    contacts += gap.state == PrintedState::contact;
    far += gap.state == PrintedState::apart && !gap.upperMm;
  }
  std::string text;
  if (far > 0) text += counted(far, "pair is", "pairs are") + " farther apart than matters. ";
  if (contacts > 0) {
    text += counted(contacts, "pair touches", "pairs touch") + " by design and " +
            (contacts == 1 ? "keeps" : "keep") + " apart outside of that. ";
  }
  const std::size_t joints = printed.playKnown + printed.playUnknown;
  if (joints > 0) {
    text += "Play is known of " + std::to_string(printed.playKnown) + " of " +
            counted(joints, "joint that moves", "joints that move") + ".";
  }
  return text.empty() ? "" : "<p class=\"lead\" style=\"margin-top:8px\">" + text + "</p>";
}

}  // namespace

std::string printedGapsSection(const ReportPage& page) {
  const PrintedGaps& printed = page.report->print->result->printed;
  if (!printed.judged) return "";
  std::vector<const PrintedGap*> near;
  for (const PrintedGap& gap : printed.pairs) {
    if (matters(gap)) near.push_back(&gap);
  }
  std::stable_sort(near.begin(), near.end(), [](const PrintedGap* a, const PrintedGap* b) {
    return a->lowerMm < b->lowerMm;
  });
  std::vector<std::string> rows;
  for (const PrintedGap* gap : near) rows.push_back(gapRow(page, *gap));
  std::string content;
  if (!rows.empty()) {
    content = longTable({{"Pair"},
                         {"As modelled", true},
                         {"Growth takes", true},
                         {"As printed", true},
                         {"Worst with play", true},
                         {"Least in"},
                         {"Says"}},
                        rows, 12, "more pairs");
  }
  content += othersText(printed);
  return sectionOf("print-gaps", "Gaps as printed",
                   "In mm: the least gap on all ways; with both surfaces grown as the process grows "
                   "them; and with every joint between the two off by its play, the worst way at "
                   "once: from what holds for every such case to what was found in one.",
                   content);
}

}  // namespace swingroom::html
