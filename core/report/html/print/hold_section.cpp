#include <algorithm>
#include <cmath>

#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

class HoldTable {
 public:
  explicit HoldTable(const PrintReport& print)
      : subject_(*print.subject), weight_(print.result->weight) {}

  std::string write() const {
    std::vector<std::string> rows;
    for (std::size_t j = 0; j < subject_.assembly->joints().size(); ++j) addRow(JointId{j}, rows);
    if (rows.empty()) return "";
    std::vector<TableColumn> columns = {{"Joint"}};
    for (const ModeWeight& mode : weight_.modes) {
      columns.push_back({"In " + modeName(subject_, mode.mode)});
    }
    columns.push_back({"Worst on the way", true});
    columns.push_back({"Its fit holds", true});
    return longTable(columns, rows, 24, "more joints");
  }

 private:
  bool slides(JointId joint) const {
    return subject_.assembly->joint(joint).type == JointType::slide;
  }
  std::string unitOf(JointId joint) const { return slides(joint) ? "\u00a0N" : "\u00a0N\u00a0mm"; }

  void addRow(JointId joint, std::vector<std::string>& rows) const {
    std::string cells;
    const JointHold* any = nullptr;
    for (const ModeWeight& mode : weight_.modes) {
      const auto found =
          std::find_if(mode.joints.begin(), mode.joints.end(),
                       [&](const JointHold& hold) { return hold.joint == joint; });
      if (found != mode.joints.end()) any = &*found;
      cells += textCell(found == mode.joints.end() ? "" : modeCell(*found));
    }
    if (!any) return;
    rows.push_back("<tr>" + rowHead(jointName(subject_, joint)) + cells + figureCell(worst(joint)) +
                   figureCell(holds(*any)) + "</tr>");
  }

  std::string modeCell(const JointHold& hold) const {
    const bool wrong = hold.kind == HoldKind::droops;
    const bool may = hold.kind == HoldKind::mayDroop;
    std::string text = "<span class=\"word\">";
    if (wrong || may) text += layerMark(wrong ? LayerMark::finding : LayerMark::hint) + " ";
    text += std::string(wordFor(hold.kind)) + "</span>";
    if (hold.kind != HoldKind::level) {
      text += "<span class=\"q\">load " + figure(rounded(hold.load), decimalsOf(hold.load)) +
              unitOf(hold.joint) + "</span>";
    }
    if (const auto margin = holdMarginOf(hold)) {
      const double lower = roundedDown(margin->lower), upper = roundedUp(margin->upper);
      text += "<span class=\"q\">margin " + loadRange(lower, upper) +
              unitOf(hold.joint) + "</span>";
    }
    return text;
  }

  std::string worst(JointId joint) const {
    const auto found = std::find_if(weight_.worst.begin(), weight_.worst.end(),
                                    [&](const WorstLoad& load) { return load.joint == joint; });
    if (found == weight_.worst.end()) return "<span class=\"q\">not looked at</span>";
    const double upper = roundedUp(found->upper + found->offBy);
    return figure(upper, decimalsOf(upper)) + unitOf(joint) + "<span class=\"q\">" +
           escaped(subject_.ways->at(found->way).name) + ", instant " + fixed(found->instant, 2) +
           "</span>";
  }

  std::string holds(const JointHold& hold) const {
    if (!std::isfinite(hold.holdsHigh)) return "<span class=\"q\">not known</span>";
    const double low = roundedDown(hold.holdsLow), high = roundedUp(hold.holdsHigh);
    if (high <= 0) return "nothing";
    return loadRange(low, high) + unitOf(hold.joint);
  }

  const PrintSubject& subject_;
  const WeightResult& weight_;
};

}  // namespace

std::string holdSection(const ReportPage& page) {
  const PrintReport& print = *page.report->print;
  const HungMass& whole = print.result->weight.whole;
  if (whole.massG <= 0) return "";
  std::string mass = "The figure weighs " +
                     range(roundedDown(whole.lowerG), roundedUp(whole.upperG), 1) +
                     "\u00a0g as modelled, of indicative densities, infill and skin";
  if (whole.unknown > 0)
    mass += ", without " + counted(whole.unknown, "part", "parts") + " of unknown mass";
  const std::string table = HoldTable(print).write();
  if (table.empty()) return sectionOf("print-hold", "Weight and hold", mass + ".", cautionBlock());
  return sectionOf("print-hold", "Weight and hold",
                   mass + ". What keeps each joint where it stands in each mode, against gravity; "
                          "a margin is what the fit holds less what it has to, with the low and "
                          "the high friction. As printed and fresh: plastics creep, so that it "
                          "holds less later. How strong clicks and grips are was not computed.",
                   cautionBlock() + table);
}

}  // namespace swingroom::html
