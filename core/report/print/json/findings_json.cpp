#include "core/report/print/json/json_sections.h"
#include "core/report/print/json/json_values.h"
#include "core/report/print/print_words.h"

namespace swingroom::print_json {
namespace {

PrintJson findingJson(const PrintSubject& subject, const PrintFinding& finding) {
  const bool exact = finding.lower == finding.upper;
  PrintJson json;
  json["word"] = wordFor(finding.word);
  json["grade"] = finding.grade == PrintGrade::finding ? "finding" : "hint";
  json["parts"] = PrintJson::array();
  for (const PartId id : finding.parts) json["parts"].push_back(subject.part(id).name);
  json["joint"] = nullptr;
  if (finding.joint) json["joint"] = subject.assembly->joint(*finding.joint).name;
  json["mode"] = nullptr;
  if (finding.mode) json["mode"] = subject.modes->at(finding.mode->index).name;
  json["at"] = nullptr;
  if (finding.at_P) json["at"] = place(*finding.at_P);
  json["lower"] = exact ? number(finding.lower) : down(finding.lower);
  json["upper"] = exact ? number(finding.upper) : up(finding.upper);
  json["needed"] = orNull(finding.needed);
  json["unit"] = finding.unit;
  json["sentence"] = finding.sentence;
  return json;
}

PrintJson gapJson(const PrintSubject& subject, const PrintedGap& gap) {
  PrintJson json;
  json["parts"] = {subject.part(gap.a).name, subject.part(gap.b).name};
  json["state"] = wordFor(gap.state);
  json["growthMm"] = number(gap.growthMm);
  json["scatterMm"] = number(gap.scatterMm);
  const bool hasGap = gap.state == PrintedState::apart || gap.state == PrintedState::closes;
  json["lowerMm"] = hasGap ? down(gap.lowerMm) : nullptr;
  json["upperMm"] = hasGap && gap.upperMm ? up(*gap.upperMm) : nullptr;
  json["way"] = nullptr;
  json["instant"] = nullptr;
  if (hasGap) {
    json["way"] = subject.ways->at(gap.way).name;
    json["instant"] = number(gap.instant);
  }
  json["withPlay"] = nullptr;
  if (gap.state == PrintedState::apart && gap.playIsKnown) {
    json["withPlay"] = {{"lowerMm", down(gap.playLowerMm)},
                        {"upperMm", gap.playUpperMm ? up(*gap.playUpperMm) : nullptr}};
  }
  return json;
}

PrintJson printerSpanJson(const PrinterSpan& span) {
  if (span.empty) return nullptr;
  return {{"from", number(span.from)},
          {"fromLimit", span.fromLimit},
          {"to", number(span.to)},
          {"toLimit", span.toLimit}};
}

}  // namespace

PrintJson findingsJson(const PrintReport& report) {
  PrintJson json = PrintJson::array();
  for (const PrintFinding& finding : report.result->findings) {
    json.push_back(findingJson(*report.subject, finding));
  }
  return json;
}

PrintJson asPrintedJson(const PrintReport& report) {
  PrintJson json = PrintJson::array();
  for (const PrintedGap& gap : report.result->printed.pairs) {
    json.push_back(gapJson(*report.subject, gap));
  }
  return json;
}

PrintJson printersJson(const PrintReport& report) {
  const PrinterWindow& window = report.result->printers;
  PrintJson json;
  json["growthMm"] = printerSpanJson(window.growthMm);
  json["scale"] = printerSpanJson(window.scale);
  json["expectedGrowthMm"] = number(window.expectedGrowthMm);
  json["region"] = PrintJson::array();
  for (const auto& corner : window.region) {
    json["region"].push_back({number(corner.x()), number(corner.y())});
  }
  return json;
}

}  // namespace swingroom::print_json
