#include <cmath>
#include <map>

#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

std::string sizeText(const Vector3d& sizeMm) {
  return figure(rounded(sizeMm.x()), 1) + " × " + figure(rounded(sizeMm.y()), 1) + " × " +
         figure(rounded(sizeMm.z()), 1);
}

/// Which of the part's axes points up from the bed: "+z up", "near +x up".
std::string upWord(const Eigen::Matrix3d& R_BP) {
  const Vector3d up_P = R_BP.transpose() * Vector3d::UnitZ();
  Eigen::Index most = 0;
  const double share = up_P.cwiseAbs().maxCoeff(&most);
  const std::string axis =
      std::string(up_P(most) < 0 ? "-" : "+") + "xyz"[static_cast<std::size_t>(most)];
  return (share < std::cos(radFromDeg(1)) ? "near " : "") + axis + " up";
}

std::string bedText(const SetItem& item) {
  if (!item.printed) return "bought";
  if (!item.hasMesh) return "no mesh";
  if (item.fit.verdict == BedVerdict::doesNotFit)
    return layerMark(LayerMark::finding) + " too large, by " +
           range(roundedDown(item.fit.overLowerMm), roundedUp(item.fit.overUpperMm), 1) +
           "\u00a0mm";
  if (item.stands.empty()) return wordFor(item.fit.verdict);
  const BedStand& stand = item.stands.front();
  std::string text = upWord(stand.R_BP) + (stand.fits ? "" : ", too large so");
  text += "<span class=\"q word\">";
  text += stand.needsSupport()
              ? "supports under " + figure(rounded(stand.supportMm2), 0) + "\u00a0mm²"
              : std::string("no supports");
  if (stand.pinsUpright > 0) text += ", " + counted(static_cast<std::size_t>(stand.pinsUpright),
                                                    "pin upright", "pins upright");
  return text + "</span>";
}

/// Only how well the model is known; density and infill are another matter.
std::string massOff(const PieceMass& mass) {
  const double off = std::max(mass.upperG - mass.massG, mass.massG - mass.lowerG);
  return off < 0.001 ? "± under 0.001" : "±\u00a0" + fixed(off, 3);
}

std::string itemRow(const ReportPage& page, const SetItem& item) {
  const PrintSubject& subject = *page.report->print->subject;
  std::string names = partList(subject, item.parts);
  if (item.isJointPin) names += "<span class=\"q\">pin of a joint</span>";
  std::string mass = "<span class=\"q\">not known</span>";
  if (item.mass) {
    mass = figure(rounded(item.mass->massG), decimalsOf(item.mass->massG)) +
           "<span class=\"q\">" + massOff(*item.mass) + "</span>";
  }
  return "<tr>" + figureCell(std::to_string(item.count) + "\u00a0×") + rowHead(names) +
         textCell(colourChip(page, item.parts.front()) + escaped(item.colour) +
                  (item.printed ? "<span class=\"q\">" + escaped(item.material) + "</span>" : "")) +
         figureCell(item.hasMesh ? sizeText(item.sizeMm) : "") +
         figureCell(item.volumeMm3 ? figure(rounded(*item.volumeMm3), 0) : "") + figureCell(mass) +
         figureCell(item.strandMm > 0 ? figure(rounded(item.strandMm), 0) : "") +
         textCell(bedText(item)) + "</tr>";
}

std::string loadRow(const PrintSet& set, const BedLoad& load, std::size_t number) {
  std::map<std::string, std::size_t> counts;
  for (const LoadedPiece& piece : load.pieces) ++counts[set.items.at(piece.item).name];
  std::string names;
  for (const auto& [name, count] : counts) {
    names += (names.empty() ? "" : ", ") + (count > 1 ? std::to_string(count) + "\u00a0× " : "") +
             escaped(name);
  }
  return "<tr>" + rowHead("Load " + std::to_string(number)) +
         textCell(escaped(load.colour) + "<span class=\"q\">" + escaped(load.material) + ", " +
                  escaped(load.process) + "</span>") +
         figureCell(std::to_string(load.pieces.size())) + "<td class=\"long\">" + names +
         "</td></tr>";
}

std::string totalsList(const PrintSet& set) {
  const SetTotals& totals = set.totals;
  std::string out = "<dl class=\"facts\" style=\"margin:8px 0 16px\">";
  const auto fact = [&](const std::string& name, const std::string& value) {
    out += "<dt>" + name + "</dt><dd>" + value + "</dd>";
  };
  std::string pieces = counted(totals.pieces, "printed piece", "printed pieces");
  if (totals.bought > 0) pieces += ", " + std::to_string(totals.bought) + " bought";
  pieces += "; " + counted(set.assembledPieces, "piece", "pieces") + " to put together";
  if (set.jointPins > 0) pieces += ", " + std::to_string(set.jointPins) + " of them pins of joints";
  fact("One set", pieces);
  fact("Loads", counted(totals.loads, "load", "loads") +
                    (totals.notLaid > 0 ? ", " + counted(totals.notLaid, "piece", "pieces") +
                                              " on none of them"
                                        : ""));
  fact("Mass", range(roundedDown(totals.mass.lowerG), roundedUp(totals.mass.upperG), 1) + "\u00a0g, " +
                   fixed(totals.volumeMm3 / 1000, 1) + "\u00a0cm³" +
                   (totals.massUnknown > 0 ? ", without " + counted(totals.massUnknown, "piece",
                                                                    "pieces") + " of unknown mass"
                                           : ""));
  if (totals.strandMm > 0) fact("Filament", "about " + fixed(totals.strandMm / 1000, 1) + "\u00a0m");
  return out + "</dl>";
}

}  // namespace

std::string setSection(const ReportPage& page) {
  const PrintSet& set = page.report->print->result->set;
  if (set.items.empty()) return "";
  std::vector<std::string> rows;
  for (const SetItem& item : set.items) rows.push_back(itemRow(page, item));
  std::string content = totalsList(set) + longTable({{"", true},
                                                     {"Part"},
                                                     {"Colour, material"},
                                                     {"Size, mm", true},
                                                     {"Volume, mm³", true},
                                                     {"Mass, g", true},
                                                     {"Filament, mm", true},
                                                     {"On the bed"}},
                                                    rows, 40, "more");
  std::string loads;
  for (std::size_t l = 0; l < set.loads.size(); ++l) loads += loadRow(set, set.loads[l], l + 1);
  if (!loads.empty()) {
    content += subTitle("Loads") +
               tableOf({{"Load"}, {"Colour, material"}, {"Pieces", true}, {"What is on it"}}, loads);
  }
  return sectionOf("print-set", "The set to print",
                   "Figures are of one piece. Masses as modelled, of indicative densities, infill "
                   "and skin, without supports; ± is how well the model's mass is known.",
                   content);
}

}  // namespace swingroom::html
