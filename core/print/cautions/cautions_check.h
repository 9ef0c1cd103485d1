#pragma once

#include <string>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/cautions/finger_gaps.h"
#include "core/print/cautions/sharp_edges.h"
#include "core/print/cautions/small_parts.h"
#include "core/print/finding.h"
#include "core/print/subject.h"

namespace swingroom {

/// What of one part may matter where toys are judged.
struct PartCautions {
  PartId part;
  PassAnswer fitsSmallParts = PassAnswer::unknown;
  bool ballLike = false;
  PassAnswer passesBallHole = PassAnswer::unknown;  ///< Of a part that is a ball.
  SharpEdges sharp;

  bool operator==(const PartCautions&) const = default;
};

/// Hints on geometry, of parts as modelled. They certify nothing and say nothing of a toy's safety.
struct CautionsResult {
  std::vector<PartCautions> parts;    ///< By PartId; of all that have a mesh, bought ones too.
  std::vector<FingerGap> fingerGaps;  ///< By pair and way.

  std::size_t count(PassAnswer fitsSmallParts) const;
  bool operator==(const CautionsResult&) const = default;
};

/// The same for any number of threads; after a cancel what is returned means nothing.
CautionsResult checkCautions(const PrintSubject& subject, WorkMonitor& monitor);

/// Hints only.
void addCautionFindings(const PrintSubject& subject, const CautionsResult& result,
                        PrintFindings& findings);

/// What the figures rest on, with the clause, and what was not verified: to be shown in the same
/// place as any of them. One sentence each.
const std::vector<std::string>& cautionNotes();

/// The one of them that is about findings of this word; empty: none is.
std::string cautionNoteOf(PrintWord word);

}  // namespace swingroom
