#include <map>

#include "core/print/process/table_keys.h"
#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

/// What a figure of the tables is called for a person, and in what it is given.
struct FigureWords {
  const char* what;
  const char* unit;
};

const FigureWords* wordsFor(const std::string& key) {
  static const std::map<std::string, FigureWords> all = {
      {"spotMm", {"Width of the nozzle or light spot", "mm"}},
      {"layerMm", {"Layer", "mm"}},
      {"leastWallMm", {"Least wall, held on two sides or more", "mm"}},
      {"leastFreeWallMm", {"Least wall, free on three sides", "mm"}},
      {"leastPinMm", {"Least pin", "mm, diameter"}},
      {"leastJointPinMm", {"Least pin that something turns on", "mm, diameter"}},
      {"leastHoleMm", {"Least hole", "mm, diameter"}},
      {"leastGapMm", {"Least gap between faces that pass", "mm a side"}},
      {"leastPinClearanceMm", {"Least clearance of a pin that turns", "mm on the diameter"}},
      {"mostPinClearanceMm", {"Most clearance before it flops", "mm on the diameter"}},
      {"firstLayerMm", {"What the first layer takes more", "mm"}},
      {"growthOutsideMm", {"Growth of outer faces", "mm a side"}},
      {"growthInsideMm", {"Growth of faces that look inwards", "mm a side"}},
      {"holeShrinkMm", {"Shrinkage of round holes", "mm on the diameter"}},
      {"scatterMm", {"Scatter from print to print", "± mm"}},
      {"overhangDeg", {"Faces flatter than this need support", "°"}},
      {"bridgeMm", {"Span that holds itself at both ends", "mm"}},
      {"escapeHoleMm", {"Hole that lets what is inside out", "mm, diameter"}},
      {"infillShare", {"Infill", "share of the inside"}},
      {"shellMm", {"Solid skin", "mm"}},
      {"densityGPerCm3", {"Density", "g/cm³"}},
      {"modulusMPa", {"Stiffness in the layers’ plane", "MPa"}},
      {"poisson", {"Poisson’s ratio", ""}},
      {"strainOnce", {"Greatest strain of a snap, once", "fraction"}},
      {"strainOften", {"Greatest strain of a snap, again and again", "fraction"}},
      {"frictionLow", {"Friction on itself, low", ""}},
      {"frictionHigh", {"Friction on itself, high", ""}},
  };
  const auto found = all.find(key);
  return found == all.end() ? nullptr : &found->second;
}

std::string sourcedRow(const std::string& key, const Sourced& sourced, double inOurUnit) {
  const FigureWords* words = wordsFor(key);
  const double value = rounded(sourced.value / inOurUnit);
  return "<tr>" + rowHead(words ? words->what : escaped(key)) +
         figureCell(data(value, shortest(value))) + textCell(words ? words->unit : "") +
         textCell(wordFor(sourced.kind)) + textCell(escaped(sourced.source)) + "</tr>";
}

template <typename Entry, typename Keys>
std::string entryBlock(const Entry& entry, const Keys& keys, const std::string& title) {
  std::string rows;
  for (const auto& key : keys) rows += sourcedRow(key.key, entry.*key.figure, key.inOurUnit);
  return folded(title, tableOf({{"Figure"}, {"", true}, {"Unit"}, {"Kind"}, {"Source"}}, rows));
}

}  // namespace

std::string processesSection(const ReportPage& page) {
  const PrintSubject& subject = *page.report->print->subject;
  std::map<std::string, std::string> processes, materials;
  for (const PartPrint& print : subject.parts) {
    if (!print.printed) continue;
    const PrintProcess& process = print.process;
    std::string& block = processes[process.name];
    if (block.empty()) {
      block = entryBlock(process, processKeys(),
                         "<b>" + escaped(process.name) + "</b>: " + wordFor(process.method) +
                             ", bed " + shortest(process.bedMm[0]) + " × " +
                             shortest(process.bedMm[1]) + " × " + shortest(process.bedMm[2]) +
                             "\u00a0mm");
    }
    std::string& material = materials[print.material.name];
    if (material.empty())
      material = entryBlock(print.material, materialKeys(),
                            "<b>" + escaped(print.material.name) + "</b>");
  }
  if (processes.empty()) return "";
  std::string content;
  for (const auto& [name, block] : processes) content += block;
  for (const auto& [name, block] : materials) content += block;
  return sectionOf("print-process", "Processes and materials",
                   "What the print checks were asked with. Published: read in the source that is "
                   "named. Common practice: no source decides it. Measured: your own, from a "
                   "printed test piece. All are indicative.",
                   content);
}

}  // namespace swingroom::html
