#include "core/report/html/marks.h"
#include "core/report/html/sections.h"
#include "core/report/html/text.h"

namespace swingroom::html {
namespace {

std::string measured(const ContactFigure& figure) {
  if (figure.depthMm && *figure.depthMm > 0) {
    return "overlap " + data(rounded(*figure.depthMm), millimetres(rounded(*figure.depthMm)));
  }
  if (!figure.gapMm) return "no surface there";
  if (*figure.gapMm <= 0) return "touching";
  return "gap " + data(rounded(*figure.gapMm), millimetres(rounded(*figure.gapMm), 3));
}

std::string wanted(const Contact& contact) {
  std::string out;
  const auto span = [](const Span& s) { return fixed(s.min, 2) + " to " + millimetres(s.max); };
  if (contact.overlapMm) out += "overlap " + span(*contact.overlapMm);
  if (contact.gapMm) out += (out.empty() ? "" : ", ") + std::string("gap ") + span(*contact.gapMm);
  return out.empty() ? "touch" : out;
}

std::string row(const ReportPage& page, const ContactFigure& figure) {
  const CheckReport& report = *page.report;
  const Assembly& assembly = report.loaded->assembly;
  const PairRule* rule = assembly.ruleFor(figure.a, figure.b);
  const Contact& contact = rule->contacts.at(figure.contact);
  const std::string where =
      figure.mode ? "mode " + escaped(report.loaded->modes.at(figure.mode->index).name)
                  : "step " + escaped(figure.step) + " of " + escaped(figure.way);
  const std::string place =
      contact.place ? point(contact.place->at) + ", radius " + millimetres(contact.place->radiusMm)
                    : std::string("anywhere");
  std::string met = "<span class=\"q\">may, need not</span>";
  if (figure.judged) {
    met = figure.met ? mark(Verdict::clear) + " met"
                     : mark(Verdict::loose) + " not met: " + escaped(figure.why);
  } else if (!figure.met) {
    met = mark(Verdict::clash) + " " + escaped(figure.why);
  }
  return "<tr><th scope=\"row\">" + std::string(wordFor(contact.kind)) + "</th><td>" +
         escaped(assembly.part(figure.a).name) + ", " + escaped(assembly.part(figure.b).name) +
         "</td><td>" + where + "</td><td>" + place + "</td><td>" + wanted(contact) + "</td><td>" +
         measured(figure) + "</td><td>" + met + "</td><td>" + escaped(contact.reason) +
         "</td></tr>";
}

std::string allowedList(const ReportPage& page) {
  const Assembly& assembly = page.report->loaded->assembly;
  std::string rows;
  for (const PairRule& rule : assembly.pairRules()) {
    if (!rule.allowReason) continue;
    rows +=
        "<li>" + pairNames(assembly, rule.a, rule.b) + ": " + escaped(*rule.allowReason) + "</li>";
  }
  if (rows.empty()) return "";
  return "<section id=\"allowed\"><h2>Allowed pairs</h2><p class=\"lead\">Taken out of the "
         "verdicts by the assembly "
         "file, each with its reason.</p><ul class=\"plain\">" +
         rows + "</ul></section>";
}

}  // namespace

std::string contactsSection(const ReportPage& page) {
  std::string rows;
  for (const ContactFigure& figure : page.figures->contacts) rows += row(page, figure);
  if (rows.empty()) return allowedList(page);
  return "<section id=\"contacts\"><h2>Intended contacts</h2><p class=\"lead\">Touch or overlap "
         "that the assembly file "
         "asks for or lets pass, and how it stands.</p><div class=\"scroll "
         "panel\"><table><thead><tr>"
         "<th scope=\"col\">Kind</th><th scope=\"col\">Parts</th><th scope=\"col\">Where</th><th "
         "scope=\"col\">Place</th>"
         "<th scope=\"col\">Wanted</th><th scope=\"col\">Measured</th><th scope=\"col\">Met</th>"
         "<th scope=\"col\">Reason</th></tr></thead><tbody>" +
         rows + "</tbody></table></div></section>" + allowedList(page);
}

}  // namespace swingroom::html
