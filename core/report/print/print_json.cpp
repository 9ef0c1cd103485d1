#include "core/report/print/print_json.h"

#include "core/print/process/table_keys.h"
#include "core/report/print/json/json_sections.h"
#include "core/report/print/json/json_values.h"

namespace swingroom {
namespace {

using print_json::number;
using print_json::PrintJson;

PrintJson sourcedJson(const Sourced& figure, double unit) {
  PrintJson json = {{"value", number(figure.value / unit)}, {"kind", wordFor(figure.kind)}};
  if (!figure.source.empty()) json["source"] = figure.source;
  return json;
}

template <typename Entry, typename Keys>
PrintJson figuresJson(const Entry& entry, const Keys& keys) {
  PrintJson json = PrintJson::object();
  for (const auto& key : keys) json[key.key] = sourcedJson(entry.*key.figure, key.inOurUnit);
  return json;
}

/// Each that a printed part is made by, once.
PrintJson processesJson(const PrintSubject& subject) {
  PrintJson json = PrintJson::object();
  for (const PartPrint& print : subject.parts) {
    const PrintProcess& process = print.process;
    if (!print.printed || json.contains(process.name)) continue;
    json[process.name] = {{"method", wordFor(process.method)},
                          {"bedMm", {process.bedMm[0], process.bedMm[1], process.bedMm[2]}},
                          {"figures", figuresJson(process, processKeys())}};
  }
  return json;
}

PrintJson materialsJson(const PrintSubject& subject) {
  PrintJson json = PrintJson::object();
  for (const PartPrint& print : subject.parts) {
    if (!print.printed || json.contains(print.material.name)) continue;
    json[print.material.name] = figuresJson(print.material, materialKeys());
  }
  return json;
}

}  // namespace

nlohmann::ordered_json printJson(const PrintReport& report) {
  using namespace print_json;
  PrintJson json;
  json["passes"] = report.result->passes();
  json["processes"] = processesJson(*report.subject);
  json["materials"] = materialsJson(*report.subject);
  json["findings"] = findingsJson(report);
  json["cautions"] = cautionsJson(report);
  json["asPrinted"] = asPrintedJson(report);
  json["printers"] = printersJson(report);
  json["joints"] = jointsJson(report);
  json["grips"] = gripsJson(report);
  json["seams"] = seamsJson(report);
  json["walls"] = wallsJson(report);
  json["weight"] = weightJson(report);
  json["set"] = setJson(report);
  return json;
}

}  // namespace swingroom
