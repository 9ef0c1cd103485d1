#include "app/models/ribbon_lines.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace swingroom {
namespace {

using Rank = std::tuple<int, double>;

/// Which of two fills is the worse. What is not looked at yet comes before any gap: it may be
/// worse.
int toneRank(RibbonTone tone) {
  switch (tone) {
    case RibbonTone::clash:
      return 6;
    case RibbonTone::tight:
      return 5;
    case RibbonTone::loose:
      return 4;
    case RibbonTone::unproven:
      return 3;
    case RibbonTone::pending:
      return 2;
    case RibbonTone::gap:
      return 1;
    case RibbonTone::allowed:
      return 0;
  }
  return 0;
}

Rank rankOf(const RibbonRun& run) {
  return {toneRank(run.tone), run.nearness};
}

/// The worst of several rows in each stretch between two ends of their runs.
class WorstOfRows {
 public:
  WorstOfRows(const Ribbon& ribbon, const std::vector<std::size_t>& rows) {
    for (const std::size_t r : rows) {
      for (const RibbonRun& run : ribbon.rows[r].runs) {
        // Most runs begin where the one before ends.
        if (edges_.empty() || edges_.back() != run.from) edges_.push_back(run.from);
        edges_.push_back(run.to);
      }
    }
    std::sort(edges_.begin(), edges_.end());
    edges_.erase(std::unique(edges_.begin(), edges_.end()), edges_.end());
    worst_.assign(edges_.empty() ? 0 : edges_.size() - 1, nullptr);
    for (const std::size_t r : rows) add(ribbon.rows[r]);
  }

  std::vector<RibbonRun> runs() const {
    std::vector<RibbonRun> joined;
    for (std::size_t e = 0; e < worst_.size(); ++e) {
      if (!worst_[e]) continue;
      RibbonRun piece = *worst_[e];
      piece.from = edges_[e];
      piece.to = edges_[e + 1];
      const bool goesOn = !joined.empty() && joined.back().to == piece.from &&
                          rankOf(joined.back()) == rankOf(piece);
      if (goesOn) {
        joined.back().to = piece.to;
      } else {
        joined.push_back(piece);
      }
    }
    joined.insert(joined.end(), touches_.begin(), touches_.end());
    return joined;
  }

 private:
  /// Within a row later runs lie on earlier ones.
  void add(const RibbonRow& row) {
    std::vector<const RibbonRun*> top(worst_.size(), nullptr);
    for (const RibbonRun& run : row.runs) {
      // A touch of no length lies on all.
      if (run.from == run.to) touches_.push_back(run);
      const auto first = std::lower_bound(edges_.begin(), edges_.end(), run.from);
      for (auto e = static_cast<std::size_t>(first - edges_.begin());
           e < top.size() && edges_[e] < run.to; ++e) {
        top[e] = &run;
      }
    }
    for (std::size_t e = 0; e < top.size(); ++e) {
      if (top[e] && (!worst_[e] || rankOf(*top[e]) > rankOf(*worst_[e]))) worst_[e] = top[e];
    }
  }

  std::vector<double> edges_;
  std::vector<const RibbonRun*> worst_;
  std::vector<RibbonRun> touches_;
};

/// The run that is seen at an instant; none: as quiet as a far gap.
Rank rankAt(const RibbonRow& row, double instant) {
  for (auto run = row.runs.rbegin(); run != row.runs.rend(); ++run) {
    if (run->from <= instant && instant <= run->to) return rankOf(*run);
  }
  return {toneRank(RibbonTone::gap), 0};
}

}  // namespace

std::vector<RibbonPart> partsOf(const Ribbon& ribbon) {
  std::vector<RibbonPart> parts;
  std::map<PartId, std::size_t> known;
  for (std::size_t r = 0; r < ribbon.rows.size(); ++r) {
    const RibbonRow& row = ribbon.rows[r];
    for (const auto& [part, name] :
         {std::pair(row.a, row.partNames[0]), std::pair(row.b, row.partNames[1])}) {
      const auto [at, isNew] = known.try_emplace(part, parts.size());
      if (isNew) parts.push_back({part, name, std::nullopt, {}, {}});
      RibbonPart& found = parts[at->second];
      found.pairs.push_back(r);
      if (row.verdict && (!found.verdict || *row.verdict < *found.verdict)) {
        found.verdict = row.verdict;
      }
    }
  }
  for (RibbonPart& part : parts) {
    part.runs = WorstOfRows(ribbon, part.pairs).runs();
  }
  return parts;
}

