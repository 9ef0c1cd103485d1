#pragma once

#include <QString>
#include <optional>
#include <vector>

#include "app/session/print/print_board.h"

namespace swingroom {

/// What a finding is about, in the page's order.
enum class PrintSection { asPrinted, walls, fits, grips, seams, hold, stand, set, cautions };
PrintSection sectionOf(PrintWord word);

/// An instant of a way.
struct WayPlace {
  std::size_t way = 0;
  double instant = 0;

  bool operator==(const WayPlace&) const = default;
};

/// One finding as a person reads it.
struct PrintRow {
  PrintSection section = PrintSection::asPrinted;
  PrintWord kind = PrintWord::thinWall;
  PrintGrade grade = PrintGrade::finding;
  QString word;          ///< "thin wall"
  QString about;         ///< "torso and keel", "hip port (thigh and torso)", "the whole figure"
  QString where;         ///< "in deckhand"; empty: in no mode of its own.
  QString figure;        ///< "0.42 mm"
  QString needed;        ///< "against 0.80 mm"; empty: it is held against nothing.
  QString sentence;      ///< Begins with a capital and ends with a full stop.
  QString against;       ///< "Held against 0.80 mm, common practice"; empty: nothing.
  QString caution;       ///< Said with what is about loads and safety.
  double shortfall = 0;  ///< What is missing, as a share of what is needed; the worst is largest.
  std::vector<PartId> parts;
  std::optional<ModeId> mode;
  std::optional<Vector3d> at_P;   ///< In the frame of the first of `parts`, mm.
  std::optional<WayPlace> onWay;  ///< Where a gap as printed is least.

  bool operator==(const PrintRow&) const = default;
};

/// Findings first, by sections and the worst first in each; then hints, those of one word together.
std::vector<PrintRow> printRowsOf(const PrintKnown& known);

/// "0.42 mm", "0.42 to 0.45 mm": with as many decimals as tell it from what is needed.
QString printFigure(double lower, double upper, const std::optional<double>& needed,
                    const std::string& unit);

/// Where what a finding is held against comes from; none: from no table.
std::optional<Sourced> sourceOfNeeded(const PrintFinding& finding,
                                      const std::vector<PartPrint>& parts);

}  // namespace swingroom
