#pragma once

#include <vector>

#include "app/models/ribbon_row.h"

namespace swingroom {

/// A part in the ribbon by part: at each instant the worst of its pairs.
struct RibbonPart {
  PartId part;
  QString name;
  std::optional<Verdict> verdict;  ///< The worst; none: none of them is checked.
  std::vector<RibbonRun> runs;     ///< Side by side, by `from`.
  std::vector<std::size_t> pairs;  ///< Rows of the ribbon, worst first.

  bool operator==(const RibbonPart&) const = default;
};

/// Every part that has a row in the ribbon, in the order of their worst rows.
std::vector<RibbonPart> partsOf(const Ribbon& ribbon);

/// The row of the pair that a part's row shows at an instant.
std::size_t worstPairAt(const Ribbon& ribbon, const RibbonPart& part, double instant);

/// One line of the ribbon as it is shown.
struct RibbonLine {
  enum class Kind { part, pair, far, waiting };
  Kind kind = Kind::pair;
  std::size_t index = 0;             ///< Into the parts, or the ribbon's rows.
  std::optional<std::size_t> under;  ///< Of a pair in the ribbon by part: the part it stands under.

  bool operator==(const RibbonLine&) const = default;
};

/// Which lines the ribbon shows, and in which order: by pair, worst first; or by part, each part
/// open to its pairs or folded. What is open stays so when other results come.
class RibbonLines {
 public:
  void setRibbon(const Ribbon& ribbon);
  void setByPart(bool byPart);
  /// Without effect by pair.
  void setOpen(PartId part, bool open);
  void setAllOpen(bool open);

  const Ribbon& ribbon() const { return ribbon_; }
  const std::vector<RibbonPart>& parts() const { return parts_; }
  const std::vector<RibbonLine>& lines() const { return lines_; }
  bool isByPart() const { return byPart_; }
  bool isOpen(PartId part) const;
  bool isAnyOpen() const;

  /// The pair's line: the one under `under` if there is such, or that part's own if it is folded;
  /// else the first of its lines; where both its parts are folded, that of the first.
  std::optional<std::size_t> lineOf(PartId a, PartId b,
                                    const std::optional<PartId>& under = std::nullopt) const;
  /// The part's own line; none by pair.
  std::optional<std::size_t> lineOf(PartId part) const;

 private:
  void arrange();

  Ribbon ribbon_;
  std::vector<RibbonPart> parts_;
  std::vector<RibbonLine> lines_;
  std::vector<PartId> open_;  ///< Sorted.
  bool byPart_ = false;
};

}  // namespace swingroom