std::size_t worstPairAt(const Ribbon& ribbon, const RibbonPart& part, double instant) {
  // Rows are worst first: of equal ones the first.
  return *std::max_element(part.pairs.begin(), part.pairs.end(), [&](std::size_t a, std::size_t b) {
    return rankAt(ribbon.rows[a], instant) < rankAt(ribbon.rows[b], instant);
  });
}

void RibbonLines::setRibbon(const Ribbon& ribbon) {
  ribbon_ = ribbon;
  parts_ = byPart_ ? partsOf(ribbon_) : std::vector<RibbonPart>();
  arrange();
}

void RibbonLines::setByPart(bool byPart) {
  if (byPart == byPart_) return;
  byPart_ = byPart;
  parts_ = byPart_ ? partsOf(ribbon_) : std::vector<RibbonPart>();
  arrange();
}

void RibbonLines::setOpen(PartId part, bool open) {
  const auto at = std::lower_bound(open_.begin(), open_.end(), part);
  const bool isOpen = at != open_.end() && *at == part;
  if (open == isOpen || !byPart_) return;
  if (open) {
    open_.insert(at, part);
  } else {
    open_.erase(at);
  }
  arrange();
}

void RibbonLines::setAllOpen(bool open) {
  if (!byPart_) return;
  open_.clear();
  if (open) {
    for (const RibbonPart& part : parts_) open_.push_back(part.part);
    std::sort(open_.begin(), open_.end());
  }
  arrange();
}

bool RibbonLines::isOpen(PartId part) const {
  return std::binary_search(open_.begin(), open_.end(), part);
}

bool RibbonLines::isAnyOpen() const {
  return std::any_of(parts_.begin(), parts_.end(),
                     [this](const RibbonPart& part) { return isOpen(part.part); });
}

void RibbonLines::arrange() {
  lines_.clear();
  if (byPart_) {
    for (std::size_t p = 0; p < parts_.size(); ++p) {
      lines_.push_back({RibbonLine::Kind::part, p, std::nullopt});
      if (!isOpen(parts_[p].part)) continue;
      for (const std::size_t r : parts_[p].pairs) lines_.push_back({RibbonLine::Kind::pair, r, p});
    }
  } else {
    for (std::size_t r = 0; r < ribbon_.rows.size(); ++r) {
      lines_.push_back({RibbonLine::Kind::pair, r, std::nullopt});
    }
  }
  if (ribbon_.farPairs > 0) lines_.push_back({RibbonLine::Kind::far, 0, std::nullopt});
  if (ribbon_.waiting > 0) lines_.push_back({RibbonLine::Kind::waiting, 0, std::nullopt});
}

std::optional<std::size_t> RibbonLines::lineOf(PartId a, PartId b,
                                               const std::optional<PartId>& under) const {
  std::optional<std::size_t> first, folded;
  for (std::size_t l = 0; l < lines_.size(); ++l) {
    const RibbonLine& line = lines_[l];
    if (line.kind == RibbonLine::Kind::part) {
      const PartId part = parts_[line.index].part;
      const bool ofPair = (part == a || part == b) && !isOpen(part);
      if (ofPair && under == part) return l;
      if (ofPair && !folded) folded = l;
    }
    if (line.kind != RibbonLine::Kind::pair) continue;
    const RibbonRow& row = ribbon_.rows[line.index];
    if (std::minmax(row.a, row.b) != std::minmax(a, b)) continue;
    if (line.under && under == parts_[*line.under].part) return l;
    if (!first) first = l;
  }
  return first ? first : folded;
}

std::optional<std::size_t> RibbonLines::lineOf(PartId part) const {
  for (std::size_t line = 0; line < lines_.size(); ++line) {
    if (lines_[line].kind == RibbonLine::Kind::part && parts_[lines_[line].index].part == part) {
      return line;
    }
  }
  return std::nullopt;
}

}  // namespace swingroom
