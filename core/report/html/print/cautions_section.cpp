#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

std::string namesWith(const PrintSubject& subject, const CautionsResult& cautions,
                      PassAnswer answer) {
  std::vector<PartId> parts;
  for (const PartCautions& part : cautions.parts) {
    if (part.fitsSmallParts == answer) parts.push_back(part.part);
  }
  return partList(subject, parts);
}

std::string smallPartsBlock(const PrintSubject& subject, const CautionsResult& cautions) {
  const std::size_t fit = cautions.count(PassAnswer::yes), may = cautions.count(PassAnswer::maybe);
  std::string out = subTitle("Small parts") + "<p>" + std::to_string(fit) + " of " +
                    counted(cautions.parts.size(), "part goes", "parts go") +
                    " wholly into the small-parts cylinder (16 CFR 1501.4)";
  out += may > 0 ? ", " + std::to_string(may) + " more may.</p>" : ".</p>";
  if (fit > 0) out += folded("Which go in", "<p>" + namesWith(subject, cautions, PassAnswer::yes) + "</p>");
  if (may > 0) out += folded("Which may", "<p>" + namesWith(subject, cautions, PassAnswer::maybe) + "</p>");
  std::string balls;
  for (const PartCautions& part : cautions.parts) {
    if (!part.ballLike || part.passesBallHole == PassAnswer::no) continue;
    balls += "<li>" + escaped(subject.part(part.part).name) + " is round as a ball and " +
             (part.passesBallHole == PassAnswer::yes ? "passes" : "may pass") +
             " a hole of 44.45\u00a0mm diameter (16 CFR 1117.2).</li>";
  }
  return out + (balls.empty() ? "" : "<ul class=\"plain\">" + balls + "</ul>");
}

std::string openingRow(const PrintSubject& subject, const FingerGap& gap) {
  const double most = rounded(gap.mostMm);
  return "<tr>" + rowHead(partPair(subject, gap.a, gap.b)) + textCell(wordFor(gap.place)) +
         figureCell(figure(rounded(gap.leastMm), 1)) +
         figureCell(most >= kFingerLookMm ? "≥\u00a0" + fixed(kFingerLookMm, 0) : figure(most, 1)) +
         textCell(escaped(subject.ways->at(gap.way).name)) +
         figureCell(fixed(gap.from, 2) + " to " + fixed(gap.to, 2)) + "</tr>";
}

/// Those that close on a finger first.
std::string openingsBlock(const PrintSubject& subject, const CautionsResult& cautions) {
  if (cautions.fingerGaps.empty()) return "";
  std::vector<std::string> closing, others;
  for (const FingerGap& gap : cautions.fingerGaps) {
    (gap.leastMm < FingerRods{}.thinMm ? closing : others).push_back(openingRow(subject, gap));
  }
  const std::vector<TableColumn> columns = {{"Parts"},           {"Where"}, {"Least, mm", true},
                                            {"Most, mm", true}, {"Way"},   {"5 to 12 mm wide, instants", true}};
  std::string out = subTitle("Openings between moving parts");
  out += "<p class=\"lead\">Somewhere on a way 5 to 12 mm wide (EN 71-1 4.10), sampled; " +
         counted(closing.size(), "closes", "close") + " below 5 mm.</p>";
  if (!closing.empty()) out += longTable(columns, closing, 8, "more that close");
  if (!others.empty()) {
    std::string rows;
    for (const std::string& row : others) rows += row;
    out += folded(counted(others.size(), "opening", "openings") + " that " +
                      (others.size() == 1 ? "does" : "do") + " not close",
                  tableOf(columns, rows));
  }
  return out;
}

std::string sharpRow(const PrintSubject& subject, const PartCautions& part) {
  const SharpEdges& sharp = part.sharp;
  return "<tr>" + rowHead(escaped(subject.part(part.part).name)) +
         figureCell(sharp.edges > 0 ? figure(rounded(sharp.lengthMm), 1) : "") +
         figureCell(sharp.edges > 0 ? figure(rounded(degFromRad(sharp.leastRad)), 1) : "") +
         textCell(sharp.sharpest_P ? point(*sharp.sharpest_P, 1) : "") +
         figureCell(std::to_string(sharp.points)) + "</tr>";
}

std::string sharpBlock(const PrintSubject& subject, const CautionsResult& cautions) {
  std::vector<std::string> rows;
  for (const PartCautions& part : cautions.parts) {
    if (part.sharp.edges + part.sharp.points > 0) rows.push_back(sharpRow(subject, part));
  }
  if (rows.empty()) return "";
  return subTitle("Sharp edges and points") +
         longTable({{"Part"},
                    {"Edge under 60°, mm", true},
                    {"Sharpest, °", true},
                    {"At"},
                    {"Points", true}},
                   rows, 12, "more parts");
}

}  // namespace

std::string printCautionsSection(const ReportPage& page) {
  const PrintReport& print = *page.report->print;
  const CautionsResult& cautions = print.result->cautions;
  if (cautions.parts.empty()) return "";
  return sectionOf("print-cautions", "Small parts, openings, edges", "",
                   cautionBlock() + smallPartsBlock(*print.subject, cautions) +
                       openingsBlock(*print.subject, cautions) +
                       sharpBlock(*print.subject, cautions));
}

}  // namespace swingroom::html
