#include "core/report/html/print/print_parts.h"

#include <algorithm>
#include <cmath>

#include "core/report/html/sections.h"

namespace swingroom::html {
namespace {

constexpr const char* kVermillion = "#D55E00";
constexpr const char* kGrey = "#7A7A7A";

std::string layer(double x, double y, const std::string& paint) {
  return "<rect x=\"" + at(x) + "\" y=\"" + at(y) +
         "\" width=\"12\" height=\"3.4\" rx=\"1\" " + paint + "/>";
}

std::string headRow(const std::vector<TableColumn>& columns) {
  std::string out = "<thead><tr>";
  for (const TableColumn& column : columns) {
    out += std::string("<th scope=\"col\"") + (column.figure ? " class=\"n\"" : "") + ">" +
           column.name + "</th>";
  }
  return out + "</tr></thead>";
}

}  // namespace

std::string layerMark(LayerMark mark) {
  const bool finding = mark == LayerMark::finding;
  const std::string fill = mark == LayerMark::passes ? "style=\"fill:var(--accent)\""
                           : "fill=\"" + std::string(finding ? kVermillion : kGrey) + "\"";
  const std::string open =
      "fill=\"none\" stroke=\"" + std::string(kGrey) + "\" stroke-width=\"1\"";
  const double slip = finding ? 1.6 : 0;
  return "<svg class=\"mark\" viewBox=\"0 0 16 16\" aria-hidden=\"true\">" +
         layer(2 - slip, 1.4, fill) +
         layer(2 + slip, 6.2, mark == LayerMark::hint ? open : fill) + layer(2 - slip, 11, fill) +
         "</svg>";
}

std::string tableOf(const std::vector<TableColumn>& columns, const std::string& rows) {
  return "<div class=\"scroll panel\"><table>" + headRow(columns) + "<tbody>" + rows +
         "</tbody></table></div>";
}

std::string longTable(const std::vector<TableColumn>& columns, const std::vector<std::string>& rows,
                      std::size_t most, const std::string& rest) {
  // Two or three folded rows would be a riddle for nothing.
  if (rows.size() <= most + 3) most = rows.size();
  std::string shown, others;
  for (std::size_t i = 0; i < rows.size(); ++i) (i < most ? shown : others) += rows[i];
  std::string out = tableOf(columns, shown);
  if (!others.empty()) {
    out += folded(std::to_string(rows.size() - most) + " " + rest, tableOf(columns, others));
  }
  return out;
}

std::string rowHead(const std::string& text) {
  return "<th scope=\"row\">" + text + "</th>";
}
std::string textCell(const std::string& text) {
  return "<td>" + text + "</td>";
}
std::string figureCell(const std::string& text) {
  return "<td class=\"n\">" + text + "</td>";
}

std::string figure(double jsonValue, int decimals) {
  return data(jsonValue, fixed(jsonValue, decimals));
}

std::string range(double lower, double upper, int decimals) {
  if (fixed(lower, decimals) == fixed(upper, decimals)) return figure(upper, decimals);
  return figure(lower, decimals) + " to " + figure(upper, decimals);
}

std::string loadRange(double lower, double upper) {
  if (fixed(lower, 3) == fixed(upper, 3)) return figure(upper, decimalsOf(upper));
  return figure(lower, decimalsOf(lower)) + " to " + figure(upper, decimalsOf(upper));
}

int decimalsOf(double value) {
  const double size = std::abs(value);
  return size < 0.1 ? 3 : size < 10 ? 2 : 1;
}

std::string sectionOf(const std::string& id, const std::string& title, const std::string& lead,
                      const std::string& content) {
  return "<section id=\"" + id + "\"><h2>" + title + "</h2>" +
         (lead.empty() ? "" : "<p class=\"lead\">" + lead + "</p>") + content + "</section>\n";
}

std::string subTitle(const std::string& title) {
  return "<h3 class=\"sub\">" + title + "</h3>";
}

std::string folded(const std::string& summary, const std::string& content) {
  return "<details><summary>" + summary + "</summary>" + content + "</details>";
}

std::string cautionBlock() {
  const auto& notes = cautionNotes();
  std::string more;
  for (std::size_t i = 2; i < notes.size(); ++i) more += "<li>" + escaped(notes[i]) + "</li>";
  return "<div class=\"panel care beside\"><p>" + escaped(notes.at(0)) + " " +
         escaped(notes.at(1)) + " Figures of materials are indicative.</p>" +
         folded("What these figures rest on, and what was not verified",
                "<ul class=\"plain\">" + more + "</ul>") +
         "</div>";
}

std::string partList(const PrintSubject& subject, const std::vector<PartId>& parts) {
  std::string text;
  for (const PartId part : parts) {
    text += (text.empty() ? "" : ", ") + escaped(subject.part(part).name);
  }
  return text;
}

std::string partPair(const PrintSubject& subject, PartId a, PartId b) {
  return partList(subject, {a, b});
}
std::string modeName(const PrintSubject& subject, ModeId mode) {
  return escaped(subject.modes->at(mode.index).name);
}
std::string jointName(const PrintSubject& subject, JointId joint) {
  return escaped(subject.assembly->joint(joint).name);
}

std::string foundOf(const PrintResult& result, const std::vector<PartId>& parts,
                    const std::vector<PrintWord>& words) {
  for (const PrintFinding& finding : result.findings) {
    const bool same = finding.parts == parts &&
                      std::find(words.begin(), words.end(), finding.word) != words.end();
    if (!same) continue;
    const bool fails = finding.grade == PrintGrade::finding;
    return "<span class=\"word\">" + layerMark(fails ? LayerMark::finding : LayerMark::hint) + " " +
           wordFor(finding.word) + "</span>";
  }
  return "";
}

std::string colourChip(const ReportPage& page, PartId part) {
  return "<svg class=\"chip\" viewBox=\"0 0 12 12\" aria-hidden=\"true\"><rect x=\".5\" y=\".5\" "
         "width=\"11\" height=\"11\" rx=\"2.5\" fill=\"" +
         partColour(page, part) + "\"/></svg>";
}

std::string at(double value) {
  std::string text = fixed(value, 1);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text;
}

std::string svgText(double x, double y, const std::string& anchor, const std::string& text,
                    const std::string& kind) {
  return "<text" + (kind.empty() ? "" : " class=\"" + kind + "\"") + " text-anchor=\"" + anchor +
         "\" x=\"" + at(x) + "\" y=\"" + at(y) + "\">" + escaped(text) + "</text>";
}

}  // namespace swingroom::html
