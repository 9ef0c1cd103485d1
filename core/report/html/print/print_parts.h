#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/report/html/page.h"
#include "core/report/html/text.h"
#include "core/report/print/print_report.h"
#include "core/report/print/print_words.h"

/// What the sections of the print checks are put together from.
namespace swingroom::html {

/// Three layers of a print: one slipped (a finding), one missing (a hint), or as they should be.
enum class LayerMark { passes, finding, hint };
std::string layerMark(LayerMark mark);

struct TableColumn {
  std::string name;
  bool figure = false;  ///< Set to the right.
};

/// @param rows  `<tr>`s.
std::string tableOf(const std::vector<TableColumn>& columns, const std::string& rows);
/// The first `most` rows as they are, the others folded.
/// @param rest  What the others are: "more pairs".
std::string longTable(const std::vector<TableColumn>& columns, const std::vector<std::string>& rows,
                      std::size_t most, const std::string& rest);

std::string rowHead(const std::string& text);  ///< Already escaped, as all cells.
std::string textCell(const std::string& text);
std::string figureCell(const std::string& text);

/// A figure that the JSON report has, rounded as there.
std::string figure(double jsonValue, int decimals);
/// "0.440 to 0.460"; one figure if both read alike.
std::string range(double lower, double upper, int decimals);
/// The same of a load or a torque, each end with its own decimals.
std::string loadRange(double lower, double upper);
/// Decimals with which a torque, force or mass is read: 3 below 0.1, 2 below 10, else 1.
int decimalsOf(double value);

/// "<section ...><h2>...", with a lead.
std::string sectionOf(const std::string& id, const std::string& title, const std::string& lead,
                      const std::string& content);
std::string subTitle(const std::string& title);
std::string folded(const std::string& summary, const std::string& content);

/// What stands beside figures of small parts, openings, edges and loads: the first notes, and the
/// others folded.
std::string cautionBlock();

/// "head", "shin_port, shin_starboard"; escaped.
std::string partList(const PrintSubject& subject, const std::vector<PartId>& parts);
std::string partPair(const PrintSubject& subject, PartId a, PartId b);
std::string modeName(const PrintSubject& subject, ModeId mode);
std::string jointName(const PrintSubject& subject, JointId joint);

/// Mark and word of the first finding, else the first hint, of these words about these parts;
/// empty: there is none.
std::string foundOf(const PrintResult& result, const std::vector<PartId>& parts,
                    const std::vector<PrintWord>& words);

/// A small square in the part's colour.
std::string colourChip(const ReportPage& page, PartId part);

/// To a tenth: for paths.
std::string at(double value);
std::string svgText(double x, double y, const std::string& anchor, const std::string& text,
                    const std::string& kind = "");

}  // namespace swingroom::html
