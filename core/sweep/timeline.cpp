#include "core/sweep/timeline.h"

#include <algorithm>

namespace swingroom {
namespace {

/// Larger is worse.
int severity(Standing standing) {
  switch (standing) {
    case Standing::clash:
      return 3;
    case Standing::tight:
      return 2;
    case Standing::unproven:
      return 1;
    case Standing::clear:
      break;
  }
  return 0;
}

std::vector<double> endsOf(const std::vector<TrackPiece>& pieces) {
  std::vector<double> ends;
  for (const TrackPiece& piece : pieces) ends.insert(ends.end(), {piece.from, piece.to});
  std::sort(ends.begin(), ends.end());
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  return ends;
}

void append(std::vector<TrackPiece>& pieces, const TrackPiece& piece) {
  if (!pieces.empty() && pieces.back().standing == piece.standing && pieces.back().to >= piece.from) {
    pieces.back().to = std::max(pieces.back().to, piece.to);
  } else {
    pieces.push_back(piece);
  }
}

}  // namespace

std::vector<TrackPiece> worstOf(const std::vector<TrackPiece>& pieces) {
  std::vector<TrackPiece> sorted = pieces;
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const TrackPiece& a, const TrackPiece& b) { return a.from < b.from; });
  const std::vector<double> ends = endsOf(sorted);
  std::vector<TrackPiece> worst;
  std::vector<TrackPiece> open;
  std::size_t next = 0;
  for (std::size_t i = 0; i < ends.size(); ++i) {
    const double from = ends[i];
    // Pieces without length (the end of a replug) stand at one instant.
    for (std::size_t k = next; k < sorted.size() && sorted[k].from <= from; ++k) {
      if (sorted[k].to == from && sorted[k].from == from) append(worst, sorted[k]);
    }
    if (i + 1 == ends.size()) break;
    const double to = ends[i + 1];
    for (; next < sorted.size() && sorted[next].from <= from; ++next) open.push_back(sorted[next]);
    std::erase_if(open, [&](const TrackPiece& piece) { return piece.to <= from; });
    if (open.empty()) continue;
    const auto hardest = std::max_element(open.begin(), open.end(), [](const TrackPiece& a, const TrackPiece& b) {
      return severity(a.standing) < severity(b.standing);
    });
    append(worst, {from, to, hardest->standing});
  }
  return worst;
}

std::vector<TrackPiece> withoutClash(const std::vector<TrackPiece>& pieces) {
  std::vector<TrackPiece> runs;
  for (const TrackPiece& piece : worstOf(pieces)) {
    if (piece.standing != Standing::clash) append(runs, {piece.from, piece.to, Standing::clear});
  }
  return runs;
}

}  // namespace swingroom
